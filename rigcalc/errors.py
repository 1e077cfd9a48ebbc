"""One place for messages: what is wrong, what was given, what is allowed."""

from __future__ import annotations

import math

_LONGEST_SHOWN = 60


class InputError(ValueError):
    """An input that cannot be used, with the parts of its message.

    Parameters
    ----------
    what : str
        The quantity or field, as a person would name it.
    given : object
        The value as it came in; long values are shortened for the message only.
    allowed : str
        What would be accepted.

    Examples
    --------
    >>> print(InputError("Length out", -5, "0 m or more"))
    Length out is -5; expected 0 m or more.
    """

    def __init__(self, what: str, given: object, allowed: str) -> None:
        self.what, self.given, self.allowed = what, given, allowed
        super().__init__(f"{what} is {shown(given)}; expected {allowed}.")


def shown(value: object) -> str:
    """A value as an error message prints it: text in quotes, nothing longer than a line.

    Examples
    --------
    >>> shown("6 ftt"), shown(2.50), shown(None)
    ("'6 ftt'", '2.5', 'empty')
    """
    if value is None or value == "":
        return "empty"
    if isinstance(value, str):
        text = repr(value if len(value) <= _LONGEST_SHOWN - 2 else value[: _LONGEST_SHOWN - 3] + "…")
    elif isinstance(value, bool):
        text = str(value).lower()
    elif isinstance(value, float):
        text = f"{value:g}" if abs(value) < 1e6 else f"{value:.15g}"  # a large one with all its digits
    else:
        text = _plain(value)
    return text if len(text) <= _LONGEST_SHOWN else text[: _LONGEST_SHOWN - 1] + "…"


def _plain(value: object) -> str:
    """Anything else on one line; what Python cannot print (a whole number of thousands of digits) gets its type."""
    try:
        return " ".join(str(value).split())
    except (ValueError, RecursionError):
        return f"a {type(value).__name__} too long to print"


def need(ok: bool, what: str, given: object, allowed: str) -> None:
    """Raise `InputError` unless ``ok``; a NaN never passes.

    Examples
    --------
    >>> need(2.0 >= 0, "Length out", 2.0, "0 m or more")
    """
    if not ok or (isinstance(given, float) and math.isnan(given)):
        raise InputError(what, given, allowed)
