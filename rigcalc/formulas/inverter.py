"""Inverters at part load: loss curve, input power, and the day's losses shared out to the loads.

The curve is P_dc / P_rated = p + k0 + k1 p + k2 p² with p = P_ac / P_rated. k0 is the idle draw,
paid for every hour switched on, k1 the part that follows power and k2 the part that follows its square.
Above the rating the curve is only an extrapolation: whether an inverter may be loaded so is for a rule to say.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from rigcalc.errors import need
from rigcalc.formulas._inputs import above_0, above_0_to_1, at_least_0


@dataclass(frozen=True, slots=True)
class LossCurve:
    """Losses of an inverter as fractions of its rated power: k0 + k1 p + k2 p².

    Parameters
    ----------
    k0 : float
        Idle draw, 0 or more. [-]
    k1, k2 : float
        Loss with load and with its square; may be negative where the whole curve stays at 0 or above. [-]

    Notes
    -----
    Usual ranges, from memory: k0 0.5-2 %, k1 0.5-2 %, k2 2-8 %.

    Examples
    --------
    >>> LossCurve(k0=0.01, k1=0.01, k2=0.05).loss(1.0)
    0.07
    """

    k0: float
    k1: float
    k2: float

    def __post_init__(self) -> None:
        for name, value in (("k0", self.k0), ("k1", self.k1), ("k2", self.k2)):
            need(-inf < value < inf, f"Loss coefficient {name}", value, "a number")
        need(self.k0 >= 0, "Idle loss of the inverter (k0)", self.k0, "0 or more; check the three efficiencies")
        turning = -self.k1 / (2 * self.k2) if self.k2 > 0 else 1.0
        lowest = min(self.loss(min(max(turning, 0.0), 1.0)), self.loss(1.0))
        need(lowest >= 0, "Lowest loss of the inverter", lowest, "0 or more; check the three efficiencies")

    def loss(self, load_fraction: float) -> float:
        """Loss over rated power at one load fraction. [-]"""
        return self.k0 + self.k1 * load_fraction + self.k2 * load_fraction**2


def loss_coefficients(efficiency_10: float, efficiency_50: float, efficiency_100: float) -> LossCurve:
    """Loss curve through the efficiencies at 10, 50 and 100 % load.

    Parameters
    ----------
    efficiency_10, efficiency_50, efficiency_100 : float
        Efficiency at 10, 50 and 100 % of rated power, each above 0 and up to 1, idle draw included. [-]

    Returns
    -------
    LossCurve
        k0, k1 and k2, the only parabola through the three losses p (1/η - 1). [-]

    References
    ----------
    Method of Schmidt and Sauer (p_dc = p + k0 + k1 p + k2 p²), clause not recorded; the solution is exact mathematics.

    Examples
    --------
    >>> curve = loss_coefficients(0.85, 0.93, 0.91)
    >>> round(curve.k0, 4), round(curve.k1, 4), round(curve.k2, 4)
    (0.0167, 0.0016, 0.0806)
    """
    above_0_to_1("Efficiency at 10% load", efficiency_10)
    above_0_to_1("Efficiency at 50% load", efficiency_50)
    above_0_to_1("Efficiency at 100% load", efficiency_100)
    loss_10, loss_50, loss_100 = 0.1 / efficiency_10 - 0.1, 0.5 / efficiency_50 - 0.5, 1.0 / efficiency_100 - 1.0
    slope_low, slope_high = (loss_50 - loss_10) / 0.4, (loss_100 - loss_50) / 0.5
    k2 = (slope_high - slope_low) / 0.9
    k1 = slope_low - k2 * 0.6
    return LossCurve(k0=loss_10 - k1 * 0.1 - k2 * 0.01, k1=k1, k2=k2)


def efficiency(load_fraction: float, curve: LossCurve) -> float:
    """Efficiency at one load.

    Parameters
    ----------
    load_fraction : float
        Output power over rated power, above 0. [-]
    curve : LossCurve
        Losses of the inverter. [-]

    Returns
    -------
    float
        Output over input power. [-]

    Notes
    -----
    η = p / (p + k0 + k1 p + k2 p²), highest at p = sqrt(k0 / k2).

    Examples
    --------
    >>> round(efficiency(0.02, loss_coefficients(0.85, 0.93, 0.91)), 2)
    0.54
    """
    above_0("Load fraction", load_fraction)
    return load_fraction / (load_fraction + curve.loss(load_fraction))


def dc_power_w(ac_power_w: float, rated_w: float, curve: LossCurve) -> float:
    """Power an inverter takes from the DC side; at no load, its idle draw.

    Parameters
    ----------
    ac_power_w : float
        Output power, 0 or more. [W]
    rated_w : float
        Rated continuous output, above 0. [W]
    curve : LossCurve
        Losses of the inverter. [-]

    Returns
    -------
    float
        Input power. [W]

    Notes
    -----
    P_dc = P_ac + P_rated (k0 + k1 p + k2 p²), p = P_ac / P_rated.

    Examples
    --------
    >>> round(dc_power_w(0, 2000, loss_coefficients(0.85, 0.93, 0.91)))
    33
    """
    at_least_0("AC power", ac_power_w, "W")
    above_0("Rated power", rated_w, "W")
    return ac_power_w + rated_w * curve.loss(ac_power_w / rated_w)


def daily_losses_wh(
    rows: Sequence[tuple[float, float]], rated_w: float, on_hours: float, curve: LossCurve
) -> tuple[float, tuple[float, ...]]:
    """Losses of an inverter over a day: idle once, the rest shared out to its loads.

    Parameters
    ----------
    rows : sequence of (power_w, hours)
        Each load's running power [W] and running hours a day, none longer than the inverter is on. [h]
    rated_w : float
        Rated continuous output, above 0. [W]
    on_hours : float
        Hours a day the inverter is switched on, 0 to 24. [h]
    curve : LossCurve
        Losses of the inverter. [-]

    Returns
    -------
    idle_wh : float
        k0 P_rated t_on, counted once. [Wh]
    losses_wh : tuple of float
        Loss of each row, in the order of ``rows``; with the rows' energies and the idle they sum to the DC energy. [Wh]

    Notes
    -----
    The times of use are not known, so each load is taken to fall anywhere within the hours on, independently:
    the mean of the summed power's square over the day is Σ P_i² h_i + Σ_(i≠j) P_i P_j h_i h_j / t_on.
    Its k2 loss is shared in proportion to the rows' energies; the k1 loss follows each row's own energy.

    Examples
    --------
    >>> idle, losses = daily_losses_wh([(100, 5), (1000, 0.2)], 2000, 10, LossCurve(0.01, 0.01, 0.05))
    >>> idle, [round(x, 2) for x in losses]
    (200.0, [9.82, 3.93])
    """
    above_0("Rated power", rated_w, "W")
    need(0 <= on_hours <= 24, "Hours the inverter is on", on_hours, "0 to 24 h")
    for power_w, hours in rows:
        at_least_0("AC power", power_w, "W")
        need(0 <= hours <= on_hours, "Hours of an AC load", hours, f"0 to the {on_hours:g} h the inverter is on")
    energies = [power_w * hours for power_w, hours in rows]
    total_wh = sum(energies)
    idle_wh = curve.k0 * rated_w * on_hours
    if total_wh == 0:
        return idle_wh, (0.0,) * len(energies)
    own = sum(power_w * energy for (power_w, _), energy in zip(rows, energies, strict=True))
    crossed = (total_wh**2 - sum(energy**2 for energy in energies)) / on_hours
    square_loss_wh = curve.k2 * (own + crossed) / rated_w
    return idle_wh, tuple(energy * (curve.k1 + square_loss_wh / total_wh) for energy in energies)
