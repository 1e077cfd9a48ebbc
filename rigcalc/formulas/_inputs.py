"""The checks most formulas need, with one wording.

They run thousands of times a study, so a message is built only where it is raised.
"""

from __future__ import annotations

from math import inf

from rigcalc.errors import InputError, need

ZERO_C_K = 273.15


def at_least_0(what: str, value: float, unit: str = "") -> None:
    """Refuse anything but a finite value of 0 or more."""
    if not 0 <= value < inf:
        raise InputError(what, value, f"0 {unit} or more" if unit else "0 or more")


def above_0(what: str, value: float, unit: str = "") -> None:
    """Refuse anything but a finite value above 0."""
    if not 0 < value < inf:
        raise InputError(what, value, f"above 0 {unit}" if unit else "above 0")


def above_0_to_1(what: str, value: float) -> None:
    """Refuse anything but a fraction above 0 and up to 1."""
    need(0 < value <= 1, what, value, "above 0 and up to 1")


def count(what: str, value: float) -> None:
    """Refuse anything but a whole number of 1 or more."""
    need(1 <= value < inf and value % 1 == 0, what, value, "a whole number, 1 or more")


def temperature(what: str, value_c: float) -> None:
    """Refuse anything but a finite temperature above absolute zero."""
    if not -ZERO_C_K < value_c < inf:
        raise InputError(what, value_c, f"above -{ZERO_C_K} °C")


def two_lengths(length_out_m: float, length_back_m: float) -> None:
    """Refuse a circuit with a negative length; a return through the chassis may be 0."""
    at_least_0("Length out", length_out_m, "m")
    at_least_0("Length back", length_back_m, "m")
