"""Border, legend and title block of a sheet."""

from __future__ import annotations

from rigcalc import CAUTION
from rigcalc.outputs.diagram.drawing import Group, Line, Mark, Paper, Text
from rigcalc.outputs.diagram.facts import Facts
from rigcalc.outputs.diagram.lettering import fit, width_mm, wrap
from rigcalc.outputs.diagram.symbols import SYMBOLS, Symbols

TITLE_MM = 106.0
NAME_MM = 4.0
ROW_MM = 7.2
LEGEND_COLUMNS = 5
LEGEND_ROWS = 3
STANDARDS = {"iec": "IEC 60617", "ansi": "ANSI Y32.2 / IEEE 315"}


def frame(paper: Paper) -> Group:
    """The border and the lines between drawing, legend and title block."""
    left, top, right, low = paper.margin, paper.margin, paper.right, paper.height - paper.margin
    middle = right - TITLE_MM
    ends = [
        (left, top, right, top), (right, top, right, low), (left, low, right, low), (left, top, left, low),
        (left, paper.strip_top, right, paper.strip_top), (middle, paper.strip_top, middle, low),
    ]  # fmt: skip
    return Group({"part": "border"}, lines=[Line(*one, "frame") for one in ends])


def title_block(facts: Facts, paper: Paper, number: int, count: int) -> Group:
    """Name, kind of drawing, revision and date as the rig states them, rule set, sheet, caution."""
    rig = facts.study.rig
    x_mm, y_mm = paper.right - TITLE_MM + 2.5, paper.strip_top + 2.5
    most_mm = TITLE_MM - 5
    texts = [Text(x_mm, y_mm, fit(rig.name, most_mm, NAME_MM), size_mm=NAME_MM)]
    sheet = f"Sheet {number} of {count}"
    rows = [
        fit(f"Single-line diagram, {rig.system_v} V DC", most_mm),
        fit(f"Rules: {facts.study.rule_set.title}", most_mm),
        *wrap(CAUTION, most_mm, 2),
    ]
    y_mm += 6.2
    texts += [Text(x_mm, y_mm + 4.8 * n, words) for n, words in enumerate(rows)]
    foot_mm = paper.height - paper.margin - 5
    right_mm = paper.right - 2.5
    texts.append(Text(right_mm, foot_mm, sheet, True))
    date = f"Date: {rig.date or 'not stated'}"
    texts.append(Text(right_mm - width_mm(sheet) - 5, foot_mm, date, True))
    left_mm = most_mm - width_mm(sheet) - width_mm(date) - 10
    texts.append(Text(x_mm, foot_mm, fit(f"Revision: {rig.revision or 'not stated'}", left_mm)))
    return Group({"part": "title-block"}, texts=texts)


def legend(groups: list[Group], facts: Facts, symbols: Symbols, paper: Paper) -> Group:
    """The symbols and lines that occur on this sheet, and what letters and weights mean."""
    kinds = {mark.kind for group in groups for mark in group.marks}
    weights = {line.weight for group in groups for line in group.lines}
    if "bar" in weights:
        kinds.add("bar")
    group = Group({"part": "legend"})
    width = (paper.width - 2 * paper.margin - TITLE_MM) / LEGEND_COLUMNS
    shown = [kind for kind in SYMBOLS if kind in kinds] + [one for one in ("heavy", "dashed") if one in weights]
    for n, kind in enumerate(shown):
        x_mm = paper.margin + 2.5 + width * (n // LEGEND_ROWS)
        _sample(group, kind, x_mm, paper.strip_top + 5.0 + ROW_MM * (n % LEGEND_ROWS), width)
    x_mm, y_mm = paper.margin + 2.5, paper.height - paper.margin - 12.4
    for n, words in enumerate(_notes(facts, symbols)):
        most_mm = width * LEGEND_COLUMNS - 5
        group.texts.append(Text(x_mm, y_mm + 3.9 * n, fit(words, most_mm)))
    return group


def _sample(group: Group, kind: str, x_mm: float, y_mm: float, width: float) -> None:
    if kind == "heavy" or kind == "dashed":
        group.lines.append(Line(x_mm, y_mm, x_mm + 7, y_mm, kind))  # type: ignore[arg-type]
        words = "always live" if kind == "heavy" else "no run stated"
    else:
        group.marks.append(Mark(kind, x_mm, y_mm))
        words = SYMBOLS[kind].words
    group.texts.append(Text(x_mm + 9.5, y_mm - 1.4, fit(words, width - 10.5)))


def _notes(facts: Facts, symbols: Symbols) -> list[str]:
    live = "Heavy: live also with the main switch open. Drawn de-energised, the switch behind the fuse of its run."
    if facts.study.rig.main_switch_run is None:
        live = "Main switch not stated: what is always live is not known, and no line is drawn heavy."
    return [
        f"Symbols {STANDARDS[symbols]}. Letters IEC 81346: -F protection, -W run, -X bus bar or block,",
        f"{facts.bank_designation} battery (class G, source); other parts carry their own ids. A line is a pair.",
        live,
    ]
