"""Single-line diagram of a rig, on as many sheets as it takes."""

from __future__ import annotations

from typing import Literal

from rigcalc.errors import InputError
from rigcalc.outputs.diagram.drawing import PAPERS, Group, Paper
from rigcalc.outputs.diagram.facts import Facts
from rigcalc.outputs.diagram.frame import STANDARDS, frame, legend, title_block
from rigcalc.outputs.diagram.layout import place
from rigcalc.outputs.diagram.nodes import forest
from rigcalc.outputs.diagram.paging import sheets
from rigcalc.outputs.diagram.sheet import svg
from rigcalc.outputs.diagram.symbols import Symbols
from rigcalc.study import Study


def diagram(study: Study, symbols: Symbols = "iec", paper: Literal["a4", "letter"] = "a4") -> tuple[str, ...]:
    """Single-line diagram of the rig, one SVG text a sheet.

    Parameters
    ----------
    study : Study
        Of the rig to draw.
    symbols : str
        ``iec`` (IEC 60617) or ``ansi`` (ANSI Y32.2 / IEEE 315).
    paper : str
        ``a4`` or ``letter``, lying.

    Returns
    -------
    tuple of str
        The same for the same rig. Each run is a group with ``data-run``, ``data-from``, ``data-to``, ``data-live``.

    Notes
    -----
    Sources at the left, flow to the right. Above sixteen rows it goes on on the next sheet, with references both
    ways. Widths of lettering are estimated (``lettering``), so that nothing meets; no lettering is below 2.8 mm.

    References
    ----------
    IEC 61082-1 (rules of drawing) and IEC 81346-2 (letters), in spirit, from memory; clause not recorded.
    """
    if symbols not in STANDARDS:
        raise InputError("Symbols", symbols, ", ".join(STANDARDS))
    if paper not in PAPERS:
        raise InputError("Paper", paper, ", ".join(PAPERS))
    facts, size = Facts(study), PAPERS[paper]
    pages = sheets(forest(study.rig))
    drawn = []
    for number, pieces in enumerate(pages, start=1):
        groups = place(pieces, facts, size)
        groups += [frame(size), legend(groups, facts, symbols, size), title_block(facts, size, number, len(pages))]
        title = f"{study.rig.name}: single-line diagram, sheet {number} of {len(pages)}"
        drawn.append(svg(groups, title, _words(groups, facts, size), size, symbols))
    return tuple(drawn)


def _words(groups: list[Group], facts: Facts, paper: Paper) -> str:
    """The sheet in words: each run from where to where."""
    rig = facts.study.rig
    runs = [group.title for group in groups if "run" in group.data]
    head = f"Revision {rig.revision or 'not stated'}, date {rig.date or 'not stated'}, {len(runs)} runs on this sheet."
    return " ".join([head, *(f"{one}." for one in runs)])
