"""Safety facts shown beside a design; local codes and a licensed person come first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from rigcalc.tables import Row, load


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution(Row):
    """One safety fact, on battery, fuel, ventilation, wiring or protection."""

    KEY: ClassVar[tuple[str, ...]] = ("id",)
    id: str
    topic: str
    fact: str


def cautions(topic: str | None = None) -> tuple[Caution, ...]:
    """All cautions, or those of one topic.

    Examples
    --------
    >>> [row.id for row in cautions("fuel")]
    ['battery_fuel']
    """
    return tuple(row for row in load("cautions", Caution) if topic in (None, row.topic))
