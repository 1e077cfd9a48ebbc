"""Daily energy of loads: running, standby, events, meter readings, and what must be supplied before losses.

All energies are watt-hours a day unless the name says otherwise. Inverters have their own
module, `inverter`; cold boxes moved to another room temperature are in `coldbox`.
"""

from __future__ import annotations

from math import inf

from rigcalc.errors import need
from rigcalc.formulas._inputs import above_0, above_0_to_1, at_least_0

DAY_H = 24.0


def running_energy_wh(
    power_w: float, hours_per_day: float, *, quantity: float = 1, duty_cycle: float = 1.0, standby_w: float = 0.0
) -> float:
    """Energy of a load over a day, running and standing by.

    Parameters
    ----------
    power_w : float
        Power of one unit while it runs, 0 or more. [W]
    hours_per_day : float
        Hours a day it is in use, 0 to 24. [h]
    quantity : float
        Number of equal units, 0 or more. [-]
    duty_cycle : float
        Share of the hours in use during which it runs, 0 to 1. [-]
    standby_w : float
        Power of one unit while it does not run, drawn the rest of the 24 h. [W]

    Returns
    -------
    float
        Energy a day. [Wh]

    Notes
    -----
    E = n (P h d + P_sb (24 - h d)).

    References
    ----------
    Sandia stand-alone photovoltaic worksheets, load sheet, clause not recorded; the standby term is arithmetic.

    Examples
    --------
    >>> round(running_energy_wh(50, 24, duty_cycle=0.4, standby_w=1), 1)
    494.4
    """
    at_least_0("Power", power_w, "W")
    need(0 <= hours_per_day <= DAY_H, "Hours a day", hours_per_day, "0 to 24 h")
    at_least_0("Quantity", quantity)
    need(0 <= duty_cycle <= 1, "Duty cycle", duty_cycle, "0 to 1")
    at_least_0("Standby power", standby_w, "W")
    running_h = hours_per_day * duty_cycle
    return quantity * (power_w * running_h + standby_w * (DAY_H - running_h))


def power_from_current_w(current_a: float, voltage_v: float) -> float:
    """Power of a load known by its current.

    Parameters
    ----------
    current_a : float
        Current, 0 or more. [A]
    voltage_v : float
        Voltage at which that current was read or printed, above 0. [V]

    Returns
    -------
    float
        Power. [W]

    Notes
    -----
    P = U I; direct current, so there is no power factor.

    Examples
    --------
    >>> round(power_from_current_w(2.3, 12), 1)
    27.6
    """
    at_least_0("Current", current_a, "A")
    above_0("Voltage", voltage_v, "V")
    return current_a * voltage_v


def event_hours_per_day(events_per_day: float, minutes_per_event: float) -> float:
    """Hours a day of a load used in events (kettle, pump, microwave).

    Parameters
    ----------
    events_per_day : float
        Number of events a day, 0 or more. [1/day]
    minutes_per_event : float
        Length of one event, 0 or more; all events together at most a day. [min]

    Returns
    -------
    float
        Hours a day. [h]

    Notes
    -----
    h = n t / 60.

    Examples
    --------
    >>> event_hours_per_day(6, 5)
    0.5
    """
    at_least_0("Events a day", events_per_day)
    at_least_0("Minutes an event", minutes_per_event, "min")
    hours = events_per_day * minutes_per_event / 60
    need(hours <= DAY_H, "Events times minutes", hours * 60, "at most the 1440 min of a day")
    return hours


def reading_energy_wh_per_day(energy_wh: float, hours: float) -> float:
    """Energy a day from a meter reading over any interval.

    Parameters
    ----------
    energy_wh : float
        Energy read over the interval, 0 or more. [Wh]
    hours : float
        Length of the interval, above 0. [h]

    Returns
    -------
    float
        Energy a day at the same mean power. [Wh]

    Notes
    -----
    E_d = 24 E / t.

    Examples
    --------
    >>> round(reading_energy_wh_per_day(980, 31.28))
    752
    """
    at_least_0("Energy read", energy_wh, "Wh")
    above_0("Hours of the reading", hours, "h")
    return energy_wh * DAY_H / hours


def charge_energy_wh(charge_ah: float, voltage_v: float) -> float:
    """Energy of a charge moved at one voltage.

    Parameters
    ----------
    charge_ah : float
        Charge, 0 or more. [Ah]
    voltage_v : float
        Voltage, above 0. [V]

    Returns
    -------
    float
        Energy. [Wh]

    Notes
    -----
    E = U Q.

    Examples
    --------
    >>> charge_energy_wh(100, 12.8)
    1280.0
    """
    at_least_0("Charge", charge_ah, "Ah")
    above_0("Voltage", voltage_v, "V")
    return charge_ah * voltage_v


def charge_ah(energy_wh: float, voltage_v: float) -> float:
    """Charge that carries an energy at one voltage.

    Parameters
    ----------
    energy_wh : float
        Energy, 0 or more. [Wh]
    voltage_v : float
        Voltage, above 0. [V]

    Returns
    -------
    float
        Charge. [Ah]

    Notes
    -----
    Q = E / U.

    Examples
    --------
    >>> round(charge_ah(320, 12), 1)
    26.7
    """
    at_least_0("Energy", energy_wh, "Wh")
    above_0("Voltage", voltage_v, "V")
    return energy_wh / voltage_v


def energy_before_wh(energy_wh: float, *efficiencies: float) -> float:
    """Energy that must enter a chain of stages so that ``energy_wh`` leaves it.

    Parameters
    ----------
    energy_wh : float
        Energy wanted at the end of the chain, 0 or more. [Wh]
    *efficiencies : float
        Efficiency of each stage, above 0 and up to 1. [-]

    Returns
    -------
    float
        Energy at the start of the chain, never less than at its end. [Wh]

    Notes
    -----
    E_in = E_out / (η1 η2 ...): losses are divided out, so the order does not matter.

    Examples
    --------
    >>> round(energy_before_wh(60, 0.88, 0.85), 1)
    80.2
    """
    at_least_0("Energy", energy_wh, "Wh")
    for efficiency in efficiencies:
        above_0_to_1("Efficiency", efficiency)
        energy_wh /= efficiency
    return energy_wh


def duty_cycle(average_w: float, running_w: float, standby_w: float = 0.0) -> float:
    """Share of the time a cycling load runs, from its mean power.

    Parameters
    ----------
    average_w : float
        Mean power over whole cycles, from standby to running power. [W]
    running_w : float
        Power while it runs, above the standby power. [W]
    standby_w : float
        Power while it does not run, 0 or more. [W]

    Returns
    -------
    float
        Duty cycle, 0 to 1. [-]

    Notes
    -----
    d = (P_avg - P_sb) / (P_run - P_sb).

    Examples
    --------
    >>> round(duty_cycle(20.6, 50, 1), 3)
    0.4
    """
    at_least_0("Standby power", standby_w, "W")
    need(standby_w < running_w < inf, "Running power", running_w, f"above the standby power of {standby_w:g} W")
    allowed = f"from the standby power to the running power, {standby_w:g} to {running_w:g} W"
    need(standby_w <= average_w <= running_w, "Average power", average_w, allowed)
    return (average_w - standby_w) / (running_w - standby_w)


def share(part: float, whole: float) -> float:
    """A part as a fraction of its whole.

    Parameters
    ----------
    part : float
        The part, 0 or more; may be larger than the whole. [same unit as the whole]
    whole : float
        The whole, above 0. [same unit as the part]

    Returns
    -------
    float
        Fraction. [-]

    Notes
    -----
    part / whole; the caller makes sure that both are in one unit.

    Examples
    --------
    >>> share(240, 1200)
    0.2
    """
    at_least_0("Part", part)
    above_0("Whole", whole)
    return part / whole
