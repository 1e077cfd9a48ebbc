"""An editable table whose rows have ids; Python holds the rows and changes them in place."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any, Literal, TypedDict

import traitlets

from rigcalc.errors import InputError, need
from rigcalc.widgets.kit.base import Piece

RowId = str


class ColumnSpec(TypedDict, total=False):
    """One column: `key`, `label` and `kind` are needed. The first column names the row.

    A ``read`` column holds numbers, at the right of it, unless it says ``words``. One that ``folds`` is left out of
    the cards a phone shows for rows that are not picked.
    """

    key: str
    label: str
    kind: Literal["text", "quantity", "choice", "check", "read"]
    unit: str
    help: str
    choices: Sequence[Sequence[str]]
    placeholder: str
    words: bool
    folds: bool


class RowSpec(TypedDict, total=False):
    """One row: `id` and `cells` by column key; `errors`, quiet `other` text and own `choices` by column key too.

    ``picked`` tints the row whose details the page shows.
    """

    id: RowId
    cells: dict[str, Any]
    errors: dict[str, str]
    other: dict[str, str]
    choices: dict[str, Sequence[Sequence[str]]]
    picked: bool


_KINDS = ("text", "quantity", "choice", "check", "read")
_ACTIONS = ("up", "down", "copy", "remove")
_ALL_ACTIONS = ("pick", *_ACTIONS)
_ROW_PARTS = ("cells", "errors", "other", "choices")


class Table(Piece):
    """A table of boxes; each ``on_...`` hears one kind of wish, and the page then calls `set_rows` or `update`.

    Parameters
    ----------
    columns : sequence of ColumnSpec
        The columns, the row's name first.
    rows : sequence of RowSpec
        The rows, in order.
    caption, add_label : str
        Title of the table, and text of the button that adds a row; an empty `add_label` leaves it out.
    actions : sequence of str
        Which buttons each row has, of ``pick``, ``up``, ``down``, ``copy``, ``remove``.
    dense : bool
        On a phone, where a row becomes a card, two numbers share a line.
    fold : bool
        For many rows: on a phone only the picked one shows its boxes, elsewhere the rows scroll under their heads.
    across : bool
        Enter goes on to the next box of the row, not to the row below.

    Examples
    --------
    >>> table = Table([{"key": "name", "label": "Load", "kind": "text"}], [{"id": "a", "cells": {"name": "Lamp"}}])
    >>> table._handle({"type": "edit", "id": "a", "key": "name", "text": "Rear lamp"})
    >>> table.row("a")["cells"]
    {'name': 'Rear lamp'}
    """

    kind = traitlets.Unicode("table").tag(sync=True)
    columns: traitlets.List[Any] = traitlets.List().tag(sync=True)
    rows: traitlets.List[Any] = traitlets.List().tag(sync=True)
    order: traitlets.List[Any] = traitlets.List().tag(sync=True)
    caption = traitlets.Unicode("").tag(sync=True)
    add_label = traitlets.Unicode("").tag(sync=True)
    actions: traitlets.List[Any] = traitlets.List().tag(sync=True)
    dense = traitlets.Bool(False).tag(sync=True)
    fold = traitlets.Bool(False).tag(sync=True)
    across = traitlets.Bool(False).tag(sync=True)

    def __init__(
        self,
        columns: Sequence[ColumnSpec],
        rows: Sequence[RowSpec] = (),
        caption: str = "",
        add_label: str = "Add a row",
        actions: Sequence[str] = _ACTIONS,
        dense: bool = False,
        fold: bool = False,
        across: bool = False,
    ) -> None:
        for column in columns:
            need(column["kind"] in _KINDS, "Kind of a column", column["kind"], "one of " + ", ".join(_KINDS))
        need(set(actions) <= set(_ALL_ACTIONS), "Buttons of a row", list(actions), "some of " + ", ".join(_ALL_ACTIONS))
        self._by_id = _checked(rows)
        self._unsent: set[RowId] = set()  # rows with a text from the browser that was not sent back yet
        super().__init__(
            columns=[dict(column) for column in columns],
            rows=list(self._by_id.values()),
            order=list(self._by_id),
            caption=caption,
            add_label=add_label,
            actions=list(actions),
            dense=dense,
            fold=fold,
            across=across,
        )

    def on_edit(self, callback: Callable[[RowId, str, Any], object]) -> Callable[[RowId, str, Any], object]:
        """Call ``callback(id, key, text)`` for each edited cell; text is a bool in a ``check`` column."""
        return self._keep("edit", callback)

    def on_paste(
        self, callback: Callable[[RowId, str, list[list[str]]], object]
    ) -> Callable[[RowId, str, list[list[str]]], object]:
        """Call ``callback(id, key, block)`` for a pasted block; `spread` says which cells it covers."""
        return self._keep("paste", callback)

    def on_add(self, callback: Callable[[], object]) -> Callable[[], object]:
        """Call ``callback()`` when a row is wanted."""
        return self._keep("add", callback)

    def on_remove(self, callback: Callable[[RowId], object]) -> Callable[[RowId], object]:
        """Call ``callback(id)`` when a row is to go."""
        return self._keep("remove", callback)

    def on_pick(self, callback: Callable[[RowId], object]) -> Callable[[RowId], object]:
        """Call ``callback(id)`` when the details of a row are wanted."""
        return self._keep("pick", callback)

    def on_copy(self, callback: Callable[[RowId], object]) -> Callable[[RowId], object]:
        """Call ``callback(id)`` when a row is wanted twice."""
        return self._keep("copy", callback)

    def on_move(self, callback: Callable[[RowId, int], object]) -> Callable[[RowId, int], object]:
        """Call ``callback(id, step)`` when a row is to go up (-1) or down (1)."""
        return self._keep("move", callback)

    def row(self, row_id: RowId) -> dict[str, Any]:
        """The row as it stands."""
        need(row_id in self._by_id, "Row", row_id, "the id of a row of the table")
        return self._by_id[row_id]

    def update(self, row_id: RowId, **parts: Mapping[str, Any]) -> None:
        """Change some ``cells``, ``errors``, ``other`` or ``choices`` of one row in place."""
        self.update_many({row_id: parts})

    def update_many(self, changes: Mapping[RowId, Mapping[str, Mapping[str, Any]]]) -> None:
        """Change parts of several rows in one message. An error of ``""`` takes the error away."""
        for row_id, parts in changes.items():
            for name, values in parts.items():
                need(name in _ROW_PARTS, "Part of a row", name, "one of " + ", ".join(_ROW_PARTS))
                self.row(row_id).setdefault(name, {}).update(values)
        self._unsent -= set(changes)
        self._push(**{f"row:{row_id}": self._by_id[row_id] for row_id in changes})

    def set_rows(self, rows: Sequence[RowSpec]) -> None:
        """Make these the rows; only rows that differ are sent."""
        before, self._by_id = self._by_id, _checked(rows)
        unsent, self._unsent = self._unsent, set()
        changed = {f"row:{i}": row for i, row in self._by_id.items() if before.get(i) != row or i in unsent}
        self.rows[:] = self._by_id.values()
        self.order[:] = self._by_id
        if changed or list(before) != list(self._by_id):
            self._push(order=list(self._by_id), **changed)

    def spread(
        self, row_id: RowId, key: str, block: Sequence[Sequence[str]]
    ) -> Iterator[tuple[RowId | None, dict[str, str]]]:
        """Which cells a block pasted at ``(row_id, key)`` covers: ``(id, {key: text})`` a line, id None past the end.

        Columns that are read only, or past the last one, are left out.
        """
        keys = [column["key"] for column in self.columns]
        kinds = {column["key"]: column["kind"] for column in self.columns}
        ids = list(self._by_id)
        row_at, column_at = ids.index(row_id), keys.index(key)
        for i, line in enumerate(block):
            target = ids[row_at + i] if row_at + i < len(ids) else None
            cells = dict(zip(keys[column_at:], line, strict=False))
            yield target, {name: text for name, text in cells.items() if kinds[name] != "read"}

    def _handle(self, content: Mapping[str, Any], buffers: Sequence[bytes] = ()) -> None:
        kind, row_id = content["type"], str(content.get("id", ""))
        if kind == "edit":
            self._edited(row_id, str(content["key"]), content["text"])
        elif kind == "paste":
            self._tell("paste", row_id, str(content["key"]), content["block"])
        elif kind == "move":
            self._tell("move", row_id, int(content["step"]))
        elif kind == "add":
            self._tell("add")
        else:
            self._tell(kind, row_id)

    def _edited(self, row_id: RowId, key: str, text: Any) -> None:
        self.row(row_id)["cells"][key] = text
        self._unsent.add(row_id)
        try:
            self._tell("edit", row_id, key, text)
        except InputError as error:
            self.update(row_id, errors={key: str(error)})
        if row_id in self._unsent:
            self.update(row_id, cells={key: self.row(row_id)["cells"][key]})


def _checked(rows: Sequence[RowSpec]) -> dict[RowId, dict[str, Any]]:
    by_id: dict[RowId, dict[str, Any]] = {}
    for row in rows:
        need(row["id"] not in by_id, "Id of a row", row["id"], "an id of its own")
        by_id[row["id"]] = {**row, "cells": dict(row["cells"])}
    return by_id
