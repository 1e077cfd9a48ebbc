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
    text = f"{value:g}" if isinstance(value, float) else repr(value) if isinstance(value, str) else str(value)
    return text if len(text) <= _LONGEST_SHOWN else text[: _LONGEST_SHOWN - 1] + "…"


def need(ok: bool, what: str, given: object, allowed: str) -> None:
    """Raise `InputError` unless ``ok``; a NaN never passes.

    Examples
    --------
    >>> need(2.0 >= 0, "Length out", 2.0, "0 m or more")
    """
    if not ok or (isinstance(given, float) and math.isnan(given)):
        raise InputError(what, given, allowed)
