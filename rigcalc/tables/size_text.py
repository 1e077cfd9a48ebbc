"""What a cable says it is: the named size behind the text printed on it, or the sizes it could mean."""

from __future__ import annotations

import re

from rigcalc.errors import InputError
from rigcalc.tables.conductors import ConductorSize, conductor, conductor_sizes

_SIZE = re.compile(r"(?P<n>\d+(?:[.,]\d+)?|\d/0)\s*(?P<unit>awg|mm2|mm²|mm\^2|sqmm|mm|ga|gauge)?", re.IGNORECASE)
_AWG, _MM2 = ("awg", "ga", "gauge"), ("mm2", "mm²", "mm^2", "sqmm")


def parse_size(text: str) -> tuple[ConductorSize | None, tuple[str, ...]]:
    """A size as printed on a cable, and what the text can mean where it can mean two things.

    Examples
    --------
    >>> parse_size("10 AWG")[0].name, parse_size("6 mm²")[0].name, parse_size("6")[1]
    ('10 AWG', '6 mm2', ('6 AWG (13.3 mm²)', '6 mm²'))
    """
    found = _SIZE.fullmatch(
        text.strip().removeprefix("AWG ").strip() + (" awg" if text.strip().startswith("AWG ") else "")
    )
    if not found:
        raise InputError("Conductor", text, "a size such as 10 AWG or 6 mm2")
    number, unit = found["n"].replace(",", "."), (found["unit"] or "").lower()
    if unit in _AWG or "/" in number:
        return _named(f"{number} AWG", text), ()
    if unit in _MM2:
        return _named(f"{float(number):g} mm2", text), ()
    return None, _meanings(number, unit)


def _named(name: str, text: str) -> ConductorSize:
    try:
        return conductor(name)
    except InputError:
        raise InputError("Conductor", text, "a size of the tables: 18 to 4/0 AWG, 0.75 to 240 mm2") from None


def _meanings(number: str, unit: str) -> tuple[str, ...]:
    square = f"{float(number):g} mm²"
    if unit == "mm":
        return (square, f"{float(number):g} mm measured across")
    awg = next((s for s in conductor_sizes("AWG") if s.name == f"{number} AWG"), None)
    return (f"{awg.name} ({awg.area_mm2:.1f} mm²)", square) if awg else (square, f"{number} of another series")
