"""Voltage drop of two-conductor DC circuits, and the current of a load behind a resistance.

Lengths out and back are two arguments, each measured along its conductor; a loop length is both together.
The circular-mil, IEC and ISO forms are the rules' own and decide conformity; `voltage_drop_v` with the resistance
at working temperature is what the device gets.
"""

from __future__ import annotations

from math import sqrt

from rigcalc.errors import InputError
from rigcalc.formulas._inputs import above_0, at_least_0, two_lengths

K_OHM_CMIL_PER_FT = 10.75
RESISTIVITY_IEC_OHM_MM2_PER_M = 0.0225
RESISTIVITY_ISO_OHM_MM2_PER_M = 0.0164


def voltage_drop_v(current_a: float, length_out_m: float, length_back_m: float, resistance_ohm_per_km: float) -> float:
    """Voltage drop along a DC circuit, out and back.

    Parameters
    ----------
    current_a : float
        Design current, 0 or more. [A]
    length_out_m, length_back_m : float
        Conductor length from source to load and back, each 0 or more. [m]
    resistance_ohm_per_km : float
        Conductor resistance at working temperature, above 0. [Ω/km]

    Returns
    -------
    float
        Voltage lost over both conductors. [V]

    Notes
    -----
    ΔU = I · (L_out + L_back) · r / 1000.

    References
    ----------
    IEC 60364-5-52:2009, Annex G, whose b = 2 and cos φ = 1 is the case out = back.

    Examples
    --------
    >>> round(voltage_drop_v(current_a=20, length_out_m=5, length_back_m=5, resistance_ohm_per_km=3.30), 2)
    0.66
    """
    at_least_0("Current", current_a, "A")
    two_lengths(length_out_m, length_back_m)
    above_0("Conductor resistance", resistance_ohm_per_km, "Ω/km")
    return current_a * (length_out_m + length_back_m) * resistance_ohm_per_km / 1000


def voltage_drop_circular_mil_v(
    current_a: float, loop_length_ft: float, circular_mils: float, k: float = K_OHM_CMIL_PER_FT
) -> float:
    """Voltage drop by the circular-mil rule.

    Parameters
    ----------
    current_a : float
        Current, 0 or more. [A]
    loop_length_ft : float
        Conductor length out and back together, 0 or more. [ft]
    circular_mils : float
        Conductor area by the rule set, above 0. [cmil]
    k : float
        Constant of the rule, above 0. [Ω·cmil/ft]

    Returns
    -------
    float
        Voltage drop. [V]

    Notes
    -----
    E = K I L / CM.

    References
    ----------
    46 CFR 183.340(p), whose L is twice the one-way length; ABYC E-11, 11.14.2.6. K = 10.75 in both.

    Examples
    --------
    >>> round(voltage_drop_circular_mil_v(15, 60, 25910), 4)
    0.3734
    """
    at_least_0("Current", current_a, "A")
    at_least_0("Length out and back", loop_length_ft, "ft")
    above_0("Conductor area", circular_mils, "cmil")
    above_0("K", k, "Ω·cmil/ft")
    return k * current_a * loop_length_ft / circular_mils


def circular_mils_needed(current_a: float, loop_length_ft: float, drop_v: float, k: float = K_OHM_CMIL_PER_FT) -> float:
    """Conductor area that keeps a voltage drop, by the circular-mil rule.

    Parameters
    ----------
    current_a : float
        Current, 0 or more. [A]
    loop_length_ft : float
        Conductor length out and back together, 0 or more. [ft]
    drop_v : float
        Voltage drop allowed, above 0. [V]
    k : float
        Constant of the rule, above 0. [Ω·cmil/ft]

    Returns
    -------
    float
        Least area. [cmil]

    Notes
    -----
    CM = K I L / E.

    References
    ----------
    46 CFR 183.340(p); ABYC E-11, 11.14.2.6.

    Examples
    --------
    >>> round(circular_mils_needed(10, 21, 0.36))
    6271
    """
    at_least_0("Current", current_a, "A")
    at_least_0("Length out and back", loop_length_ft, "ft")
    above_0("Voltage drop allowed", drop_v, "V")
    above_0("K", k, "Ω·cmil/ft")
    return k * current_a * loop_length_ft / drop_v


def voltage_drop_iec_v(
    current_a: float,
    length_out_m: float,
    length_back_m: float,
    area_mm2: float,
    resistivity_ohm_mm2_per_m: float = RESISTIVITY_IEC_OHM_MM2_PER_M,
) -> float:
    """Voltage drop by the IEC formula for direct current.

    Parameters
    ----------
    current_a : float
        Design current, 0 or more. [A]
    length_out_m, length_back_m : float
        Conductor length from source to load and back, each 0 or more. [m]
    area_mm2 : float
        Conductor area, above 0. [mm²]
    resistivity_ohm_mm2_per_m : float
        Resistivity in normal service, above 0. [Ω·mm²/m]

    Returns
    -------
    float
        Voltage drop. [V]

    Notes
    -----
    u = b ρ1 L / S · I with b L = L_out + L_back, cos φ = 1 and no reactance.

    References
    ----------
    IEC 60364-5-52:2009, Annex G; ρ1 = 0.0225 Ω·mm²/m, 1.25 times that at 20 °C.

    Examples
    --------
    >>> round(voltage_drop_iec_v(50, 5, 5, 16), 3)
    0.703
    """
    at_least_0("Current", current_a, "A")
    two_lengths(length_out_m, length_back_m)
    above_0("Conductor area", area_mm2, "mm²")
    above_0("Resistivity", resistivity_ohm_mm2_per_m, "Ω·mm²/m")
    return current_a * (length_out_m + length_back_m) * resistivity_ohm_mm2_per_m / area_mm2


def voltage_drop_iso_v(current_a: float, loop_length_m: float, area_mm2: float) -> float:
    """Voltage drop by the small-craft formula.

    Parameters
    ----------
    current_a : float
        Current, 0 or more. [A]
    loop_length_m : float
        Conductor length out and back together, 0 or more. [m]
    area_mm2 : float
        Conductor area, above 0. [mm²]

    Returns
    -------
    float
        Voltage drop; less than cold copper really loses. [V]

    Notes
    -----
    E = 0.0164 I L / S. Pure copper at 20 °C has 0.01724, so the rule's figure is never the device's voltage.

    References
    ----------
    ISO 10133:2012, clause not recorded (withdrawn; read in a reprint).

    Examples
    --------
    >>> round(voltage_drop_iso_v(20, 10, 6), 3)
    0.547
    """
    at_least_0("Current", current_a, "A")
    at_least_0("Length out and back", loop_length_m, "m")
    above_0("Conductor area", area_mm2, "mm²")
    return RESISTIVITY_ISO_OHM_MM2_PER_M * current_a * loop_length_m / area_mm2


def constant_power_current_a(power_w: float, source_v: float, resistance_ohm: float) -> float:
    """Current of a constant-power load behind a resistance.

    Parameters
    ----------
    power_w : float
        Power at the load, 0 or more, at most what the run can deliver. [W]
    source_v : float
        Voltage before the resistance, above 0. [V]
    resistance_ohm : float
        Loop resistance, 0 or more. [Ω]

    Returns
    -------
    float
        Current, the smaller of the two solutions. [A]

    Notes
    -----
    I = (U - sqrt(U² - 4 R P)) / (2 R), written as 2 P / (U + sqrt(U² - 4 R P)) so that R = 0 is no special case.
    No current delivers more than U² / (4 R).

    Examples
    --------
    >>> round(constant_power_current_a(120, 12, 0.1), 2)
    11.01
    """
    at_least_0("Power", power_w, "W")
    above_0("Source voltage", source_v, "V")
    at_least_0("Loop resistance", resistance_ohm, "Ω")
    under_root = source_v**2 - 4 * resistance_ohm * power_w
    if under_root < 0:
        largest_w = source_v**2 / (4 * resistance_ohm)
        raise InputError("Power", power_w, f"at most {largest_w:.4g} W, the most these conductors can deliver")
    return 2 * power_w / (source_v + sqrt(under_root))
