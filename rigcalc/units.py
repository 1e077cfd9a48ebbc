"""What people type, turned into floats in named units, and back into theirs.

The only conversions of the project. The units people use every day are a small table, because importing pint
costs half a second and 15 MB; anything else a person types ("2 fathoms") goes to pint. A test holds every row
of the table against pint.
"""

from __future__ import annotations

import itertools
import math
import re
from functools import cache
from typing import Any

from rigcalc.errors import InputError

#: Field suffix -> (unit inside, unit shown in US customary, the kind of quantity in words).
SUFFIXES: dict[str, tuple[str, str, str]] = {
    "m": ("m", "ft", "a length such as 1.8 m or 6 ft"),
    "a": ("A", "A", "a current such as 4.2 A or 300 mA"),
    "v": ("V", "V", "a voltage such as 12.8 V"),
    "w": ("W", "W", "a power such as 45 W or 1.2 kW"),
    "wh": ("Wh", "Wh", "an energy such as 420 Wh or 0.42 kWh"),
    "ah": ("Ah", "Ah", "a charge such as 100 Ah"),
    "h": ("h", "h", "a time such as 5 h or 20 min"),
    "min": ("min", "min", "a time such as 3 min or 40 s"),
    "s": ("s", "s", "a time such as 0.5 s or 200 ms"),
    "c": ("°C", "°F", "a temperature such as 25 °C or 77 °F"),
    "ohm": ("ohm", "ohm", "a resistance such as 0.8 mohm"),
    "mm2": ("mm²", "mm²", "an area such as 6 mm²"),
    "percent": ("%", "%", "a percentage such as 3 %"),
}

#: Unit as typed (lower case where case carries no meaning) -> (unit inside, factor).
_TYPED: dict[str, tuple[str, float]] = {
    "m": ("m", 1.0), "cm": ("m", 0.01), "mm": ("m", 0.001), "km": ("m", 1000.0),
    "ft": ("m", 0.3048), "foot": ("m", 0.3048), "feet": ("m", 0.3048), "'": ("m", 0.3048),
    "in": ("m", 0.0254), "inch": ("m", 0.0254), "inches": ("m", 0.0254), '"': ("m", 0.0254),
    "yd": ("m", 0.9144),
    "A": ("A", 1.0), "a": ("A", 1.0), "amp": ("A", 1.0), "amps": ("A", 1.0), "mA": ("A", 0.001), "kA": ("A", 1000.0),
    "V": ("V", 1.0), "v": ("V", 1.0), "volt": ("V", 1.0), "volts": ("V", 1.0), "mV": ("V", 0.001),
    "W": ("W", 1.0), "w": ("W", 1.0), "watt": ("W", 1.0), "watts": ("W", 1.0), "kW": ("W", 1000.0), "mW": ("W", 0.001),
    "kw": ("W", 1000.0),
    "Wh": ("Wh", 1.0), "wh": ("Wh", 1.0), "kWh": ("Wh", 1000.0), "kwh": ("Wh", 1000.0),
    "Ah": ("Ah", 1.0), "ah": ("Ah", 1.0), "mAh": ("Ah", 0.001),
    "h": ("s", 3600.0), "hr": ("s", 3600.0), "hrs": ("s", 3600.0), "hour": ("s", 3600.0), "hours": ("s", 3600.0),
    "min": ("s", 60.0), "minute": ("s", 60.0), "minutes": ("s", 60.0),
    "s": ("s", 1.0), "sec": ("s", 1.0), "second": ("s", 1.0), "seconds": ("s", 1.0), "ms": ("s", 0.001),
    "d": ("s", 86400.0), "day": ("s", 86400.0), "days": ("s", 86400.0),
    "°C": ("°C", 1.0), "C": ("°C", 1.0), "c": ("°C", 1.0), "degC": ("°C", 1.0),
    "°F": ("°F", 1.0), "F": ("°F", 1.0), "f": ("°F", 1.0), "degF": ("°F", 1.0),
    "ohm": ("ohm", 1.0), "ohms": ("ohm", 1.0), "Ω": ("ohm", 1.0), "mohm": ("ohm", 0.001), "mΩ": ("ohm", 0.001),
    "mm²": ("mm²", 1.0), "mm2": ("mm²", 1.0), "mm^2": ("mm²", 1.0),
    "%": ("%", 1.0), "percent": ("%", 1.0),
}  # fmt: skip
SHORT_M = 0.6096  # below two feet lengths are shown in inches
_SECONDS = {"h": 3600.0, "min": 60.0, "s": 1.0}
_NUMBER = re.compile(r"[-+−]?(?:\d+(?:[ \u202f\u00a0]\d{3})*(?:[.,]\d*)?|[.,]\d+)(?:[eE][-+]?\d{1,3})?")


def suffix_of(field: str) -> str | None:
    """The unit suffix of a field's name, or None where it carries no dimension.

    Examples
    --------
    >>> suffix_of("length_out_m"), suffix_of("quantity"), suffix_of("hours_per_day_h")
    ('m', None, 'h')
    """
    tail = field.rsplit("_", 1)[-1]
    return tail if "_" in field and tail in SUFFIXES else None


def number(text: str, what: str = "Number") -> float:
    """A number as people write it: decimal point or comma, a space between thousands.

    A comma before exactly three digits with nothing after it ("1,500") can mean both; it is refused.

    Examples
    --------
    >>> number("4,2"), number("1 500"), number("−3.5")
    (4.2, 1500.0, -3.5)
    """
    cleaned = text.strip().replace("−", "-")
    if not _NUMBER.fullmatch(cleaned):
        raise InputError(what, text, "a number such as 4.2 or 4,2")
    if re.fullmatch(r"[-+]?[1-9]\d{0,2},\d{3}", cleaned):
        raise InputError(
            what, text, f"{cleaned.replace(',', '')} or {cleaned.replace(',', '.')}; the comma can mean both"
        )
    value = float(re.sub(r"[ \u202f\u00a0]", "", cleaned).replace(",", "."))
    if not math.isfinite(value):
        raise InputError(what, text, "a finite number")
    return value


def parse(text: str, suffix: str, what: str = "Value") -> float:
    """A typed quantity as a float in the unit that ``suffix`` names; a bare number is taken in that unit.

    Parameters
    ----------
    text : str
        What was typed: "6 ft", "4.2 A", "68 F", "1,5 m", "6 ft 4 in". [-]
    suffix : str
        Key of `SUFFIXES`. [-]
    what : str
        Name for the message. [-]

    Returns
    -------
    float
        The value in the suffix's unit.

    Raises
    ------
    InputError
        Where no number or no fitting unit can be read, or the text can mean two things ("1,500 m", "6 4", "1-2 m").

    Examples
    --------
    >>> round(parse("6 ft", "m"), 4), parse("68 F", "c"), parse("1,5", "m"), parse("20 min", "h") * 3
    (1.8288, 20.0, 1.5, 1.0)
    """
    _, _, allowed = SUFFIXES[suffix]
    parts = _split(text)
    if parts is None:
        raise InputError(what, text, allowed)
    values = [_value(n, unit, suffix, what, text) for n, unit in parts]
    if len(values) > 1 and not _falling(parts, suffix):
        raise InputError(what, text, allowed)
    total = math.copysign(math.fsum(abs(v) for v in values), values[0]) if len(values) > 1 else values[0]
    if not math.isfinite(total):
        raise InputError(what, text, allowed)
    return total


def _split(text: str) -> list[tuple[str, str]] | None:
    """Number and unit pairs of "6 ft 4 in"; None where the text is not made of them."""
    rest = text.strip()
    for typed, plain in (("−", "-"), ("′", "'"), ("″", '"'), ("\u2126", "Ω")):
        rest = rest.replace(typed, plain)
    parts: list[tuple[str, str]] = []
    while rest and len(parts) < 3:
        found = _NUMBER.match(rest)
        if not found:
            return None
        unit_text = re.match(r"[^\d+\-.,^]*(?:(?<=m)2(?!\d)|\^2)?", rest[found.end() :])
        unit = unit_text.group(0) if unit_text else ""
        parts.append((found.group(0), unit.strip()))
        rest = rest[found.end() + len(unit) :].strip()
    return parts if parts and not rest else None


def _falling(parts: list[tuple[str, str]], suffix: str) -> bool:
    """True where "6 ft 4 in" or "1 h 20 min" reads one way only: lengths or times, a smaller unit each time."""
    if SUFFIXES[suffix][0] not in ("m", *_SECONDS) or any(unit not in _TYPED for _, unit in parts):
        return False
    factors = [_TYPED[unit][1] for _, unit in parts]
    return all(a > b for a, b in itertools.pairwise(factors)) and not any(n[0] in "+-" for n, _ in parts[1:])


def _value(number_text: str, unit: str, suffix: str, what: str, whole: str) -> float:
    inside, _, allowed = SUFFIXES[suffix]
    value = number(number_text, what)
    if not unit:
        return value
    known, factor = _known(unit)
    if inside in _SECONDS and known == "s":
        return value * factor / _SECONDS[inside]
    if inside == "°C" and known == "°F":
        return (value - 32) / 1.8
    if known == inside:
        return value * factor
    if known:
        raise InputError(what, whole, allowed)
    return _by_pint(value, unit, suffix, what, whole)


def _known(unit: str) -> tuple[str, float]:
    """The table's row for a unit; case is ignored except where M would be mega and m milli."""
    folded = unit.lower()
    mega = unit.startswith("M") and folded in ("mohm", "mω", "ms")
    return _TYPED.get(unit) or (None if mega else _TYPED.get(folded)) or ("", 0.0)


@cache
def _registry() -> Any:
    import pint

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=False)


def _by_pint(value: float, unit: str, suffix: str, what: str, whole: str) -> float:
    """Any unit pint knows; half a second on first use."""
    inside, _, allowed = SUFFIXES[suffix]
    names = {"°C": "degC", "mm²": "mm**2", "%": "percent", "Ah": "A*h", "Wh": "W*h"}
    apparent = unit.lower().endswith("va")  # volt-amperes are not watts
    if inside == "%" or apparent or not re.fullmatch(r"[A-Za-zµμ°Ω²³*/^. ]{1,24}", unit):
        raise InputError(what, whole, allowed)
    try:
        return float(_registry().Quantity(value, unit).to(names.get(inside, inside)).magnitude)
    except Exception:  # pint and its tokeniser raise a dozen unrelated classes for text that is no unit
        raise InputError(what, whole, allowed) from None


def customary(value: float, suffix: str, system: str) -> float:
    """A value in the unit that the person's system uses for it: feet and °F for ``us``.

    Examples
    --------
    >>> customary(0.6096, "m", "us"), customary(20.0, "c", "us"), customary(5.0, "a", "us")
    (2.0, 68.0, 5.0)
    """
    unit = SUFFIXES[suffix][1]
    if system == "us" and unit == "ft":
        return value / 0.3048
    return value * 1.8 + 32 if system == "us" and unit == "°F" else value


def show(value: float, suffix: str, system: str = "metric", digits: int = 3) -> str:
    """A value with its unit for the screen, in the person's system, to ``digits`` significant digits.

    Parameters
    ----------
    value : float
        In the suffix's own unit.
    suffix : str
        Key of `SUFFIXES`. [-]
    system : str
        "metric" or "us". [-]
    digits : int
        Significant digits. [-]

    Examples
    --------
    >>> show(1.8288, "m"), show(1.8288, "m", "us"), show(0.1778, "m", "us"), show(20.0, "c", "us")
    ('1.83 m', '6.00 ft', '7.00 in', '68.0 °F')
    """
    if system == "us" and suffix == "m" and 0 < abs(value) < SHORT_M:
        return f"{significant(value / 0.0254, digits)} in"
    unit = SUFFIXES[suffix][1 if system == "us" else 0]
    return f"{significant(customary(value, suffix, system), digits)} {unit.replace('ohm', 'Ω')}"


def significant(value: float, digits: int = 3) -> str:
    """A number to so many significant digits, never in powers of ten, whole numbers kept whole.

    Examples
    --------
    >>> significant(0.01234), significant(1279.6), significant(0.0), significant(149.96), significant(5.0)
    ('0.0123', '1280', '0', '150', '5.00')
    """
    if value == 0 or not math.isfinite(value):
        return "0" if value == 0 else "none"
    decimals = max(0, digits - 1 - math.floor(math.log10(abs(value))))
    rounded = round(value, decimals)
    decimals = max(0, digits - 1 - math.floor(math.log10(abs(rounded)))) if rounded else decimals
    return f"{rounded:.{decimals}f}"
