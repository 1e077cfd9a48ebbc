"""Overcurrent protective devices: the window for a rating, and time-current gates.

Low end: the continuous current over the share a device may carry and over its rerating. High end: what the rule
set allows on the conductor. A rating is a size of a series, so it is chosen, never computed.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, inf, log

from rigcalc.errors import need
from rigcalc.formulas._inputs import above_0, above_0_to_1, at_least_0, temperature
from rigcalc.formulas.capacity import FLOAT_NOISE, interpolate

Gate = tuple[float, float | None, float | None]


def least_rating_a(continuous_a: float, continuous_share: float = 0.8, rerating: float = 1.0) -> float:
    """Smallest rating that carries a continuous current.

    Parameters
    ----------
    continuous_a : float
        Continuous current, 0 or more. [A]
    continuous_share : float
        Share of its rating a device may carry continuously, above 0 and up to 1. [-]
    rerating : float
        Rating at its ambient over rating printed, above 0 and up to 1. [-]

    Returns
    -------
    float
        Least rating. [A]

    Notes
    -----
    I_n = I / (share · rerating); a share of 0.8 is the 125 % of continuous current.

    References
    ----------
    NFPA 70, 210.20 and 215.3 (from memory): 125 % of the continuous load.

    Examples
    --------
    >>> round(least_rating_a(20, rerating=0.85), 1)
    29.4
    """
    at_least_0("Continuous current", continuous_a, "A")
    above_0_to_1("Continuous share", continuous_share)
    above_0_to_1("Rerating", rerating)
    return continuous_a / (continuous_share * rerating)


def next_rating_a(ratings: Sequence[float], at_least_a: float) -> float | None:
    """Smallest rating of a series that is not below a current.

    Parameters
    ----------
    ratings : sequence of float
        Ratings of the series, one or more, in any order. [A]
    at_least_a : float
        Current to be reached, 0 or more. [A]

    Returns
    -------
    float or None
        The rating; None where the series ends below. [A]

    Notes
    -----
    A rating counts as reached up to float noise of one part in 10⁹: 24 / 0.8 is 30.

    Examples
    --------
    >>> next_rating_a([15, 20, 25, 30], 25.4), next_rating_a([15, 20], 25.4)
    (30.0, None)
    """
    need(len(ratings) >= 1, "Ratings", None, "one rating or more")
    at_least_0("Current", at_least_a, "A")
    for rating in ratings:
        above_0("Rating", rating, "A")
    return min((float(rating) for rating in ratings if rating >= at_least_a * (1 - FLOAT_NOISE)), default=None)


def highest_rating_a(ampacity_a: float, ratings: Sequence[float], next_size_up: bool, cap_ratio: float) -> float:
    """Largest rating a rule set lets protect a conductor.

    Parameters
    ----------
    ampacity_a : float
        Corrected ampacity of the thinnest conductor downstream, above 0. [A]
    ratings : sequence of float
        Standard ratings of the rule set. [A]
    next_size_up : bool
        Whether the rule lets the next standard rating above the ampacity be used. [-]
    cap_ratio : float
        Most that rating may be, as a multiple of the ampacity, 1 or more. [-]

    Returns
    -------
    float
        The next standard rating above, where allowed and within the cap; otherwise the ampacity itself. [A]

    Notes
    -----
    A limit, not a target: the smallest rating that carries the load protects better.

    References
    ----------
    33 CFR 183.455(c)(2) and 46 CFR 183.380: next standard size, at most 150 %.

    Examples
    --------
    >>> highest_rating_a(32, [30, 35, 40], True, 1.5), highest_rating_a(32, [30, 35, 40], False, 1.5)
    (35.0, 32)
    """
    above_0("Ampacity", ampacity_a, "A")
    need(1 <= cap_ratio < inf, "Cap on the next size", cap_ratio, "1 or more times the ampacity")
    above = next_rating_a(ratings, ampacity_a) if next_size_up else None
    if above is None or above > cap_ratio * ampacity_a * (1 + FLOAT_NOISE):
        return ampacity_a
    return above


def rerating_fraction(points: Sequence[tuple[float, float]], ambient_c: float) -> float:
    """Share of its rating a fuse keeps at an ambient temperature.

    Parameters
    ----------
    points : sequence of (ambient_c, fraction)
        Ambient [°C] and rating at it over rating printed [-], the coolest point at 1.
    ambient_c : float
        Ambient around the fuse, no warmer than the last point. [°C]

    Returns
    -------
    float
        Fraction; 1 where cooler than the first point. [-]

    Notes
    -----
    Linear between the points. Nothing is said beyond the last one.

    Examples
    --------
    >>> round(rerating_fraction([(20, 1.0), (65, 0.85), (85, 0.75)], 75), 3)
    0.8
    """
    need(len(points) >= 1, "Rerating data", None, "one point or more")
    coolest_c, at_coolest = min(points)
    need(at_coolest == 1, "Rerating at the coolest point", at_coolest, "1")
    temperature("Ambient temperature of the fuse", ambient_c)
    if ambient_c < coolest_c:
        return 1.0
    return interpolate(ambient_c, points, "Ambient temperature of the fuse")


def opening_time_s(gates: Sequence[Gate], current_over_rating: float) -> tuple[float | None, float | None]:
    """Least and most opening time of a device at a current, between its time-current gates.

    Parameters
    ----------
    gates : sequence of (percent, least_s, most_s)
        Current in percent of the rating [%] with the least and the most opening time [s]; None where not given.
    current_over_rating : float
        Current over rating, above 0. [-]

    Returns
    -------
    least_s, most_s : float or None
        Least and most opening time, each None outside its own gates. [s]

    Notes
    -----
    Straight lines through the gates on logarithmic axes, least and most apart; no extrapolation.

    Examples
    --------
    >>> type_e = [(135, 60, 1800), (200, 2, 60), (350, 0.2, 7)]
    >>> opening_time_s(type_e, 2.0), opening_time_s(type_e, 4.0)
    ((2.0, 60.0), (None, None))
    """
    above_0("Current over rating", current_over_rating)
    for percent, least_s, most_s in gates:
        above_0("Percent of rating", percent, "%")
        for time_s in (least_s, most_s):
            if time_s is not None:
                above_0("Opening time", time_s, "s")
    least = [(percent, time_s) for percent, time_s, _ in gates if time_s is not None]
    most = [(percent, time_s) for percent, _, time_s in gates if time_s is not None]
    return _log_log(least, 100 * current_over_rating), _log_log(most, 100 * current_over_rating)


def _log_log(points: Sequence[tuple[float, float]], x: float) -> float | None:
    xs = [point[0] for point in points]
    if not xs or not min(xs) * (1 - FLOAT_NOISE) <= x <= max(xs) * (1 + FLOAT_NOISE):
        return None
    for at, time_s in points:
        if abs(x - at) <= FLOAT_NOISE * at:
            return float(time_s)
    return exp(interpolate(log(x), [(log(at), log(time_s)) for at, time_s in points], "Current over rating"))
