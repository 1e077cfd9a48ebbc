"""Changes to the rig's lists: a part added, copied, moved, or taken out with what cannot stay without it."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from rigcalc.errors import InputError, need
from rigcalc.model.base import Entry
from rigcalc.model.edit import Change, change
from rigcalc.model.rig import Rig

_LONGEST_ID = 28  # room for a number behind it


@dataclass(frozen=True, slots=True)
class Removal:
    """Changes that take parts out, and what else goes with them, in words."""

    changes: tuple[Change, ...]
    also: tuple[str, ...]  # "run W3", "device F3"


def free_id(rig: Rig, wish: str, taken: Sequence[str] = ()) -> str:
    """An id made of a name ("Rear lamp": rear-lamp), not yet used in the rig nor in ``taken``."""
    plain = unicodedata.normalize("NFKD", wish).encode("ascii", "ignore").decode().lower()
    stem = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:_LONGEST_ID].strip("-") or "part"
    used = {part_id for _, part_id in rig.parts()} | set(taken)
    return next(name for name in (stem, *(f"{stem}-{n}" for n in range(2, len(used) + 3))) if name not in used)


def fields_of(part: Entry) -> tuple[tuple[str, Any], ...]:
    """Everything stated of a part, as a `Change` takes it; the id stays out."""
    data = part.model_dump(mode="json", exclude_unset=True)
    return tuple((name, value) for name, value in data.items() if name != "id")


def in_order(rig: Rig, kind: str, ids: Sequence[str], new: Sequence[Change] = ()) -> tuple[Change, ...]:
    """Changes that bring a list into this order; ``new`` are its parts that the rig does not have yet.

    Raises
    ------
    InputError
        Where ``ids`` are not the list's own and the new ones, each once.
    """
    parts = {part.id: part for part in getattr(rig, kind)}
    added = {one.id: one for one in new}
    need(sorted(ids) == sorted([*parts, *added]), f"Order of {kind}", ", ".join(ids), "each part once")
    before = list(parts)
    same = next((at for at, (a, b) in enumerate(zip(before, ids, strict=False)) if a != b), min(len(before), len(ids)))
    gone = [Change(kind, part_id, gone=True) for part_id in before[same:]]
    again = [
        added[part_id] if part_id in added else Change(kind, part_id, fields_of(parts[part_id]), new=True)
        for part_id in ids[same:]
    ]
    return (*gone, *again)


def moved(rig: Rig, kind: str, part_id: str, step: int) -> tuple[Change, ...]:
    """A part one place up (-1) or down (1); no change at the end of the list."""
    ids = [part.id for part in getattr(rig, kind)]
    at = _place(ids, kind, part_id)
    if not 0 <= at + step < len(ids):
        return ()
    ids.insert(at + step, ids.pop(at))
    return in_order(rig, kind, ids)


def copied(rig: Rig, kind: str, part_id: str) -> tuple[str, tuple[Change, ...]]:
    """The id of a copy right below its original, and the changes that make it. Nothing leads to the copy."""
    parts = {part.id: part for part in getattr(rig, kind)}
    ids = list(parts)
    at = _place(ids, kind, part_id)
    part, copy_id = parts[part_id], free_id(rig, part_id)
    name = f"{part.name[:73]} (copy)"
    fields = tuple((key, name if key == "name" else value) for key, value in fields_of(part))
    ids.insert(at + 1, copy_id)
    return copy_id, in_order(rig, kind, ids, [Change(kind, copy_id, fields, new=True)])


def _place(ids: list[str], kind: str, part_id: str) -> int:
    if part_id not in ids:
        raise InputError(f"Id in {kind}", part_id, "the id of a part of this rig")
    return ids.index(part_id)


def cut_off(rig: Rig, node_id: str) -> Removal:
    """The runs that lead to a node taken out, with the devices in them."""
    runs = [run.id for run in rig.runs if run.to_id == node_id]
    devices = [device.id for device in rig.devices if device.run_id in runs]
    gone = [Change("devices", one, gone=True) for one in devices] + [Change("runs", one, gone=True) for one in runs]
    also = [f"run {one}" for one in runs] + [f"device {one}" for one in devices]
    if rig.main_switch_run in runs:
        gone.append(change("rig", main_switch_run=None))
        also.append("the place of the main switch")
    return Removal(tuple(gone), tuple(also))


def load_out(rig: Rig, load_id: str) -> Removal:
    """A load taken out, with the run that led to it and the devices in that run."""
    hung = cut_off(rig, load_id)
    return Removal((*hung.changes, Change("loads", load_id, gone=True)), hung.also)


def day_type_out(rig: Rig, day_id: str) -> Removal:
    """A type of day taken out, with the hours that loads state for it."""
    changes, also = [], []
    for load in rig.loads:
        rest = [use.model_dump(mode="json", exclude_unset=True) for use in load.day_use if use.day_type != day_id]
        if len(rest) < len(load.day_use):
            changes.append(change("loads", load.id, day_use=rest or None))
            also.append(f"its hours of {load.name}")
    return Removal((*changes, Change("day_types", day_id, gone=True)), tuple(also))
