"""The table changes in place, row by row, and takes blocks."""

from __future__ import annotations

import pytest

from rigcalc.errors import InputError
from rigcalc.widgets.kit import (
    Table,
)
from tests.widgets.kit.conftest import states

COLUMNS = [
    {"key": "name", "label": "Load", "kind": "text"},
    {"key": "wh", "label": "Energy", "kind": "read"},
    {"key": "power", "label": "Power", "kind": "quantity"},
]


def loads(*ids):
    return [{"id": i, "cells": {"name": f"load {i}", "power": "1 W", "wh": ""}} for i in ids]


@pytest.fixture
def table():
    return Table(COLUMNS, loads("a", "b"))


def test_each_wish_reaches_its_callback(table):
    heard = []
    for name in ("edit", "paste", "add", "remove", "copy", "move"):
        getattr(table, f"on_{name}")(lambda *given, name=name: heard.append((name, *given)))
    table._handle({"type": "edit", "id": "a", "key": "power", "text": "2 W"})
    table._handle({"type": "paste", "id": "b", "key": "name", "block": [["x"]]})
    table._handle({"type": "add"})
    table._handle({"type": "remove", "id": "a"})
    table._handle({"type": "copy", "id": "b"})
    table._handle({"type": "move", "id": "b", "step": -1})
    assert heard == [
        ("edit", "a", "power", "2 W"),
        ("paste", "b", "name", [["x"]]),
        ("add",),
        ("remove", "a"),
        ("copy", "b"),
        ("move", "b", -1),
    ]
    assert table.row("a")["cells"]["power"] == "2 W"


def test_new_rows_send_only_what_differs(table, sent):
    changed = [*loads("b"), *loads("c"), *loads("a")]
    changed[0]["cells"]["name"] = "other"
    table.set_rows(changed)
    [state] = states(sent)
    assert sorted(state) == ["order", "row:b", "row:c"]
    assert state["order"] == table.order == ["b", "c", "a"]
    table.set_rows(changed)
    assert len(states(sent)) == 1


def test_a_page_that_opens_late_gets_the_rows_as_they_are_now(table):
    table.update("a", cells={"wh": "9 Wh"}, errors={"power": "no"})
    state = table.get_state(["rows", "order"])
    assert state["rows"][0]["cells"]["wh"] == "9 Wh"
    assert state["rows"][0]["errors"] == {"power": "no"}


def test_an_input_error_of_a_callback_stands_in_its_cell(table):
    def edited(row_id, key, text):
        raise InputError("Power", text, "a power such as 60 W")

    table.on_edit(edited)
    table._handle({"type": "edit", "id": "a", "key": "power", "text": "lots"})
    assert table.row("a")["errors"]["power"] == "Power is 'lots'; expected a power such as 60 W."


def test_a_pasted_block_covers_cells_to_the_right_and_down_and_rows_past_the_end(table):
    block = [["x", "ignored", "5 W", "beyond"], ["y"]]
    assert list(table.spread("b", "name", block)) == [("b", {"name": "x", "power": "5 W"}), (None, {"name": "y"})]
    assert list(table.spread("a", "power", [["7 W", "beyond"]])) == [("a", {"power": "7 W"})]


def test_rows_and_columns_that_cannot_be_shown_are_refused(table):
    with pytest.raises(InputError, match="Id of a row"):
        table.set_rows(loads("a", "a"))
    with pytest.raises(InputError, match="Kind of a column"):
        Table([{"key": "a", "label": "A", "kind": "slider"}])
    with pytest.raises(InputError, match="Part of a row"):
        table.update("a", colours={})
    with pytest.raises(InputError, match="Row is 'z'"):
        table.row("z")


def test_the_text_of_an_edit_is_sent_back_even_where_nothing_else_changes(table, sent):
    table.on_edit(lambda *_: table.set_rows([{**table.row(i), "cells": dict(table.row(i)["cells"])} for i in "ab"]))
    table._handle({"type": "edit", "id": "a", "key": "name", "text": "Lamp"})
    assert [state["row:a"]["cells"]["name"] for state in states(sent) if "row:a" in state] == ["Lamp"]
    table._callbacks.clear()
    table._handle({"type": "edit", "id": "b", "key": "name", "text": "Fan"})
    assert [state["row:b"]["cells"]["name"] for state in states(sent) if "row:b" in state] == ["Fan"]
