"""Cold boxes: refrigerators and freezers, and a measured day moved to another room temperature.

Heat leaks in with the temperature difference; the cooling machine is a fraction of a Carnot machine.
Both get worse in a warm room, so energy grows faster than the difference.
"""

from __future__ import annotations

from math import inf

from rigcalc.errors import need
from rigcalc.formulas._inputs import ZERO_C_K, above_0_to_1, at_least_0, temperature

EVAPORATOR_BELOW_K = 10.0  # from memory
CONDENSER_ABOVE_K = 15.0  # from memory


def carnot_cop(cold_c: float, hot_c: float, fraction: float = 1.0) -> float:
    """Coefficient of performance of a cooling machine between two temperatures.

    Parameters
    ----------
    cold_c : float
        Evaporating temperature, above -273.15. [°C]
    hot_c : float
        Condensing temperature, above the evaporating one. [°C]
    fraction : float
        Quality of the real machine, above 0 and up to 1. [-]

    Returns
    -------
    float
        Heat moved over work put in. [-]

    Notes
    -----
    COP = g T_e / (T_c - T_e), both in kelvin. Small DC compressors reach g = 0.2 to 0.4 (from memory).

    Examples
    --------
    >>> round(carnot_cop(17, 35, 0.45), 5)
    7.25375
    """
    temperature("Evaporating temperature", cold_c)
    temperature("Condensing temperature", hot_c)
    need(hot_c > cold_c, "Condensing temperature", hot_c, f"above the evaporating temperature of {cold_c:g} °C")
    above_0_to_1("Fraction of Carnot", fraction)
    return fraction * (cold_c + ZERO_C_K) / (hot_c - cold_c)


def relative_energy(
    ambient_c: float,
    inside_c: float,
    *,
    evaporator_below_k: float = EVAPORATOR_BELOW_K,
    condenser_above_k: float = CONDENSER_ABOVE_K,
) -> float:
    """Energy a cold box needs in one place, to be compared with the same box in another.

    Parameters
    ----------
    ambient_c, inside_c : float
        Temperature around the box and inside it. [°C]
    evaporator_below_k, condenser_above_k : float
        Evaporator below the inside, condenser above the ambient; each 0 or more, not both 0. [K]

    Returns
    -------
    float
        (T_a - T_i) / COP of a Carnot machine; 0 where the ambient is no warmer than the inside. [K]

    Notes
    -----
    Only ratios of two results mean anything: heat conductance and machine quality cancel.
    The 10 K and 15 K are from memory.

    Examples
    --------
    >>> round(relative_energy(32, 4) / relative_energy(16, 4), 2)
    3.34
    """
    temperature("Ambient temperature", ambient_c)
    temperature("Inside temperature", inside_c)
    at_least_0("Evaporator below the inside", evaporator_below_k, "K")
    at_least_0("Condenser above the ambient", condenser_above_k, "K")
    gain_k = max(0.0, ambient_c - inside_c)
    if gain_k == 0:
        return 0.0
    return gain_k / carnot_cop(inside_c - evaporator_below_k, ambient_c + condenser_above_k)


def moved_energy_wh(
    energy_wh: float,
    *,
    ambient_from_c: float,
    inside_from_c: float,
    ambient_to_c: float,
    inside_to_c: float,
    constant_wh: float = 0.0,
    evaporator_below_k: float = EVAPORATOR_BELOW_K,
    condenser_above_k: float = CONDENSER_ABOVE_K,
) -> float:
    """Daily energy of a cold box at another ambient or set-point than it was measured at.

    Parameters
    ----------
    energy_wh : float
        Energy a day as measured, 0 or more. [Wh]
    ambient_from_c, inside_from_c : float
        Temperatures of the measurement, ambient above inside. [°C]
    ambient_to_c, inside_to_c : float
        Temperatures wanted. [°C]
    constant_wh : float
        Part that does not follow temperature (fan, controller, doors), 0 to ``energy_wh``. [Wh]
    evaporator_below_k, condenser_above_k : float
        As in `relative_energy`. [K]

    Returns
    -------
    float
        Energy a day; not limited to what the compressor can do, see `steady_duty`. [Wh]

    Notes
    -----
    E2 = E0 + (E1 - E0) max(0, T2 - T_i') / (T1 - T_i) · COP1 / COP2. A model, not a measurement: show it as
    a band from E0 = 0 to E0 = 30 % of E1.

    References
    ----------
    Both effects are named in Harrington, Aye and Fuller, Applied Energy 211 (2018) 346-357; their curve is not used.

    Examples
    --------
    >>> day = {"ambient_from_c": 25, "inside_from_c": 4, "inside_to_c": 4}
    >>> round(moved_energy_wh(500, ambient_to_c=32, **day)), round(moved_energy_wh(500, ambient_to_c=4, **day))
    (768, 0)
    """
    at_least_0("Energy measured", energy_wh, "Wh")
    temperature("Ambient temperature of the measurement", ambient_from_c)
    allowed = f"above the inside temperature of {inside_from_c:g} °C"
    need(ambient_from_c > inside_from_c, "Ambient temperature of the measurement", ambient_from_c, allowed)
    need(0 <= constant_wh <= energy_wh, "Constant part of the energy", constant_wh, f"0 to {energy_wh:g} Wh")
    approach = {"evaporator_below_k": evaporator_below_k, "condenser_above_k": condenser_above_k}
    measured = relative_energy(ambient_from_c, inside_from_c, **approach)
    wanted = relative_energy(ambient_to_c, inside_to_c, **approach)
    return constant_wh + (energy_wh - constant_wh) * wanted / measured


def steady_duty(energy_wh: float, running_w: float, standby_w: float = 0.0) -> float:
    """Share of a day the compressor must run for an energy a day.

    Parameters
    ----------
    energy_wh : float
        Energy a day, at least what standby alone takes. [Wh]
    running_w : float
        Power while the compressor runs, above the standby power. [W]
    standby_w : float
        Power while it does not run, 0 or more. [W]

    Returns
    -------
    float
        Duty cycle; above 1 the box cannot hold its temperature. [-]

    Notes
    -----
    d = (E / 24 - P_sb) / (P_run - P_sb).

    Examples
    --------
    >>> steady_duty(600, 50)
    0.5
    """
    at_least_0("Standby power", standby_w, "W")
    need(standby_w < running_w < inf, "Running power", running_w, f"above the standby power of {standby_w:g} W")
    need(24 * standby_w <= energy_wh < inf, "Energy a day", energy_wh, f"at least the standby's {24 * standby_w:g} Wh")
    return (energy_wh / 24 - standby_w) / (running_w - standby_w)
