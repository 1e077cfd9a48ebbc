"""Voltage-drop limits by rule set and by what the circuit feeds."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import ClassVar

from rigcalc.errors import need
from rigcalc.tables import Row, load

USES = ("navigation_light", "lighting", "pump", "electronics", "main_feeder", "other")


@dataclass(frozen=True, slots=True, kw_only=True)
class VoltageDropLimit(Row):
    """Largest drop of a circuit as a percentage of the nominal voltage, and how far the figure binds."""

    KEY: ClassVar[tuple[str, ...]] = ("rule_set", "use")
    rule_set: str
    use: str
    limit_pct: float
    binding: str


@cache
def voltage_drop_limit(rule_set_id: str, use: str, read_only: bool = True) -> VoltageDropLimit | None:
    """Drop limit of a rule set for one of `USES`; None where none is available from a read source.

    Examples
    --------
    >>> voltage_drop_limit("us_boat", "pump").limit_pct, voltage_drop_limit("eu_small_craft", "pump")
    (3.0, None)
    """
    need(use in USES, "Use of the circuit", use, f"one of {', '.join(USES)}")
    for row in load("voltage_drop_limits", VoltageDropLimit):
        if (row.rule_set, row.use) == (rule_set_id, use):
            return None if read_only and row.from_memory else row
    return None
