"""Conductors in DC circuits: AWG sizes, resistance at temperature, steady temperature, mass.

Copper only, up to 60 V DC. Current-carrying capacity is in `ampacity`; the voltage drop is in `voltage_drop`
and can be had from here as well.
"""

from __future__ import annotations

from math import inf, pi

from rigcalc.errors import need
from rigcalc.formulas._inputs import above_0, at_least_0, temperature, two_lengths
from rigcalc.formulas.voltage_drop import (
    circular_mils_needed,
    constant_power_current_a,
    voltage_drop_circular_mil_v,
    voltage_drop_iec_v,
    voltage_drop_iso_v,
    voltage_drop_v,
)

__all__ = [
    "awg_area_mm2",
    "awg_circular_mils",
    "awg_diameter_mm",
    "circular_mils_needed",
    "conductor_temperature_c",
    "constant_power_current_a",
    "copper_kg",
    "loop_resistance_ohm",
    "resistance_at_ohm",
    "resistance_moved",
    "voltage_drop_circular_mil_v",
    "voltage_drop_iec_v",
    "voltage_drop_iso_v",
    "voltage_drop_v",
]

INCH_MM = 25.4
COPPER_ZERO_C = -234.5
COPPER_KG_PER_DM3 = 8.89  # from memory


def awg_diameter_mm(awg_number: int) -> float:
    """Diameter of a solid AWG conductor.

    Parameters
    ----------
    awg_number : int
        Gauge number, -3 (4/0) to 40; 0 is 1/0. [-]

    Returns
    -------
    float
        Diameter. [mm]

    Notes
    -----
    d = 0.005 in · 92^((36 - n) / 39).

    References
    ----------
    ASTM B258, clause not recorded.

    Examples
    --------
    >>> round(awg_diameter_mm(-3), 2), round(awg_diameter_mm(10), 3)
    (11.68, 2.588)
    """
    allowed = "a whole number from -3 (4/0) to 40"
    need(-3 <= awg_number <= 40 and awg_number % 1 == 0, "AWG number", awg_number, allowed)
    return float(0.005 * INCH_MM * 92 ** ((36 - awg_number) / 39))


def awg_area_mm2(awg_number: int) -> float:
    """Area of an AWG conductor.

    Parameters
    ----------
    awg_number : int
        Gauge number, -3 (4/0) to 40. [-]

    Returns
    -------
    float
        Area. [mm²]

    Notes
    -----
    A = π d² / 4. Only for comparing: an AWG size is never turned into a metric one.

    References
    ----------
    ASTM B258, clause not recorded.

    Examples
    --------
    >>> round(awg_area_mm2(10), 3)
    5.261
    """
    return pi / 4 * awg_diameter_mm(awg_number) ** 2


def awg_circular_mils(awg_number: int) -> float:
    """Area of an AWG conductor in circular mils.

    Parameters
    ----------
    awg_number : int
        Gauge number, -3 (4/0) to 40. [-]

    Returns
    -------
    float
        Nominal area; some rule sets allow less copper for the same gauge. [cmil]

    Notes
    -----
    Diameter in thousandths of an inch, squared.

    References
    ----------
    ASTM B258, clause not recorded.

    Examples
    --------
    >>> round(awg_circular_mils(10))
    10383
    """
    return (awg_diameter_mm(awg_number) / INCH_MM * 1000) ** 2


def resistance_moved(resistance_ohm: float, from_c: float, to_c: float) -> float:
    """Resistance of copper moved from one temperature to another.

    Parameters
    ----------
    resistance_ohm : float
        Resistance, or resistance per length, 0 or more. [Ω or Ω/km]
    from_c, to_c : float
        Temperature it holds at and temperature wanted, each above -234.5. [°C]

    Returns
    -------
    float
        Resistance at ``to_c``. [as given]

    Notes
    -----
    R2 = R1 (234.5 + T2) / (234.5 + T1).

    References
    ----------
    FAA AC 43.13-1B, paragraph 11-66d(4), for the 234.5.

    Examples
    --------
    >>> round(resistance_moved(1.21615, 75, 20), 4)
    1.0
    """
    at_least_0("Resistance", resistance_ohm, "Ω")
    for temperature_c in (from_c, to_c):
        need(COPPER_ZERO_C < temperature_c < inf, "Copper temperature", temperature_c, "above -234.5 °C")
    return resistance_ohm * (to_c - COPPER_ZERO_C) / (from_c - COPPER_ZERO_C)


def resistance_at_ohm(resistance_20c_ohm: float, temperature_c: float) -> float:
    """Resistance of copper at a temperature, from that at 20 °C.

    Parameters
    ----------
    resistance_20c_ohm : float
        Resistance, or resistance per length, at 20 °C, 0 or more. [Ω or Ω/km]
    temperature_c : float
        Copper temperature, above -234.5. [°C]

    Returns
    -------
    float
        Resistance. [as given]

    Notes
    -----
    R = R20 (234.5 + T) / 254.5.

    References
    ----------
    FAA AC 43.13-1B, paragraph 11-66d(4).

    Examples
    --------
    >>> round(resistance_at_ohm(3.30, 75), 2)
    4.01
    """
    return resistance_moved(resistance_20c_ohm, 20.0, temperature_c)


def loop_resistance_ohm(
    length_out_m: float, length_back_m: float, resistance_out_ohm_per_km: float, resistance_back_ohm_per_km: float
) -> float:
    """Resistance of a circuit's two conductors in series.

    Parameters
    ----------
    length_out_m, length_back_m : float
        Conductor length from source to load and back, each 0 or more. [m]
    resistance_out_ohm_per_km, resistance_back_ohm_per_km : float
        Resistance of each conductor, each 0 or more. [Ω/km]

    Returns
    -------
    float
        Loop resistance, terminals not included. [Ω]

    Notes
    -----
    R = (L_out r_out + L_back r_back) / 1000.

    Examples
    --------
    >>> round(loop_resistance_ohm(5, 4, 3.30, 1.91), 5)
    0.02414
    """
    two_lengths(length_out_m, length_back_m)
    at_least_0("Resistance of the conductor out", resistance_out_ohm_per_km, "Ω/km")
    at_least_0("Resistance of the conductor back", resistance_back_ohm_per_km, "Ω/km")
    return (length_out_m * resistance_out_ohm_per_km + length_back_m * resistance_back_ohm_per_km) / 1000


def conductor_temperature_c(ambient_c: float, rating_c: float, current_a: float, ampacity_a: float) -> float:
    """Steady temperature of a loaded conductor.

    Parameters
    ----------
    ambient_c : float
        Ambient around the conductor, below the rating. [°C]
    rating_c : float
        Temperature rating of the insulation. [°C]
    current_a : float
        Steady current, 0 or more. [A]
    ampacity_a : float
        Ampacity at that ambient, above 0: the current that just reaches the rating. [A]

    Returns
    -------
    float
        Conductor temperature; above the rating where the current is above the ampacity. [°C]

    Notes
    -----
    T = T_a + (T_r - T_a) (I / I_z)²: heating goes with the square of the current.

    References
    ----------
    FAA AC 43.13-1B, paragraph 11-66d, has the same form with the square root in place of the square, which is an error.

    Examples
    --------
    >>> round(conductor_temperature_c(50, 200, 20, 26))
    139
    """
    temperature("Ambient temperature", ambient_c)
    temperature("Insulation rating", rating_c)
    need(ambient_c < rating_c, "Ambient temperature", ambient_c, f"below the rating of {rating_c:g} °C")
    at_least_0("Current", current_a, "A")
    above_0("Ampacity", ampacity_a, "A")
    return ambient_c + (rating_c - ambient_c) * (current_a / ampacity_a) ** 2


def copper_kg(area_mm2: float, length_m: float) -> float:
    """Mass of the copper in a conductor.

    Parameters
    ----------
    area_mm2 : float
        Conductor area, 0 or more. [mm²]
    length_m : float
        Length, 0 or more. [m]

    Returns
    -------
    float
        Mass, insulation not included. [kg]

    Notes
    -----
    m = ρ A L / 1000 with a density of 8.89 kg/dm³.

    References
    ----------
    IEC 60028 for the density (from memory, clause not recorded).

    Examples
    --------
    >>> round(copper_kg(16, 10), 2)
    1.42
    """
    at_least_0("Conductor area", area_mm2, "mm²")
    at_least_0("Length", length_m, "m")
    return COPPER_KG_PER_DM3 * area_mm2 * length_m / 1000
