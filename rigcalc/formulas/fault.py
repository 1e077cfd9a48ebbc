"""Prospective short-circuit current of a bank and of the circuits behind it.

The largest fault (full bank, least resistance, cold copper) decides the interrupting rating; the smallest
(empty bank, most resistance, hot copper, far end) decides whether the device opens in time.
"""

from __future__ import annotations

from rigcalc.formulas._inputs import above_0, at_least_0, count


def bank_resistance_ohm(unit_resistance_ohm: float, series: int, parallel: int) -> float:
    """Internal resistance of a bank of equal units.

    Parameters
    ----------
    unit_resistance_ohm : float
        Internal resistance of one unit, above 0. [Ω]
    series, parallel : int
        Units in series and strings in parallel, each 1 or more. [-]

    Returns
    -------
    float
        Resistance of the bank, leads not included. [Ω]

    Notes
    -----
    R = R_unit n_s / n_p: strings in parallel add their fault currents, units in series do not.

    References
    ----------
    ABYC E-11, explanation of series and parallel banks, clause not recorded.

    Examples
    --------
    >>> round(bank_resistance_ohm(0.0025, 2, 3), 5)
    0.00167
    """
    above_0("Resistance of a unit", unit_resistance_ohm, "Ω")
    count("Units in series", series)
    count("Strings in parallel", parallel)
    return unit_resistance_ohm * series / parallel


def lithium_unit_resistance_ohm(capacity_ah: float, cells: int, cell_100ah_ohm: float) -> float:
    """Internal resistance of a lithium unit from that of a 100 Ah cell.

    Parameters
    ----------
    capacity_ah : float
        Capacity of the unit, above 0. [Ah]
    cells : int
        Cells in series in the unit, 1 or more. [-]
    cell_100ah_ohm : float
        Resistance of one 100 Ah cell, above 0. [Ω]

    Returns
    -------
    float
        Resistance of the unit's cells; links and switches of the unit add to it. [Ω]

    Notes
    -----
    R = n R_100 · 100 / C: resistance times capacity is taken as constant, common practice, no source.

    Examples
    --------
    >>> round(lithium_unit_resistance_ohm(200, 4, 0.0004), 6)
    0.0008
    """
    above_0("Capacity of a unit", capacity_ah, "Ah")
    count("Cells in series", cells)
    above_0("Resistance of a 100 Ah cell", cell_100ah_ohm, "Ω")
    return cells * cell_100ah_ohm * 100 / capacity_ah


def lead_unit_resistance_ohm(c20_ah: float, unit_v: float, ohm_ah_per_12v: float) -> float:
    """Internal resistance of a lead-acid unit from a resistance-capacity product.

    Parameters
    ----------
    c20_ah : float
        Capacity at the 20 h rate, above 0. [Ah]
    unit_v : float
        Nominal voltage of the unit, above 0. [V]
    ohm_ah_per_12v : float
        Resistance times capacity of a 12 V unit of this kind, above 0. [Ω·Ah]

    Returns
    -------
    float
        Resistance of the unit. [Ω]

    Notes
    -----
    R = k / C20 · U / 12: resistance times capacity is taken as constant, common practice, no source.

    Examples
    --------
    >>> round(lead_unit_resistance_ohm(100, 6, 0.32), 5)
    0.0016
    """
    above_0("Capacity of a unit", c20_ah, "Ah")
    above_0("Unit voltage", unit_v, "V")
    above_0("Resistance times capacity", ohm_ah_per_12v, "Ω·Ah")
    return ohm_ah_per_12v / c20_ah * unit_v / 12


def prospective_current_a(voltage_v: float, bank_resistance_ohm: float, loop_resistance_ohm: float) -> float:
    """Current a dead short would draw.

    Parameters
    ----------
    voltage_v : float
        Voltage behind the resistance, above 0. [V]
    bank_resistance_ohm : float
        Internal resistance of the bank, above 0. [Ω]
    loop_resistance_ohm : float
        Resistance of the conductors out to the fault and back, 0 or more. [Ω]

    Returns
    -------
    float
        Prospective short-circuit current, inductance and arc left out. [A]

    Notes
    -----
    I = U / (R_bank + R_loop).

    Examples
    --------
    >>> round(prospective_current_a(12.8, 0.0016, 0.0048))
    2000
    """
    above_0("Voltage", voltage_v, "V")
    above_0("Resistance of the bank", bank_resistance_ohm, "Ω")
    at_least_0("Resistance of the loop", loop_resistance_ohm, "Ω")
    return voltage_v / (bank_resistance_ohm + loop_resistance_ohm)


def resistance_from_short_circuit_ohm(voltage_v: float, short_circuit_a: float) -> float:
    """Internal resistance behind a maker's short-circuit current.

    Parameters
    ----------
    voltage_v : float
        Voltage the figure was given at, above 0. [V]
    short_circuit_a : float
        Short-circuit current of the unit, above 0. [A]

    Returns
    -------
    float
        Resistance of the unit. [Ω]

    Notes
    -----
    R = U / I_sc.

    Examples
    --------
    >>> resistance_from_short_circuit_ohm(6, 2400)
    0.0025
    """
    above_0("Voltage", voltage_v, "V")
    above_0("Short-circuit current", short_circuit_a, "A")
    return voltage_v / short_circuit_a
