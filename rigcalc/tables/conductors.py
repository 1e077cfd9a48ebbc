"""Named conductor sizes with their copper area and resistance, and the constants of the drop formulas.

A size is a named size of one series, AWG or mm², never converted into the other.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import ClassVar

from rigcalc.errors import InputError
from rigcalc.tables import Row, load

SERIES = ("AWG", "mm2")


@dataclass(frozen=True, slots=True, kw_only=True)
class ConductorSize(Row):
    """A named size: 14 AWG (stranded, uncoated, 75 °C) or 6 mm2 (class 5, plain, 20 °C).

    ``order`` counts from 1, smallest first, within the series. AWG areas are computed from ASTM B258 diameters;
    ``circular_mils`` is the nominal area of an AWG size.
    """

    KEY: ClassVar[tuple[str, ...]] = ("name",)
    name: str
    series: str
    order: int
    area_mm2: float
    circular_mils: float | None
    resistance_ohm_per_km: float
    resistance_at_c: float

    def __hash__(self) -> int:
        return hash(self.name)

    @property
    def circular_mils_read_floor(self) -> float | None:
        """Least area that the printed sizes of the ABYC 12 V, 3 % table imply; None where it prints too little."""
        row = min_circular_mils(self.name, "read_floor")
        return row.circular_mils if row else None


@dataclass(frozen=True, slots=True, kw_only=True)
class MinCircularMils(Row):
    """Least copper area of an AWG size: ``read_floor`` (implied by a read table) or ``sae`` (from memory)."""

    KEY: ClassVar[tuple[str, ...]] = ("size", "basis")
    size: str
    basis: str
    circular_mils: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CopperConstant(Row):
    """A constant of a drop or resistance formula, in the unit its document prints."""

    KEY: ClassVar[tuple[str, ...]] = ("name",)
    name: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AdiabaticK(Row):
    """k of I²t ≤ k²S² for copper, from the insulation's working to its final temperature."""

    KEY: ClassVar[tuple[str, ...]] = ("insulation",)
    insulation: str
    initial_c: float
    final_c: float
    k_a_sqrt_s_per_mm2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MinConductorSize(Row):
    """Smallest size a rule set allows: ``single`` conductor, within a ``sheathed`` cable, or as ``chassis_bond``."""

    KEY: ClassVar[tuple[str, ...]] = ("rule_set", "situation")
    rule_set: str
    situation: str
    size: str


@cache
def conductor_sizes(series: str) -> tuple[ConductorSize, ...]:
    """All sizes of a series, smallest first.

    Examples
    --------
    >>> [size.name for size in conductor_sizes("AWG")][-2:]
    ['3/0 AWG', '4/0 AWG']
    """
    if series not in SERIES:
        raise InputError("Conductor series", series, "AWG or mm2")
    rows = (row for row in load("conductor_sizes", ConductorSize) if row.series == series)
    return tuple(sorted(rows, key=lambda row: row.order))


@cache
def conductor(name: str) -> ConductorSize:
    """The size of that name.

    Examples
    --------
    >>> conductor("6 mm2").resistance_ohm_per_km
    3.3
    """
    for row in load("conductor_sizes", ConductorSize):
        if row.name == name:
            return row
    names = ", ".join(row.name for row in load("conductor_sizes", ConductorSize))
    raise InputError("Conductor size", name, f"one of {names}")


@cache
def min_circular_mils(size_name: str, basis: str) -> MinCircularMils | None:
    """Least copper area of an AWG size by ``read_floor`` or ``sae``; None where nothing is recorded."""
    rows = load("min_circular_mils", MinCircularMils)
    return next((row for row in rows if (row.size, row.basis) == (size_name, basis)), None)


@cache
def copper_constant(name: str) -> CopperConstant:
    """One of circular_mil_k, circular_mil_k_metric, iec_rho1, iso_drop, zero_resistance_below_zero.

    Examples
    --------
    >>> copper_constant("circular_mil_k").value
    10.75
    """
    rows = {row.name: row for row in load("copper_constants", CopperConstant)}
    if name not in rows:
        raise InputError("Copper constant", name, f"one of {', '.join(rows)}")
    return rows[name]


@cache
def adiabatic_k(insulation_c: float) -> AdiabaticK | None:
    """The k row whose working temperature is exactly that insulation's; None where none is recorded.

    Examples
    --------
    >>> adiabatic_k(70).k_a_sqrt_s_per_mm2, adiabatic_k(75)
    (115.0, None)
    """
    return next((row for row in load("adiabatic_k", AdiabaticK) if row.initial_c == insulation_c), None)


@cache
def min_conductor_size(rule_set_id: str, situation: str) -> MinConductorSize | None:
    """Smallest size allowed for a ``single`` or ``sheathed`` conductor; None where no rule is recorded."""
    rows = load("min_conductor_sizes", MinConductorSize)
    return next((row for row in rows if (row.rule_set, row.situation) == (rule_set_id, situation)), None)
