"""What a sheet is made of, on paper in millimetres from its upper left corner."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from rigcalc.outputs.diagram.lettering import SIZE_MM, width_mm
from rigcalc.outputs.diagram.symbols import SYMBOLS

Box = tuple[float, float, float, float]  # left, top, right, bottom
Weight = Literal["thin", "heavy", "bar", "dashed", "frame"]


@dataclass(frozen=True, slots=True)
class Text:
    """One line of lettering; ``y_mm`` is its upper edge, ``x_mm`` its start or, where ``to_right``, its end."""

    x_mm: float
    y_mm: float
    words: str
    to_right: bool = False
    size_mm: float = SIZE_MM
    designation: str = ""

    @property
    def box(self) -> Box:
        """Room it takes, by the estimated widths."""
        width = width_mm(self.words, self.size_mm)
        left = self.x_mm - width if self.to_right else self.x_mm
        return left, self.y_mm, left + width, self.y_mm + self.size_mm


@dataclass(frozen=True, slots=True)
class Mark:
    """A graphical symbol with its left terminal at the point."""

    kind: str
    x_mm: float
    y_mm: float

    @property
    def box(self) -> Box:
        """Room it takes."""
        symbol = SYMBOLS[self.kind]
        return self.x_mm, self.y_mm - symbol.up, self.x_mm + symbol.width, self.y_mm + symbol.down


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line, level or upright."""

    x1_mm: float
    y1_mm: float
    x2_mm: float
    y2_mm: float
    weight: Weight = "thin"


@dataclass(slots=True)
class Group:
    """What belongs to one part of the rig, or to the sheet itself."""

    data: dict[str, str]
    title: str = ""
    lines: list[Line] = field(default_factory=list)
    dots: list[tuple[float, float]] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet, lying, and the room for the drawing on it. [mm]"""

    width: float
    height: float
    margin: float = 10.0
    strip: float = 38.0  # legend and title block along the lower edge

    @property
    def right(self) -> float:
        """Right edge of the drawing."""
        return self.width - self.margin

    @property
    def strip_top(self) -> float:
        """Upper edge of legend and title block."""
        return self.height - self.margin - self.strip


PAPERS = {"a4": Paper(297.0, 210.0), "letter": Paper(279.4, 215.9)}  # ISO 216; ANSI Y14.1 size A
