"""One cell of a table on its way to another program: text never becomes a formula, numbers stay numbers."""

from __future__ import annotations

import math

from rigcalc.units import significant

#: A spreadsheet may take text that begins so for a formula or a command; the last four are the full-width forms.
BEGINS_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
_DIGITS = 9  # more than any figure has, fewer than a float's own dust


def is_risky(text: str) -> bool:
    """Whether a spreadsheet could take the text for a formula, spaces before it or not.

    Examples
    --------
    >>> is_risky("=1+1"), is_risky(" @SUM(A1)"), is_risky("Pump"), is_risky("W1 L+")
    (True, True, False, False)
    """
    return text.startswith(BEGINS_FORMULA) or text.lstrip().startswith(BEGINS_FORMULA)


def harmless(text: str) -> str:
    """Text that a spreadsheet keeps as text: a leading apostrophe where it could be taken for a formula.

    Examples
    --------
    >>> harmless("=1+1"), harmless("-2+3"), harmless("Bilge pump")
    ("'=1+1", "'-2+3", 'Bilge pump')
    """
    return f"'{text}" if is_risky(text) else text


def plain(value: object) -> str | int | float | None:
    """A cell's value as text, a number without float dust, or None where the cell is empty.

    Examples
    --------
    >>> plain(13.000000000000002), plain(float("nan")), plain(True), plain("-2")
    (13.0, None, 'yes', '-2')
    """
    if value is None or isinstance(value, str):
        return value or None
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int):
        return value
    if isinstance(value, float):
        return float(f"{value:.{_DIGITS}g}") if math.isfinite(value) else None
    item = getattr(value, "item", None)  # a numpy number
    return plain(item()) if item else str(value)


def csv_cell(value: object) -> str:
    """A cell for a CSV file: numbers in plain digits, text made harmless.

    Examples
    --------
    >>> csv_cell(-2.5), csv_cell("-2.5"), csv_cell(3.0), csv_cell(None)
    ('-2.5', "'-2.5", '3', '')
    """
    found = plain(value)
    if found is None:
        return ""
    if isinstance(found, float):
        digits = significant(found, _DIGITS)
        return digits.rstrip("0").rstrip(".") if "." in digits else digits
    return harmless(found) if isinstance(found, str) else str(found)
