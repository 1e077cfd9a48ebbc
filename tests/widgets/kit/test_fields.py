"""The form keeps what is typed and changes one field at a time."""

from __future__ import annotations

import pytest

from rigcalc.errors import InputError
from rigcalc.widgets.kit import (
    Fields,
)
from tests.widgets.kit.conftest import states


def form():
    slider = {"min": 0, "max": 20, "step": 0.5, "value": 5.5, "unit": "m"}
    out = {"key": "out", "label": "Length out", "kind": "quantity", "text": "5.5 m", "slider": slider}
    return Fields([out, {"key": "hot", "label": "Hot", "kind": "check", "text": False}])


def test_an_edit_keeps_the_text_as_typed_and_tells_the_page():
    fields, heard = form(), []
    fields.on_edit(lambda key, text: heard.append((key, text)))
    fields._handle({"type": "edit", "key": "out", "text": " 1,5 m "})
    fields._handle({"type": "edit", "key": "hot", "text": True})
    assert heard == [("out", " 1,5 m "), ("hot", True)]
    assert (fields.text("out"), fields.specs[0]["text"]) == (" 1,5 m ", " 1,5 m ")


def test_an_update_sends_only_its_field_and_merges_the_slider(sent):
    fields = form()
    fields.update("out", other="18.0 ft", error=None, slider={"value": 31})
    [state] = states(sent)
    assert list(state) == ["field:out"]
    assert state["field:out"]["slider"] == {"min": 0, "max": 20, "step": 0.5, "value": 31, "unit": "m"}
    assert state["field:out"]["text"] == "5.5 m"


def test_several_fields_go_in_one_message(sent):
    form().update_many({"out": {"text": "6 m"}, "hot": {"text": True}})
    assert [sorted(state) for state in states(sent)] == [["field:hot", "field:out"]]


def test_an_input_error_of_a_callback_stands_under_its_field_and_the_text_stays():
    fields = form()

    def edited(key, text):
        raise InputError("Length out", text, "0 m or more")

    fields.on_edit(edited)
    fields._handle({"type": "edit", "key": "out", "text": "-5 m"})
    assert fields.spec("out")["error"] == "Length out is '-5 m'; expected 0 m or more."
    assert fields.text("out") == "-5 m"


def test_other_fields_take_the_place_of_the_present_ones(sent):
    fields = form()
    fields.replace([{"key": "note", "label": "Note", "kind": "text", "text": "x"}])
    assert [spec["key"] for spec in fields.specs] == ["note"]
    assert "field:note" in states(sent)[-1]
    with pytest.raises(InputError, match="Field is 'out'; expected one of note"):
        fields.text("out")


@pytest.mark.parametrize(
    ("spec", "what"),
    [
        ({"key": "a", "label": "A", "kind": "number"}, "Kind of a field"),
        ({"key": "a", "label": "A", "kind": "text", "value": 1}, "Parts of a field"),
    ],
)
def test_a_field_that_cannot_be_shown_is_refused(spec, what):
    with pytest.raises(InputError, match=what):
        Fields([spec])


def test_two_fields_of_one_key_and_unknown_parts_are_refused():
    text = {"key": "a", "label": "A", "kind": "text"}
    with pytest.raises(InputError, match="Key of a field"):
        Fields([text, text])
    with pytest.raises(InputError, match="Part of a field is 'colour'"):
        Fields([text]).update("a", colour="red")


def test_the_text_of_an_edit_is_sent_back_once_even_where_the_page_changes_nothing(sent):
    fields = form()
    fields._handle({"type": "edit", "key": "out", "text": "6 m"})
    assert [state["field:out"]["text"] for state in states(sent) if "field:out" in state] == ["6 m"]
    fields.on_edit(lambda key, text: fields.update(key, text=f"{text}!"))
    fields._handle({"type": "edit", "key": "out", "text": "7 m"})
    assert [state["field:out"]["text"] for state in states(sent)[1:] if "field:out" in state] == ["7 m!"]
