"""Width of lettering on the paper, and text made to fit.

Widths are those of Helvetica, which Arial and Liberation Sans share, as remembered, in thousandths of the size; other
letters count as wide as a capital (Latin) or a full square.
"""

from __future__ import annotations

from functools import cache

SIZE_MM = 2.8  # smallest lettering on a sheet
_BY_WIDTH = {
    191: "'", 222: "ijl", 260: "|", 278: " !,./:;I[\\]ft", 333: "()-`r²³", 334: "{}", 355: '"', 389: "*", 400: "°",
    469: "^", 500: "Jckxsvyz", 556: "#$0123456789?L_abdeghnopqu", 584: "+<=>~×", 611: "FTZ", 667: "&ABEKPSVXY",
    722: "CDHNRUw", 778: "GOQ", 833: "Mm", 889: "%", 944: "W", 1000: "…—", 1015: "@",
}  # fmt: skip
_WIDTHS = {letter: width for width, letters in _BY_WIDTH.items() for letter in letters}


@cache
def _letter(letter: str) -> int:
    return _WIDTHS.get(letter, 780 if letter < "ʰ" else 1015)


def width_mm(text: str, size_mm: float = SIZE_MM) -> float:
    """Estimated width of one line of text. [mm]

    Examples
    --------
    >>> round(width_mm("-F3 10 A", size_mm=2.5), 2)
    9.59
    """
    return sum(map(_letter, text)) * size_mm / 1000


def fit(text: str, most_mm: float, size_mm: float = SIZE_MM) -> str:
    """The text, or its beginning and an ellipsis where it is wider than ``most_mm``.

    Examples
    --------
    >>> fit("Fuse block behind the counter", 20.0)
    'Fuse block b…'
    """
    if width_mm(text, size_mm) <= most_mm:
        return text
    left = most_mm * 1000 / size_mm - _letter("…")
    kept = ""
    for letter in text:
        left -= _letter(letter)
        if left < 0:
            break
        kept += letter
    return kept.rstrip() + "…"


def label(designation: str, rest: str, most_mm: float) -> str:
    """A designation with what follows it; the designation is shortened first."""
    if not rest:
        return fit(designation, most_mm)
    rest = fit(rest, most_mm * 0.7)
    return f"{fit(designation, most_mm - width_mm(' ' + rest))} {rest}"


def wrap(text: str, most_mm: float, lines: int, size_mm: float = SIZE_MM) -> list[str]:
    """The text on at most so many lines, broken at spaces; the last is shortened where it must be."""
    found = [""]
    for word in text.split():
        longer = f"{found[-1]} {word}".strip()
        if width_mm(longer, size_mm) <= most_mm or len(found) == lines or not found[-1]:
            found[-1] = longer
        else:
            found.append(word)
    return [fit(one, most_mm, size_mm) for one in found]
