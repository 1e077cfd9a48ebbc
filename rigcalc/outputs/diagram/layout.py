"""Where everything stands on a sheet: rows down it, columns across; no drawing here."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.outputs.diagram.columns import GAP_MM, ROOT_MM, Across, across, written
from rigcalc.outputs.diagram.drawing import Group, Line, Mark, Paper, Text, Weight
from rigcalc.outputs.diagram.facts import Facts
from rigcalc.outputs.diagram.lettering import fit
from rigcalc.outputs.diagram.nodes import LOOSE, Node, Piece, row_counts, walk
from rigcalc.outputs.diagram.paging import piece_rows
from rigcalc.outputs.diagram.symbols import SYMBOLS

PITCH_MM = 8.8
FIRST_ROW_MM = 8.0
ABOVE_MM = -4.8  # upper edge of lettering above a line
BELOW_MM = 0.8
LINE_MM = 3.5  # from one line of lettering to the next
BAR_END_MM = 2.4  # how far a bus bar reaches beyond its outermost runs


@dataclass(frozen=True, slots=True)
class Place:
    """A node, the level of its row, and its depth in its piece."""

    node: Node
    y_mm: float
    depth: int
    rows: int


def place(pieces: list[Piece], facts: Facts, paper: Paper) -> list[Group]:
    """Everything of one sheet but legend and title block."""
    columns = across(pieces, facts, paper)
    top_mm = paper.margin + FIRST_ROW_MM
    found: list[Group] = []
    for piece in pieces:
        places = _places(piece, top_mm)
        found.append(_root(piece, places[piece.root], columns, facts))
        for at in places.values():
            if at.node.children:
                found.append(_trunk(at, places, columns, facts))
            if at.depth:
                found += [*_edge(at, piece, columns, facts), _end(at, piece, columns, facts)]
        top_mm += (piece_rows(piece) + 1) * PITCH_MM
    return [group for group in found if group.lines or group.marks or group.texts]


def _places(piece: Piece, top_mm: float) -> dict[Node, Place]:
    """A node stands on the row of the first that it feeds."""
    rows = row_counts(piece.root)
    found: dict[Node, Place] = {}
    y_mm = top_mm
    for node, depth in walk(piece.root):
        found[node] = Place(node, y_mm, depth, rows[node])
        if not node.children:
            y_mm += PITCH_MM
    return found


def _root(piece: Piece, at: Place, columns: Across, facts: Facts) -> Group:
    node, x_mm, y_mm = piece.root, columns.starts[0], at.y_mm
    group = Group({"node": node.id} if piece.back is None else {"goes-on": node.id}, _title(node, facts))
    most_mm = ROOT_MM - 4
    if piece.back is not None:
        here = "from above" if piece.back.sheet == piece.sheet else f"from sheet {piece.back.sheet}"
        group.lines.append(Line(x_mm - most_mm, y_mm, x_mm, y_mm, "heavy" if facts.live_node(node) else "thin"))
        words = [fit(facts.designation(node.id) or "no run", most_mm - 2), here]
    elif node.kind == "bank":
        group.marks.append(Mark("battery", x_mm - 8, y_mm))
        group.lines.append(Line(x_mm - 2, y_mm, x_mm, y_mm, "heavy" if facts.live_node(node) else "thin"))
        below = [Text(x_mm - 1.5, y_mm + 3.4 + LINE_MM * n, fit(words, most_mm), True) for n, words in
                 enumerate(facts.bank_lines())]  # fmt: skip
        group.texts += below
        return group
    else:
        words = ["No run leads to:"] if node.kind == LOOSE else [_named(node, facts, most_mm - 2), "no run to it"]
    for line, dy_mm in zip(words, (ABOVE_MM if len(words) > 1 else -1.4, BELOW_MM), strict=False):
        group.texts.append(Text(x_mm - 1.5, y_mm + dy_mm, line, True))
    return group


def _named(node: Node, facts: Facts, most_mm: float) -> str:
    return written(facts.designation(node.id), facts.rating(node), most_mm)


def _trunk(at: Place, places: dict[Node, Place], columns: Across, facts: Facts) -> Group:
    """A bus bar, or the line from which the runs of another node leave."""
    node, x_mm = at.node, columns.starts[at.depth]
    group = Group({"trunk": node.id}, _title(node, facts))
    levels = [places[child].y_mm for child in node.children]
    if node.kind in ("bus", "block"):
        group.lines.append(Line(x_mm, levels[0] - BAR_END_MM, x_mm, levels[-1] + BAR_END_MM, "bar"))
    elif node.kind != LOOSE and len(levels) > 1:
        linked = all(child.run is None and child.kind != "more" for child in node.children)
        weight: Weight = "heavy" if facts.live_node(node) else "dashed" if linked else "thin"
        group.lines.append(Line(x_mm, levels[0], x_mm, levels[-1], weight))
        group.dots += [(x_mm, level) for level in levels[:-1]]
    return group


def _edge(at: Place, piece: Piece, columns: Across, facts: Facts) -> list[Group]:
    """The run to a node with its devices and its number, or a dashed line where none is stated."""
    node, x_mm, y_mm = at.node, columns.starts[at.depth - 1], at.y_mm
    end_mm = _end_mm(at, columns)
    run = node.run
    if run is None:
        if piece.root.kind == LOOSE:
            return []
        weight: Weight = "thin" if node.kind == "more" else "dashed"
        return [Group({"link": node.id}, _title(node, facts), [Line(x_mm, y_mm, end_mm, y_mm, weight)])]
    words = f"-{run.id} {run.name}, from {facts.designation(run.from_id)} to {facts.designation(run.to_id)}"
    live = facts.live_word(run)
    data = {"run": run.id, "from": run.from_id, "to": run.to_id, "live": live}
    group = Group(data, f"{words}, {facts.size(run)}, {_LIVE[live]}")
    _upon(group, at, columns, facts)
    group.lines += _between(group.marks, x_mm, end_mm, y_mm, live)
    return [group]


_LIVE = {
    "always": "always live, before the main switch",
    "to the switch": "holds the main switch, always live up to it",
    "switched": "behind the main switch",
    "not stated": "main switch not stated",
    "not connected": "not connected to the bank",
}


def _upon(group: Group, at: Place, columns: Across, facts: Facts) -> None:
    """Devices, main switch, chassis return and wire number along a run."""
    run, column = at.node.run, columns.columns[at.depth - 1]
    assert run is not None
    x_mm, y_mm = columns.starts[at.depth - 1] + GAP_MM, at.y_mm
    devices = facts.devices(run)
    for n, width in enumerate(column.devices):
        if n < len(devices):
            words = written(f"-{devices[n].id}", facts.device_rating(devices[n]), width)
            group.marks.append(Mark(facts.device_kind(devices[n]), x_mm, y_mm))
            group.texts.append(Text(x_mm, y_mm + ABOVE_MM, words, designation=devices[n].id))
        x_mm += width + GAP_MM
    if column.switch:
        if run.id == facts.study.rig.main_switch_run:
            group.marks.append(Mark("switch", x_mm + 3, y_mm))
            group.texts.append(Text(x_mm, y_mm + ABOVE_MM, "main switch"))
        x_mm += column.switch + GAP_MM
    if run.return_path == "chassis":
        group.marks.append(Mark("frame", x_mm, y_mm))
    group.texts.append(Text(x_mm, y_mm + ABOVE_MM, written(f"-{run.id}", facts.size(run), column.wire)))


def _between(marks: list[Mark], x_mm: float, end_mm: float, y_mm: float, live: str) -> list[Line]:
    """The line of a run, broken at its symbols, heavy as far as it is always live."""
    found: list[Line] = []
    heavy = live in ("always", "to the switch")
    for mark in marks:
        if mark.kind == "frame":
            continue
        found.append(Line(x_mm, y_mm, mark.x_mm, y_mm, "heavy" if heavy else "thin"))
        x_mm = mark.x_mm + SYMBOLS[mark.kind].width
        heavy = heavy and mark.kind != "switch"
    return [*found, Line(x_mm, y_mm, end_mm, y_mm, "heavy" if heavy else "thin")]


def _end_mm(at: Place, columns: Across) -> float:
    """Where the line to a node ends."""
    if not at.node.children:
        return columns.loads
    box = at.node.kind in ("inverter", "converter")
    return columns.starts[at.depth] - (SYMBOLS["converter"].width + GAP_MM if box else 0)


def _end(at: Place, piece: Piece, columns: Across, facts: Facts) -> Group:
    """Symbol and lettering at the end of a run."""
    node, y_mm = at.node, at.y_mm
    data = {"goes-on": node.id} if node.kind == "more" else {"node": node.id}
    group = Group(data, _title(node, facts))
    if node.children:
        _passing(group, at, columns, facts)
        return group
    bar = facts.mark(node) == "bar"
    group.marks.append(Mark(facts.mark(node), columns.loads, y_mm))
    first, second = _leaf_words(node, piece, facts, columns.loads_words)
    x_mm = columns.loads + (3 if bar else 10)
    group.texts.append(Text(x_mm, y_mm - 3.2, first, designation=node.id if node.kind != "more" else ""))
    group.texts.append(Text(x_mm, y_mm + 0.3, second))
    return group


def _leaf_words(node: Node, piece: Piece, facts: Facts, most_mm: float) -> tuple[str, str]:
    if node.onward is None:
        return _named(node, facts, most_mm), fit(facts.name(node.id), most_mm)
    to = "goes on below" if node.onward.sheet == piece.sheet else f"to sheet {node.onward.sheet}"
    if node.kind == "more":
        return fit(facts.designation(node.id) or "More without a run", most_mm), to
    return _named(node, facts, most_mm), fit(f"{to}, {facts.designation(node.id)}", most_mm)


def _passing(group: Group, at: Place, columns: Across, facts: Facts) -> None:
    """Label of a bus bar, block, inverter or converter that feeds others, below the line that leads to it."""
    node, y_mm, column = at.node, at.y_mm, columns.columns[at.depth - 1]
    x_mm, trunk_mm = _end_mm(at, columns), columns.starts[at.depth]
    if x_mm < trunk_mm:
        group.marks.append(Mark(node.kind, x_mm, y_mm))
        right_mm = x_mm + SYMBOLS[node.kind].width
        group.lines.append(Line(right_mm, y_mm, trunk_mm, y_mm, "heavy" if facts.live_node(node) else "thin"))
    most_mm = column.wire + column.spare - (4 if node.run and node.run.return_path == "chassis" else 0)
    words = _named(node, facts, most_mm)
    group.texts.append(Text(x_mm - 1.5, y_mm + BELOW_MM, words, True, designation=node.id))
    if at.rows > 1:
        most_mm = x_mm - 1.5 - columns.starts[at.depth - 1] - GAP_MM
        group.texts.append(Text(x_mm - 1.5, y_mm + BELOW_MM + LINE_MM, fit(facts.name(node.id), most_mm), True))


def _title(node: Node, facts: Facts) -> str:
    """Designation, name and rating in full."""
    if node.kind == LOOSE or not node.id:
        return "Parts that no run leads to"
    words = f"{facts.designation(node.id)} {facts.name(node.id)}"
    rating = facts.rating(node)
    return f"{words}, {rating}" if rating else words
