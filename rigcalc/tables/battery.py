"""Battery chemistries, their capacity in the cold, open-circuit voltage and resistance; spreads of estimates.

The spreads by provenance and the shares of the cold box are this project's own starting figures, from common
practice without a source: they say how far a measured, a labelled and a guessed energy may be off.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import ClassVar

from rigcalc.errors import InputError
from rigcalc.tables import Row, load


@dataclass(frozen=True, slots=True, kw_only=True)
class Chemistry(Row):
    """A battery chemistry: nominal cell voltage and cells in a 12 V unit."""

    KEY: ClassVar[tuple[str, ...]] = ("id",)
    id: str
    title: str
    family: str
    cell_v: float
    cells_per_12v: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BatteryFigure(Row):
    """One figure of a chemistry or of its family, with the range it was found in where one is recorded."""

    KEY: ClassVar[tuple[str, ...]] = ("chemistry", "quantity")
    chemistry: str
    quantity: str
    value: float
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeadTemperature(Row):
    """Size factor of a lead battery at an electrolyte temperature, as printed in °F and in °C; 1 at 25 °C."""

    KEY: ClassVar[tuple[str, ...]] = ("temperature_f",)
    temperature_f: float
    temperature_c: float
    size_factor: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LithiumTemperature(Row):
    """Share of the 25 °C capacity that a lithium iron phosphate cell gives."""

    KEY: ClassVar[tuple[str, ...]] = ("temperature_c",)
    temperature_c: float
    fraction: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LithiumOcv(Row):
    """Open-circuit voltage of a lithium iron phosphate cell."""

    KEY: ClassVar[tuple[str, ...]] = ("state_of_charge",)
    state_of_charge: float
    cell_v: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LeadOcv(Row):
    """Open-circuit voltage of a 12 V lead unit: ``flooded``, ``gel``, or a second table that reads lower."""

    KEY: ClassVar[tuple[str, ...]] = ("kind", "state_of_charge")
    kind: str
    state_of_charge: float
    voltage_12v: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ProvenanceSpread(Row):
    """Low, middle and high multiple of an energy that was measured, read from a label, or guessed."""

    KEY: ClassVar[tuple[str, ...]] = ("provenance",)
    provenance: str
    low: float
    mid: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ColdboxAssumption(Row):
    """One assumption about a compressor cold box: temperature differences, shares, inside temperature."""

    KEY: ClassVar[tuple[str, ...]] = ("quantity",)
    quantity: str
    value: float


def chemistries() -> tuple[Chemistry, ...]:
    """All chemistries: flooded, agm, gel, lifepo4."""
    return load("chemistries", Chemistry)


@cache
def chemistry(chemistry_id: str) -> Chemistry:
    """The chemistry of that id.

    Examples
    --------
    >>> chemistry("lifepo4").cell_v
    3.2
    """
    rows = {row.id: row for row in chemistries()}
    if chemistry_id not in rows:
        raise InputError("Battery chemistry", chemistry_id, f"one of {', '.join(rows)}")
    return rows[chemistry_id]


@cache
def battery_figure(chemistry_id: str, quantity: str) -> BatteryFigure | None:
    """One figure of a chemistry, or else of its family; None where nothing is recorded.

    Parameters
    ----------
    chemistry_id : str
        flooded, agm, gel or lifepo4.
    quantity : str
        depth_of_discharge, end_of_life_fraction, design_margin, peukert_exponent, capacity_per_k,
        charge_v_per_12v_unit, charge_lowest_c, charge_highest_c, discharge_lowest_c, discharge_highest_c,
        fault_resistance_ohm_ah_per_12v (smallest: interrupting ratings) or resistance_ohm_ah_per_12v (voltage
        sag). A resistance is divided by the capacity and taken once for each 12 V unit in series. [Ω·Ah]

    Examples
    --------
    >>> battery_figure("agm", "depth_of_discharge").value, battery_figure("gel", "charge_v_per_12v_unit")
    (0.5, None)
    """
    known = chemistry(chemistry_id)
    rows = {(row.chemistry, row.quantity): row for row in load("battery_figures", BatteryFigure)}
    if quantity not in {name for _, name in rows}:
        raise InputError("Battery figure", quantity, f"one of {', '.join(sorted({name for _, name in rows}))}")
    return rows.get((known.id, quantity)) or rows.get((known.family, quantity))


def lead_temperature() -> tuple[LeadTemperature, ...]:
    """Size factors of lead batteries, coldest first."""
    return load("lead_temperature", LeadTemperature)


def lithium_temperature() -> tuple[LithiumTemperature, ...]:
    """Capacity shares of lithium iron phosphate, coldest first."""
    return load("lithium_temperature", LithiumTemperature)


def lithium_ocv() -> tuple[LithiumOcv, ...]:
    """Open-circuit voltage of a lithium iron phosphate cell, empty first."""
    return load("lithium_ocv", LithiumOcv)


@cache
def lead_ocv(kind: str) -> tuple[LeadOcv, ...]:
    """Open-circuit voltage of a 12 V lead unit, empty first.

    Parameters
    ----------
    kind : str
        ``flooded``, ``gel``, or ``lower_reading``: two published tables differ by 0.18 V at half charge, so a
        state of charge from volts is a band.

    Examples
    --------
    >>> [row.voltage_12v for row in lead_ocv("flooded")]
    [11.89, 12.06, 12.24, 12.45, 12.65]
    """
    rows = tuple(row for row in load("lead_ocv", LeadOcv) if row.kind == kind)
    if not rows:
        raise InputError("Lead voltage table", kind, "flooded, gel or lower_reading")
    return rows


@cache
def provenance_spread(provenance: str) -> ProvenanceSpread:
    """Spread of an energy that was ``measured``, read from a ``label`` or a ``guess``.

    Examples
    --------
    >>> provenance_spread("label").low
    0.75
    """
    rows = {row.provenance: row for row in load("spread_by_provenance", ProvenanceSpread)}
    if provenance not in rows:
        raise InputError("Provenance", provenance, f"one of {', '.join(rows)}")
    return rows[provenance]


@cache
def coldbox_assumption(quantity: str) -> ColdboxAssumption:
    """One assumption about a compressor cold box.

    Parameters
    ----------
    quantity : str
        evaporator_below_inside_k, condenser_above_ambient_k [K]; constant_share_low, constant_share_high (part of
        the energy that does not depend on the ambient); fresh_food_c [°C].

    Examples
    --------
    >>> coldbox_assumption("evaporator_below_inside_k").value
    10.0
    """
    rows = {row.quantity: row for row in load("coldbox_assumptions", ColdboxAssumption)}
    if quantity not in rows:
        raise InputError("Cold-box assumption", quantity, f"one of {', '.join(rows)}")
    return rows[quantity]
