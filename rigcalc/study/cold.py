"""What is left of a bank's capacity at its temperature, by the table of its chemistry.

Warmer than 25 °C gains nothing. Colder than the table, the coldest row stands in, which is too much, and it is said.
"""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.formulas.capacity import interpolate, size_factor_to_fraction
from rigcalc.model import Bank
from rigcalc.study.results import Working
from rigcalc.study.working import figure
from rigcalc.tables import Row
from rigcalc.tables.battery import chemistry, lead_temperature, lithium_temperature

BASE_C = 25.0
OUTSIDE = "outside the table"
_WHAT = "Capacity at the bank's temperature"


@dataclass(frozen=True, slots=True)
class Cold:
    """Share of the rated capacity that is there."""

    fraction: float
    status: str
    working: Working


def cold(bank: Bank) -> Cold:
    """Share of the rated capacity at the bank's temperature, never above 1."""
    lead = chemistry(bank.chemistry).family == "lead"
    table: list[tuple[float, float, Row]] = (
        [(row.temperature_c, row.size_factor, row) for row in lead_temperature()]
        if lead
        else [(row.temperature_c, row.fraction, row) for row in lithium_temperature()]
    )
    at_c, low_c, high_c = bank.temperature_c, table[0][0], table[-1][0]
    if at_c >= BASE_C:
        base = next(row for row_c, _, row in table if row_c == BASE_C)
        outside = lead and at_c > high_c
        return _cold(1.0, base, f"{round(at_c, 1):g} °C; warmer than {BASE_C:g} °C gains nothing", outside)
    value = interpolate(max(at_c, low_c), [(row_c, value) for row_c, value, _ in table], "Temperature of the bank")
    fraction = size_factor_to_fraction(value) if lead else value
    numbers = f"K_T = {value:.3g} at {round(at_c, 1):g} °C" if lead else f"{round(at_c, 1):g} °C"
    if at_c < low_c:
        numbers += f"; the table ends at {low_c:.1f} °C, and its last row is too much here"
    return _cold(fraction, _weaker(table, max(at_c, low_c)), numbers, at_c < low_c, lead)


def _weaker(table: list[tuple[float, float, Row]], at_c: float) -> Row:
    """Of the rows on both sides, the one that is known less well."""
    above = next(at for at, (row_c, _, _) in enumerate(table) if row_c >= at_c)
    rows = [table[above][2]] if table[above][0] == at_c else [table[above - 1][2], table[above][2]]
    return next((row for row in rows if row.from_memory), rows[0])


def _cold(fraction: float, row: Row, numbers: str, outside: bool, lead: bool = False) -> Cold:
    equation = "f_T = 1 / K_T" if lead else "f_T"
    working = Working(_WHAT, equation, numbers, figure(fraction), row.source, row.locator, row.status)
    return Cold(fraction, OUTSIDE if outside else row.status, working)
