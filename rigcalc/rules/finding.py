"""What a design rule says, and what would cure it."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.model.edit import Change
from rigcalc.model.rig import Acceptance

SEVERITIES = ("stop", "warning", "advice", "info")


@dataclass(frozen=True, slots=True)
class Remedy:
    """A change tried through the study, and what it did."""

    sentence: str  # "Use 16 mm2: the drop falls to 2.6 %."
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True)
class Finding:
    """One rule's word on one part of the rig.

    ``state`` is "found", or "not stated" where a fact the rule needs was not given: neither passed nor failed.
    An acceptance on a stop is only a note; it stays a stop.
    """

    rule: str
    severity: str
    subject: str
    sentence: str
    measured: str
    limit: str
    source: str
    status: str
    state: str = "found"
    candidates: tuple[tuple[Change, ...], ...] = ()  # cures worth trying, best first
    accepted: Acceptance | None = None

    @property
    def stops(self) -> bool:
        """True where nothing may be energised before it is cured."""
        return self.severity == "stop" and self.state == "found"
