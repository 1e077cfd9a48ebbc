"""Days and hours a bank serves its loads without charging, and the bank that wanted days need.

IEEE 1013 is a lead-acid document; for lithium iron phosphate the same rule is used by analogy.
"""

from __future__ import annotations

from rigcalc.formulas._inputs import above_0, above_0_to_1, at_least_0


def autonomy_d(
    capacity_wh: float,
    temperature_fraction: float,
    depth_of_discharge: float,
    end_of_life_fraction: float,
    daily_wh: float,
) -> float:
    """Days of autonomy, taking the larger of the two allowances for wear.

    Parameters
    ----------
    capacity_wh : float
        Rated capacity of the bank at the design current, above 0. [Wh]
    temperature_fraction : float
        Capacity at the design temperature over rated capacity, above 0. [-]
    depth_of_discharge : float
        Deepest allowed discharge, above 0 and up to 1. [-]
    end_of_life_fraction : float
        Capacity left when the bank is to be replaced, above 0 and up to 1. [-]
    daily_wh : float
        Energy a day at the battery terminals, above 0. [Wh/day]

    Returns
    -------
    float
        Autonomy. [d]

    Notes
    -----
    N = C f_T min(DoD, EoL) / Q, the counterpart of `bank_needed_wh`.

    References
    ----------
    IEEE 1013, sizing sequence (from memory, clause not recorded): the larger of the two allowances, not their product.

    Examples
    --------
    >>> round(autonomy_d(2560, 0.9, 0.5, 0.8, 500), 2)
    2.3
    """
    above_0("Capacity", capacity_wh, "Wh")
    _check_allowances(temperature_fraction, depth_of_discharge, end_of_life_fraction)
    above_0("Energy a day", daily_wh, "Wh")
    return capacity_wh * temperature_fraction * min(depth_of_discharge, end_of_life_fraction) / daily_wh


def autonomy_strict_d(
    capacity_wh: float,
    temperature_fraction: float,
    depth_of_discharge: float,
    end_of_life_fraction: float,
    daily_wh: float,
) -> float:
    """Days of autonomy of a bank at the end of its life, kept to its depth of discharge.

    Parameters
    ----------
    capacity_wh : float
        Rated capacity of the bank at the design current, above 0. [Wh]
    temperature_fraction : float
        Capacity at the design temperature over rated capacity, above 0. [-]
    depth_of_discharge, end_of_life_fraction : float
        As in `autonomy_d`, each above 0 and up to 1. [-]
    daily_wh : float
        Energy a day at the battery terminals, above 0. [Wh/day]

    Returns
    -------
    float
        Autonomy, never more than `autonomy_d` gives. [d]

    Notes
    -----
    N = C f_T DoD EoL / Q: stricter than the sizing rule, shown beside it.

    Examples
    --------
    >>> round(autonomy_strict_d(2560, 0.9, 0.5, 0.8, 500), 2)
    1.84
    """
    above_0("Capacity", capacity_wh, "Wh")
    _check_allowances(temperature_fraction, depth_of_discharge, end_of_life_fraction)
    above_0("Energy a day", daily_wh, "Wh")
    return capacity_wh * temperature_fraction * depth_of_discharge * end_of_life_fraction / daily_wh


def nominal_autonomy_d(capacity_wh: float, daily_wh: float) -> float:
    """Days a whole rated capacity would last, with no allowance for anything.

    Parameters
    ----------
    capacity_wh : float
        Rated capacity of the bank, above 0. [Wh]
    daily_wh : float
        Energy a day at the battery terminals, above 0. [Wh/day]

    Returns
    -------
    float
        Days. [d]

    Notes
    -----
    N = C / Q: what a label promises; never a design figure.

    Examples
    --------
    >>> nominal_autonomy_d(2560, 500)
    5.12
    """
    above_0("Capacity", capacity_wh, "Wh")
    above_0("Energy a day", daily_wh, "Wh")
    return capacity_wh / daily_wh


def bank_needed_wh(
    daily_wh: float,
    days: float,
    temperature_fraction: float,
    depth_of_discharge: float,
    end_of_life_fraction: float,
) -> float:
    """Rated capacity that gives wanted days of autonomy.

    Parameters
    ----------
    daily_wh : float
        Energy a day at the battery terminals, 0 or more. [Wh/day]
    days : float
        Days of autonomy wanted, above 0. [d]
    temperature_fraction : float
        Capacity at the design temperature over rated capacity, above 0. [-]
    depth_of_discharge, end_of_life_fraction : float
        As in `autonomy_d`, each above 0 and up to 1. [-]

    Returns
    -------
    float
        Rated capacity at the design current. [Wh]

    Notes
    -----
    C = Q N / (f_T min(DoD, EoL)); a design margin (1.10 to 1.15, from memory) comes on top.

    References
    ----------
    IEEE 1013, sizing sequence (from memory, clause not recorded): the larger of the two allowances, not their product.

    Examples
    --------
    >>> round(bank_needed_wh(500, 2, 0.9, 0.5, 0.8))
    2222
    """
    at_least_0("Energy a day", daily_wh, "Wh")
    above_0("Days of autonomy", days, "d")
    _check_allowances(temperature_fraction, depth_of_discharge, end_of_life_fraction)
    return daily_wh * days / (temperature_fraction * min(depth_of_discharge, end_of_life_fraction))


def runtime_h(usable_wh: float, power_w: float) -> float:
    """Hours a usable energy serves one power.

    Parameters
    ----------
    usable_wh : float
        Energy that may be taken, 0 or more. [Wh]
    power_w : float
        Power at the battery terminals, above 0. [W]

    Returns
    -------
    float
        Run time. [h]

    Notes
    -----
    t = E / P; the usable energy is the one at this power's current.

    Examples
    --------
    >>> runtime_h(1500, 300)
    5.0
    """
    at_least_0("Usable energy", usable_wh, "Wh")
    above_0("Power", power_w, "W")
    return usable_wh / power_w


def _check_allowances(temperature_fraction: float, depth_of_discharge: float, end_of_life_fraction: float) -> None:
    above_0("Capacity fraction at temperature", temperature_fraction)
    above_0_to_1("Depth of discharge", depth_of_discharge)
    above_0_to_1("End-of-life fraction", end_of_life_fraction)
