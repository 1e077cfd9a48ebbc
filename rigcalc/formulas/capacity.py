"""Capacity of batteries: at a current, at a temperature, and of a bank of equal units.

Peukert's exponent is not constant, so a table of capacities at several rates is interpolated;
the exponent is for comparing batteries and for checking a data sheet.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from itertools import pairwise
from math import ceil, inf, log

from rigcalc.errors import InputError, need
from rigcalc.formulas._inputs import above_0, at_least_0, count

FLOAT_NOISE = 1e-9


def peukert_exponent(hours_1: float, capacity_1_ah: float, hours_2: float, capacity_2_ah: float) -> float:
    """Peukert exponent from the capacities at two discharge rates.

    Parameters
    ----------
    hours_1, hours_2 : float
        Discharge times, above 0. [h]
    capacity_1_ah, capacity_2_ah : float
        Capacities at those times, above 0; the two currents must differ. [Ah]

    Returns
    -------
    float
        Exponent; below 1 the figures contradict each other. [-]

    Notes
    -----
    n = ln(t2 / t1) / ln(I1 / I2) with I = C / t.

    References
    ----------
    W. Peukert, Elektrotechnische Zeitschrift 20 (1897), page not recorded.

    Examples
    --------
    >>> round(peukert_exponent(20, 40, 5, 34), 2)
    1.13
    """
    for hours, ah in ((hours_1, capacity_1_ah), (hours_2, capacity_2_ah)):
        above_0("Discharge time", hours, "h")
        above_0("Capacity", ah, "Ah")
    current_ratio = (capacity_1_ah / hours_1) / (capacity_2_ah / hours_2)
    need(current_ratio != 1, "Ratio of the two currents", current_ratio, "two rates of different current")
    return log(hours_2 / hours_1) / log(current_ratio)


def peukert_hours(capacity_ah: float, rated_hours: float, current_a: float, exponent: float) -> float:
    """Discharge time at a constant current by Peukert's law.

    Parameters
    ----------
    capacity_ah : float
        Capacity at the rated time, above 0. [Ah]
    rated_hours : float
        Rated discharge time, above 0. [h]
    current_a : float
        Discharge current, above 0. [A]
    exponent : float
        Peukert exponent, 1 or more. [-]

    Returns
    -------
    float
        Discharge time. [h]

    Notes
    -----
    t = H (C / (I H))^n. Use it between the rates the exponent came from: far below them it promises more than is there.

    References
    ----------
    W. Peukert, Elektrotechnische Zeitschrift 20 (1897), page not recorded.

    Examples
    --------
    >>> round(peukert_hours(100, 20, 10, 1.1), 2)
    9.33
    """
    above_0("Capacity", capacity_ah, "Ah")
    above_0("Rated time", rated_hours, "h")
    above_0("Current", current_a, "A")
    need(1 <= exponent < inf, "Peukert exponent", exponent, "1 or more")
    return float(rated_hours * (capacity_ah / (current_a * rated_hours)) ** exponent)


def capacity_at_current_ah(points: Sequence[tuple[float, float]], current_a: float) -> float:
    """Capacity at a current, from the capacities printed for some discharge times.

    Parameters
    ----------
    points : sequence of (hours, capacity_ah)
        Discharge time [h] and capacity at it [Ah], one pair or more, in any order.
    current_a : float
        Discharge current, 0 or more, no faster than the fastest point. [A]

    Returns
    -------
    float
        Capacity; at slower currents than printed, that of the longest time and no more. [Ah]

    Notes
    -----
    Linear in ln(current) between neighbouring points, each at I = C / t.

    Examples
    --------
    >>> table = [(20, 40), (10, 37.2), (5, 34), (1, 24)]
    >>> capacity_at_current_ah(table, 2), round(capacity_at_current_ah(table, 12), 2), capacity_at_current_ah(table, 0)
    (40.0, 29.5, 40.0)
    """
    at_least_0("Current", current_a, "A")
    table = _capacity_by_current(points)
    slowest_a, fastest_a = table[0][0], table[-1][0]
    if current_a <= slowest_a:
        return table[0][1]
    allowed = f"at most {fastest_a:g} A; the capacity data go from {slowest_a:g} to {fastest_a:g} A"
    need(current_a <= fastest_a, "Current", current_a, allowed)
    return interpolate(log(current_a), [(log(a), ah) for a, ah in table], "Current (logarithm)")


def _capacity_by_current(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    need(len(points) >= 1, "Capacity data", None, "one pair of hours and ampere-hours or more")
    for hours, ah in points:
        above_0("Discharge time", hours, "h")
        above_0("Capacity", ah, "Ah")
    table = sorted((ah / hours, float(ah)) for hours, ah in points)
    for (slower_a, more_ah), (faster_a, less_ah) in pairwise(table):
        need(slower_a < faster_a, "Current of two points", slower_a, "a different current for each point")
        allowed = f"at most the {more_ah:g} Ah at {slower_a:g} A, as capacity does not rise with current"
        need(less_ah <= more_ah, f"Capacity at {faster_a:g} A", less_ah, allowed)
    return table


def bank_capacity_wh(unit_ah: float, cell_v: float, cells_per_unit: int, series: int, parallel: int) -> float:
    """Energy of a bank of equal units at its nominal cell voltage.

    Parameters
    ----------
    unit_ah : float
        Capacity of one unit, above 0. [Ah]
    cell_v : float
        Nominal voltage of one cell, above 0. [V]
    cells_per_unit, series, parallel : int
        Cells in series in a unit, units in series, strings in parallel; each 1 or more. [-]

    Returns
    -------
    float
        Energy of the bank. [Wh]

    Notes
    -----
    E = C n_p · U_cell n_cells n_s. Usual nominal voltages: 2.0 V lead-acid, 3.2 V LiFePO4.

    Examples
    --------
    >>> round(bank_capacity_wh(100, 3.2, 4, 2, 2))
    5120
    """
    above_0("Capacity of a unit", unit_ah, "Ah")
    above_0("Cell voltage", cell_v, "V")
    count("Cells in a unit", cells_per_unit)
    count("Units in series", series)
    count("Strings in parallel", parallel)
    return unit_ah * parallel * cell_v * cells_per_unit * series


def units_in_series(system_v: float, unit_v: float) -> int:
    """Units in series that make the system voltage, both nominal.

    Parameters
    ----------
    system_v : float
        Nominal system voltage, above 0. [V]
    unit_v : float
        Nominal voltage of a unit, which must divide the system voltage. [V]

    Returns
    -------
    int
        Number of units. [-]

    Notes
    -----
    n_s = U_system / U_unit. No rounding: 12 V units do not make 32 V.

    Examples
    --------
    >>> units_in_series(24, 6)
    4
    """
    above_0("System voltage", system_v, "V")
    above_0("Unit voltage", unit_v, "V")
    units = round(system_v / unit_v)
    whole = units >= 1 and abs(units * unit_v - system_v) <= FLOAT_NOISE * system_v
    need(whole, "Unit voltage", unit_v, f"a voltage of which a whole number makes {system_v:g} V")
    return units


def strings_needed(capacity_ah: float, unit_ah: float) -> int:
    """Strings in parallel that hold at least a capacity.

    Parameters
    ----------
    capacity_ah : float
        Capacity wanted, above 0. [Ah]
    unit_ah : float
        Capacity of a string, which is that of its units, above 0. [Ah]

    Returns
    -------
    int
        Number of strings. [-]

    Notes
    -----
    n_p = ceil(C / C_unit), up to float noise of one part in 10⁹.

    Examples
    --------
    >>> strings_needed(250, 100), strings_needed(200, 100)
    (3, 2)
    """
    above_0("Capacity wanted", capacity_ah, "Ah")
    above_0("Capacity of a unit", unit_ah, "Ah")
    return max(1, ceil(capacity_ah / unit_ah - FLOAT_NOISE))


def interpolate(x: float, points: Sequence[tuple[float, float]], what: str) -> float:
    """Linear interpolation inside a table, and nowhere else.

    Parameters
    ----------
    x : float
        Where to read the table, from its first to its last point. [unit of the table]
    points : sequence of (x, y)
        The table, one point or more, no x twice, in any order. [unit of the table]
    what : str
        Name of x, for the message.

    Returns
    -------
    float
        y at x. [unit of the table]

    Notes
    -----
    y = y1 + (y2 - y1) (x - x1) / (x2 - x1).

    Examples
    --------
    >>> round(interpolate(68, [(65, 1.08), (70, 1.04)], "Temperature"), 3)
    1.056
    """
    need(len(points) >= 1, f"Table of {what}", None, "one point or more")
    table = sorted(points)
    xs = [point[0] for point in table]
    need(len(set(xs)) == len(xs), f"Table of {what}", xs, "no value twice")
    if not xs[0] <= x <= xs[-1]:
        raise InputError(what, x, f"{xs[0]:g} to {xs[-1]:g}, the range of the data")
    at = bisect_left(xs, x)
    if xs[at] == x:
        return float(table[at][1])
    (x1, y1), (x2, y2) = table[at - 1], table[at]
    return y1 + (y2 - y1) * (x - x1) / (x2 - x1)


def size_factor_to_fraction(k: float) -> float:
    """Capacity fraction from a battery temperature size factor.

    Parameters
    ----------
    k : float
        Size factor, above 1 in the cold, above 0. [-]

    Returns
    -------
    float
        Fraction of the rated capacity that is there, f_T = 1 / K_T. [-]

    References
    ----------
    IEEE 485, Table 1, whose factors multiply the size; a fraction multiplies the capacity.

    Examples
    --------
    >>> round(size_factor_to_fraction(1.19), 3)
    0.84
    """
    above_0("Size factor", k)
    return 1 / k
