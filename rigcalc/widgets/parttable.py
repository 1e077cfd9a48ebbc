"""A table whose rows are parts of the session's rig: boxes to edit them, and cells of results beside."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from rigcalc.errors import InputError
from rigcalc.widgets.forms import Box, change_of, in_words, other_of, part_of, text_of
from rigcalc.widgets.kit import ColumnSpec, RowSpec, Table
from rigcalc.widgets.session import Session

Column = Box | ColumnSpec


class PartTable:
    """Rows over parts of one kind. An edit changes the rig; one that cannot be used stays in its cell.

    Parameters
    ----------
    session : Session
        Whose rig it edits.
    kind : str
        A list of the rig: "runs", "devices", ...
    columns : sequence of Box or ColumnSpec
        A box for each field to be edited, a read-only column for each result.
    results : function
        Part to its result cells, by column key.
    choices, notes : function or None
        Part to choices of its own, and to quiet words under a cell, by column key.
    fold : bool
        For many parts: on a phone only the picked one shows its boxes.
    """

    def __init__(
        self,
        session: Session,
        kind: str,
        columns: Sequence[Column],
        results: Callable[[Any], Mapping[str, str]],
        *,
        caption: str,
        add_label: str = "",
        actions: Sequence[str] = (),
        choices: Callable[[Any], Mapping[str, Sequence[tuple[str, str]]]] | None = None,
        notes: Callable[[Any], Mapping[str, str]] | None = None,
        fold: bool = False,
    ) -> None:
        self.session, self.kind, self.results, self.choices, self.notes = session, kind, results, choices, notes
        self.boxes = {column.field: column for column in columns if isinstance(column, Box)}
        self.picked = ""
        # (part id, key) -> text that could not be used, what is wrong, what the rig stated then
        self._waiting: dict[tuple[str, str], tuple[str | bool, str, object]] = {}
        self._made: dict[str, tuple[Any, str, dict[str, Any], dict[str, str]]] = {}
        self.table = Table([_column(one) for one in columns], (), caption, add_label, actions, dense=True, fold=fold)
        self.table.on_edit(self.edit)
        self.table.on_paste(self._pasted)

    def edit(self, part_id: str, key: str, text: str | bool) -> None:
        """One edited cell: a change of the rig, or `InputError` with the text kept where it was typed."""
        box, before = self.boxes[key], self.session.rig
        held = self._waiting.pop((part_id, key), None)
        try:
            self.session.apply(change_of(self.kind, part_id, box, text, self.session.rig.units))
        except InputError as error:
            said = in_words(error, box, text)
            stated = getattr(part_of(self.session.rig, self.kind, part_id), key)
            self._waiting[part_id, key] = (text, str(said), stated)
            raise said from None
        if held is not None or self.session.rig is before:
            self.refresh()

    def _pasted(self, part_id: str, key: str, block: list[list[str]]) -> None:
        """Each pasted cell that can be used is; the others stay where they were put, with what is wrong."""
        for row_id, cells in list(self.table.spread(part_id, key, block)):
            for name, text in cells.items():
                if row_id is not None and name in self.boxes:
                    try:
                        self.edit(row_id, name, text)
                    except InputError:
                        self.refresh()

    def refresh(self) -> None:
        """Show the parts as they are now; only rows that differ are sent."""
        parts = {part.id: part for part in getattr(self.session.rig, self.kind)}
        self._waiting = {
            at: held for at, held in self._waiting.items() if self._still(parts.get(at[0]), at[1], held[2])
        }
        self.table.set_rows([self._row(part) for part in parts.values()])

    @staticmethod
    def _still(part: Any, key: str, stated: object) -> bool:
        """A text waits until the rig states something else there."""
        return part is not None and getattr(part, key) == stated

    def name(self, part_id: str) -> str:
        """Name of a part."""
        return str(part_of(self.session.rig, self.kind, part_id).name)

    def _row(self, part: Any) -> RowSpec:
        cells, other = map(dict, self._texts(part))
        held = {key: wait for (part_id, key), wait in self._waiting.items() if part_id == part.id}
        cells |= {key: text for key, (text, *_) in held.items()} | dict(self.results(part))
        row = RowSpec(id=part.id, cells=cells, picked=part.id == self.picked)
        row["errors"] = {key: error for key, (_, error, _) in held.items()}
        row["other"] = other
        if self.notes is not None:
            other |= self.notes(part)
        if self.choices is not None:
            row["choices"] = dict(self.choices(part))
        return row

    def _texts(self, part: Any) -> tuple[dict[str, Any], dict[str, str]]:
        """What stands in the boxes of a part and beside them; made anew only where the part or the units changed."""
        system = self.session.rig.units
        kept = self._made.get(part.id)
        if kept is None or kept[0] != part or kept[1] != system:
            cells = {box.field: text_of(part, box, system) for box in self.boxes.values()}
            other = {box.field: other_of(part, box, system) for box in self.boxes.values()}
            kept = self._made[part.id] = (part, system, cells, other)
        return kept[2], kept[3]


def _column(one: Column) -> ColumnSpec:
    if not isinstance(one, Box):
        return one
    kind: Any = one.kind if one.kind in ("text", "choice", "check") else "quantity"
    return ColumnSpec(key=one.field, label=one.label, kind=kind, help=one.help, choices=one.choices)
