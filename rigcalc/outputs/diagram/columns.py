"""Where things stand across a sheet: one column for each run in line, as wide as what is written in it."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.outputs.diagram.drawing import Paper
from rigcalc.outputs.diagram.facts import Facts
from rigcalc.outputs.diagram.lettering import label, width_mm
from rigcalc.outputs.diagram.nodes import Node, Piece, walk
from rigcalc.outputs.diagram.symbols import SYMBOLS

ROOT_MM = 29.0  # bank, or where a piece comes from
LOADS_MM = 64.0
LOADS_LEAST_MM = 50.0
GAP_MM = 2.0
SWITCH_MM = 17.0
SPARE_MOST_MM = 14.0


@dataclass(slots=True)
class Column:
    """Widths of one column: its devices, its main switch, its wire numbers, the symbol at its end. [mm]"""

    devices: tuple[float, ...] = ()
    switch: float = 0.0
    wire: float = 0.0
    end: float = 0.0
    spare: float = 0.0

    @property
    def words(self) -> float:
        """Width that lettering takes."""
        return sum(self.devices) + self.wire

    @property
    def least(self) -> float:
        """Width that its devices take without lettering."""
        return len(self.devices) * SYMBOLS["fuse"].width

    @property
    def width(self) -> float:
        """All of it."""
        gaps = GAP_MM * (2 + len(self.devices) + bool(self.switch))
        return self.words + self.switch + self.end + self.spare + gaps


@dataclass(frozen=True, slots=True)
class Across:
    """Left edge of each column, and of the loads at the right. [mm]"""

    columns: tuple[Column, ...]
    starts: tuple[float, ...]  # one more than columns
    loads: float
    loads_words: float  # width for lettering beside a load


def across(pieces: list[Piece], facts: Facts, paper: Paper) -> Across:
    """Columns for all pieces of a sheet; lettering is narrowed where the paper is."""
    columns = _columns(pieces, facts)
    needed = sum(column.width for column in columns)
    whole = paper.width - 2 * paper.margin - ROOT_MM - GAP_MM
    loads = min(LOADS_MM, max(LOADS_LEAST_MM, whole - needed))
    over = needed - (whole - loads)
    if over > 0:
        words = sum(column.words - column.least for column in columns)
        for column in columns:
            _narrow(column, (words - over) / words)
    else:
        for column in columns:
            column.spare = min(SPARE_MOST_MM, -over / len(columns))
    starts = [paper.margin + ROOT_MM]
    for column in columns:
        starts.append(starts[-1] + column.width)
    return Across(tuple(columns), tuple(starts), paper.right - loads, loads - 11.0)


def _columns(pieces: list[Piece], facts: Facts) -> list[Column]:
    found: list[Column] = []
    for piece in pieces:
        for node, depth in walk(piece.root):
            if depth == 0:
                continue
            while len(found) < depth:
                found.append(Column())
            _widen(found[depth - 1], node, facts)
    return found


def _widen(column: Column, node: Node, facts: Facts) -> None:
    if node.children and node.kind in ("inverter", "converter"):
        column.end = SYMBOLS[node.kind].width + GAP_MM
    if node.run is None:
        return
    column.wire = max(column.wire, width_mm(f"-{node.run.id} {facts.size(node.run)}"))
    if node.run.id == facts.study.rig.main_switch_run:
        column.switch = SWITCH_MM
    texts = [width_mm(f"-{one.id} {facts.device_rating(one)}") for one in facts.devices(node.run)]
    widths = list(column.devices) + [SYMBOLS["fuse"].width] * (len(texts) - len(column.devices))
    column.devices = tuple(max(width, *texts[n : n + 1], 0.0) for n, width in enumerate(widths))


def _narrow(column: Column, share: float) -> None:
    least = SYMBOLS["fuse"].width
    column.devices = tuple(least + (width - least) * share for width in column.devices)
    column.wire *= share


def written(designation: str, rest: str, most_mm: float) -> str:
    """A label in a column; a hair wider than estimated, so that a label that just fits is not shortened."""
    return label(designation, rest, most_mm + 0.01)
