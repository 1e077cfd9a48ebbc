"""Numbers and records as a working shows them."""

from __future__ import annotations

from rigcalc.study.results import Spread, Working
from rigcalc.tables import Row


def figure(value: float) -> str:
    """A number to three digits, whole from 100 on, never in powers of ten.

    Examples
    --------
    >>> figure(1279.6), figure(0.85), figure(12.34), figure(0.00004)
    ('1280', '0.85', '12.3', '0')
    """
    if value >= 100:
        return f"{value:.0f}"
    return f"{value:.3g}" if value >= 0.0005 else "0"


def plural(count: int, word: str) -> str:
    """A count and its word.

    Examples
    --------
    >>> plural(1, "string"), plural(3, "load")
    ('1 string', '3 loads')
    """
    return f"{count} {word}" if count == 1 else f"{count} {word}s"


def band(spread: Spread, unit: str) -> str:
    """Low, likely and high in one line.

    Examples
    --------
    >>> band(Spread(180, 200, 220), "Wh")
    '180 to 220 Wh, likely 200 Wh'
    """
    return f"{figure(spread.low)} to {figure(spread.high)} {unit}, likely {figure(spread.likely)} {unit}"


def sourced(what: str, equation: str, numbers: str, result: str, row: Row) -> Working:
    """A working whose deciding figure is one row of a table."""
    return Working(what, equation, numbers, result, row.source, row.locator, row.status)
