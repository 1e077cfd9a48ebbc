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
        at = load_id
        if at is None:
            stated = {key: text for key, text in stated.items() if text}
            if not stated:
                continue
            try:
                rig, at = _new(rig, stated.get("name", ""))
            except InputError as error:
                full = f" The rest was left out: a rig takes {error.allowed.replace('entries', 'loads')}."
                break
        for key, text in stated.items():
            rig, wrong = _cell(rig, at, key, text)
            refused += [(at, key, text, wrong)] if wrong else []
    return Pasted(rig, tuple(refused), _words(len(lines), len(rig.loads) - before, len(refused)) + full)


def _words(lines: int, new: int, refused: int) -> str:
    sentence = f"{plural(lines, 'line')} pasted, {new} of them new."
    if not refused:
        return sentence
    return f"{sentence} {plural(refused, 'cell')} could not be used: what is wrong stands under each."


def _new(rig: Rig, name: str) -> tuple[Rig, str]:
    """A new load by its name; where that is none, by a number."""
    for wish in (name, f"Load {len(rig.loads) + 1}"):
        load_id = free_id(rig, wish)
        try:
            return changed(rig, Change("loads", load_id, (("name", wish),), new=True)), load_id
        except InputError as error:
            told = error
    raise told


def _cell(rig: Rig, load_id: str, key: str, text: str) -> tuple[Rig, str]:
    """The rig with one cell set, or what is wrong with it."""
    try:
        fields = edited(rig, part_of(rig, "loads", load_id), key, text)
        way = fed_another_way(rig, load_id, fields).changes if key == "feed" else None
        return changed(rig, *(way or (Change("loads", load_id, tuple(fields.items())),))), ""
    except InputError as error:
        return rig, str(said(error, key, text))
