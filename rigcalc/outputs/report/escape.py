"""Any text as a string of typst: read as letters only, never as markup, code, a reference or a formula.

A text between quotes is not parsed further; a backslash and a quote are the only signs that mean something in it.
"""

from __future__ import annotations

import re

LONGEST_WORD = 18  # letters; a longer word may break anywhere after so many
_UNSEEN = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u200e\u200f\u202a-\u202e\u2066-\u2069\ud800-\udfff]")
_LINE_END = re.compile("\r\n|[\u2028\u2029]")
_LONG_WORD = re.compile(rf"[^\s\u200b-]{{{LONGEST_WORD + 1},}}")
_BREAK_HERE = "\u200b"


def text(given: str) -> str:
    """A typst string that shows exactly the given text.

    Parameters
    ----------
    given : str
        Any text. A line break stays one; other control characters and marks that turn the direction of writing show
        as a replacement character; words too long for a column may break, without a sign. [-]

    Returns
    -------
    str
        The string with its quotes.

    Examples
    --------
    >>> print(text('#panic("x") $x$'))
    "#panic(\\"x\\") $x$"
    >>> print(text("a" + chr(92) + "b" + chr(7)))
    "a\\\\b\ufffd"
    """
    seen = _UNSEEN.sub("\ufffd", _LINE_END.sub("\n", given).replace("\t", " "))
    return quoted(_LONG_WORD.sub(_broken, seen))


def quoted(given: str) -> str:
    """The text between quotes as it is, for what is no reading matter, such as a drawing."""
    escaped = given.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace("\r", "\\r")
    return f'"{escaped}"'


def _broken(found: re.Match[str]) -> str:
    word = found.group()
    return _BREAK_HERE.join(word[at : at + LONGEST_WORD // 3] for at in range(0, len(word), LONGEST_WORD // 3))
