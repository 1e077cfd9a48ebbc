"""A block from a spreadsheet into the load inventory: what can be used is, the rest is named cell by cell."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rigcalc.errors import InputError
from rigcalc.model import Rig
from rigcalc.model.edit import Change, changed
from rigcalc.model.rows import free_id
from rigcalc.study.working import plural
from rigcalc.widgets.forms import part_of
from rigcalc.widgets.load_cells import edited, fed_another_way, said

Line = tuple[str | None, Mapping[str, str]]  # load id, or None for a new row; text by column


@dataclass(frozen=True, slots=True)
class Pasted:
    """The rig with the block in it, and the cells that could not be used."""

    rig: Rig
    refused: tuple[tuple[str, str, str, str], ...]  # load id, column, text, what is wrong
    sentence: str


def paste(rig: Rig, lines: Sequence[Line]) -> Pasted:
    """Put a block in. Lines past the last row become new loads; a new line without a name gets one."""
    refused: list[tuple[str, str, str, str]] = []
    before, full = len(rig.loads), ""
    for load_id, cells in lines:
        stated = {key: " ".join(text.split()) for key, text in cells.items()}
        if load_id is None and not any(stated.values()):
            continue
        try:
            rig, at = (rig, load_id) if load_id is not None else _new(rig, stated)
        except InputError as error:
            full = f" The rest was left out: {error}"
            break
        for key, text in stated.items():
            if load_id is None and (not text or key == "name"):
                continue
            rig, wrong = _cell(rig, at, key, text)
            refused += [(at, key, text, wrong)] if wrong else []
    new = len(rig.loads) - before
    sentence = f"{plural(len(lines), 'line')} pasted, {new} of them new." + full
    if refused:
        count = "1 cell" if len(refused) == 1 else f"{len(refused)} cells"
        sentence += f" {count} could not be used: what is wrong stands under each."
    return Pasted(rig, tuple(refused), sentence)


def _new(rig: Rig, stated: Mapping[str, str]) -> tuple[Rig, str]:
    name = stated.get("name") or f"Load {len(rig.loads) + 1}"
    load_id = free_id(rig, name)
    return changed(rig, Change("loads", load_id, (("name", name),), new=True)), load_id


def _cell(rig: Rig, load_id: str, key: str, text: str) -> tuple[Rig, str]:
    """The rig with one cell set, or what is wrong with it."""
    try:
        fields = edited(rig, part_of(rig, "loads", load_id), key, text)
        way = fed_another_way(rig, load_id, fields).changes if key == "feed" else None
        return changed(rig, *(way or (Change("loads", load_id, tuple(fields.items())),))), ""
    except InputError as error:
        return rig, str(said(error, key, text))
