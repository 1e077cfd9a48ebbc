"""Graphical symbols, drawn once each with schemdraw, in millimetres, their left terminal at 0, 0.

The families IEC 60617 and ANSI Y32.2 / IEEE 315 differ here in fuse, breaker, switch and lamp. The shapes are drawn
from memory of both; clause and symbol numbers are not recorded.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from schemdraw.segments import SegmentType

Symbols = Literal["iec", "ansi"]
Shape = list[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Symbol:
    """How much room a symbol takes about its left terminal, and its name in the legend. [mm]"""

    width: float
    up: float
    down: float
    words: str


SYMBOLS = {
    "battery": Symbol(6, 2.2, 2.2, "battery bank"),
    "fuse": Symbol(7, 1.3, 1.3, "fuse"),
    "breaker": Symbol(7, 1.7, 0.7, "circuit breaker"),
    "switch": Symbol(7, 1.7, 0.5, "main switch"),
    "bar": Symbol(1.2, 2.4, 2.4, "bus bar, block"),
    "inverter": Symbol(8, 3, 3, "inverter"),
    "converter": Symbol(8, 3, 3, "DC converter"),
    "lamp": Symbol(4.8, 2.4, 2.4, "lamp"),
    "motor": Symbol(4.8, 2.4, 2.4, "motor, pump"),
    "load": Symbol(7, 1.6, 1.6, "other load"),
    "frame": Symbol(3, 0, 3.2, "chassis return"),
    "onward": Symbol(4, 1.4, 1.4, "to other sheet"),
}


@cache
def drawn(kind: str, symbols: Symbols) -> str:
    """SVG elements of one symbol, without style: the sheet gives stroke and fill."""
    import schemdraw
    from schemdraw.elements import Element

    element = Element()
    element.segments.extend(_shapes(kind, symbols))
    with schemdraw.Drawing(canvas="svg", show=False) as drawing:
        drawing.config(inches_per_unit=1 / 72, unit=1, margin=0)
        drawing.add(element.at((0, 0)))
    text = drawing.get_imagedata("svg").decode()
    return re.sub(r' style="([^"]*)"', _only_fill, text[text.index(">") + 1 : text.rindex("</svg>")])


def _only_fill(style: re.Match[str]) -> str:
    return ' fill="#000"' if "fill:black" in style[1] else ""


def _shapes(kind: str, symbols: Symbols) -> list[SegmentType]:
    own = _ANSI.get(kind) if symbols == "ansi" else None
    return (own or _IEC[kind])()


def _lines(*shapes: Shape) -> list[SegmentType]:
    from schemdraw.segments import Segment

    return [Segment(shape) for shape in shapes]


def _circle(x: float, radius: float) -> list[SegmentType]:
    from schemdraw.segments import SegmentCircle

    return [SegmentCircle((x, 0), radius)]


def _box(width: float, half: float) -> Shape:
    return [(0, half), (width, half), (width, -half), (0, -half), (0, half)]


def _wave(left: float, y: float, width: float, height: float) -> Shape:
    return [(left + width * n / 16, y + height * math.sin(math.tau * n / 16)) for n in range(17)]


def _battery() -> list[SegmentType]:
    plates: list[Shape] = [[(x, -half), (x, half)] for x, half in ((1, 1.1), (2.2, 2.2), (3.4, 1.1), (4.6, 2.2))]
    return _lines(*plates, [(4.6, 0), (6, 0)])


def _fuse() -> list[SegmentType]:
    return _lines(_box(7, 1.3), [(0, 0), (7, 0)])


def _fuse_ansi() -> list[SegmentType]:
    return _lines(_wave(0, 0, 7, 1.3))


def _contact() -> list[SegmentType]:
    return _lines([(0, 0), (1.6, 0), (5.4, 1.7)], [(5.4, 0), (7, 0)])


def _contact_ansi() -> list[SegmentType]:
    line = _lines([(0, 0), (0.9, 0)], [(1.6, 0.35), (5.6, 1.7)], [(6.1, 0), (7, 0)])
    return [*line, *_circle(1.3, 0.4), *_circle(5.7, 0.4)]


def _breaker() -> list[SegmentType]:
    return [*_contact(), *_lines([(4.8, 0.6), (6, -0.6)], [(4.8, -0.6), (6, 0.6)])]


def _breaker_ansi() -> list[SegmentType]:
    arc = [(3.5 - 2.6 * math.cos(math.pi * n / 12), 0.5 + 1.2 * math.sin(math.pi * n / 12)) for n in range(13)]
    return [*_lines([(0, 0), (0.6, 0)], arc, [(6.4, 0), (7, 0)]), *_circle(1, 0.4), *_circle(6, 0.4)]


def _changer(*second: Shape) -> list[SegmentType]:
    """A converter's box: direct current in at the upper left, what it makes at the lower right."""
    return _lines(_box(8, 3), [(0, -3), (8, 3)], [(1, 1.9), (3.4, 1.9)], [(1, 1.2), (3.4, 1.2)], *second)


def _inverter() -> list[SegmentType]:
    return _changer(_wave(4.6, -1.5, 2.4, 0.6))


def _converter() -> list[SegmentType]:
    return _changer([(4.6, -1.2), (7, -1.2)], [(4.6, -1.9), (7, -1.9)])


def _lamp() -> list[SegmentType]:
    r = 2.4 * math.sqrt(0.5)
    return [*_circle(2.4, 2.4), *_lines([(2.4 - r, -r), (2.4 + r, r)], [(2.4 - r, r), (2.4 + r, -r)])]


def _lamp_ansi() -> list[SegmentType]:
    loop = [(2.4 - 0.8 * math.cos(math.pi * n / 10), 1.2 * math.sin(math.pi * n / 10)) for n in range(11)]
    return [*_circle(2.4, 2.4), *_lines([(0, 0), *loop, (4.8, 0)])]


def _motor() -> list[SegmentType]:
    return [*_circle(2.4, 2.4), *_lines([(1.3, -1.1), (1.3, 1.1), (2.4, -0.4), (3.5, 1.1), (3.5, -1.1)])]


def _load() -> list[SegmentType]:
    return _lines(_box(7, 1.6))


def _frame() -> list[SegmentType]:
    teeth: list[Shape] = [[(x, -2), (x - 0.8, -3.2)] for x in (0.8, 1.8, 2.8)]
    return _lines([(1.8, 0), (1.8, -2)], [(0.8, -2), (2.8, -2)], *teeth)


def _onward() -> list[SegmentType]:
    from schemdraw.segments import SegmentPoly

    return [SegmentPoly([(0, 1.4), (4, 0), (0, -1.4)], fill="black")]


def _bar() -> list[SegmentType]:
    from schemdraw.segments import SegmentPoly

    return [SegmentPoly([(0, 2.4), (1.2, 2.4), (1.2, -2.4), (0, -2.4)], fill="black")]


_IEC: dict[str, Callable[[], list[SegmentType]]] = {
    "battery": _battery, "fuse": _fuse, "breaker": _breaker, "switch": _contact, "inverter": _inverter,
    "converter": _converter, "lamp": _lamp, "motor": _motor, "load": _load, "frame": _frame, "onward": _onward,
    "bar": _bar,
}  # fmt: skip
_ANSI: dict[str, Callable[[], list[SegmentType]]] = {
    "fuse": _fuse_ansi, "breaker": _breaker_ansi, "switch": _contact_ansi, "lamp": _lamp_ansi,
}  # fmt: skip
