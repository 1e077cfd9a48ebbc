"""Boxes of forms: what stands in them, and what an edit of them changes. Invented figures, exact conversions."""

from __future__ import annotations

import pytest

from rigcalc.errors import InputError
from rigcalc.model.edit import Change, change, changed
from rigcalc.units import SUFFIXES
from rigcalc.widgets.forms import (
    Box,
    change_of,
    counted,
    in_words,
    other_of,
    part_of,
    percent,
    spec_of,
    text_of,
    value_of,
)
from rigcalc.widgets.partform import PartForm
from rigcalc.widgets.session import Session
from tests.rigs import small
from tests.widgets.hands import type_in

OUT = Box("length_out_m", "Length out", slider=(0, 20, 0.1))
AIR = Box("ambient_c", "Air along the run")
DEPTH = Box("depth_of_discharge", "Depth of discharge", "percent", slider=(10, 100, 5))
DAYS = Box("wanted_autonomy_days", "Days wanted", "number", unit="days")
POWER = Box("power_w", "Power")


def _run(**fields: object):
    return part_of(changed(small(), change("runs", "W1", **fields)), "runs", "W1")


@pytest.mark.parametrize(
    ("typed", "system", "text", "other"),
    [
        (None, "metric", "1.8288 m", "6.00 ft"),
        (None, "us", "6 ft", "1.83 m"),
        ("6 ft", "metric", "6 ft", "1.83 m"),
        ("182,88 cm", "us", "182,88 cm", "6.00 ft"),
    ],
)
def test_length_is_shown_as_typed_with_the_other_system_beside_it(typed, system, text, other):
    beside = {"typed": {"length_out_m": typed}} if typed else {}
    run = _run(length_out_m=1.8288, **beside)
    assert (text_of(run, OUT, system), other_of(run, OUT, system)) == (text, other)


def test_temperature_shows_both_scales():
    run = _run(ambient_c=20.0)
    assert (text_of(run, AIR, "us"), other_of(run, AIR, "us")) == ("68 °F", "20.0 °C")
    assert (text_of(run, AIR, "metric"), other_of(run, AIR, "metric")) == ("20 °C", "68.0 °F")


@pytest.mark.parametrize(("typed", "other"), [("0.05 kW", "50.0 W"), ("50,0 W", ""), (None, "")])
def test_a_unit_of_both_systems_is_said_once(typed, other):
    beside = {"typed": {"power_w": typed}} if typed else {}
    load = part_of(changed(small(), change("loads", "lamp", power_w=50.0, **beside)), "loads", "lamp")
    assert other_of(load, POWER, "metric") == other


def test_not_stated_is_an_empty_box():
    spec = spec_of(_run(ambient_c=None), AIR, "metric")
    assert (spec["text"], spec["other"], spec["placeholder"]) == ("", "", "not stated")


@pytest.mark.parametrize(
    ("box", "text", "system", "value", "kept"),
    [
        (OUT, "6 ft", "metric", pytest.approx(1.8288), "6 ft"),
        (OUT, "6", "us", pytest.approx(1.8288), "6 ft"),
        (OUT, "6", "metric", 6.0, None),
        (OUT, "1,5", "metric", 1.5, "1,5 m"),
        (AIR, "68 F", "metric", pytest.approx(20.0), "68 F"),
        (AIR, "68", "us", pytest.approx(20.0), "68 °F"),
        (POWER, "45 W", "us", 45.0, None),
        (DEPTH, "80 %", "metric", pytest.approx(0.8), None),
        (DAYS, "1,5 days", "metric", 1.5, None),
        (Box("quantity", "Quantity", "count"), "3", "metric", 3, None),
        (Box("system_v", "Voltage", "choice", read=int), "24", "metric", 24, None),
        (Box("name", "Name", "text"), "  Rear   lamp ", "metric", "Rear lamp", None),
        (Box("note", "Note", "note"), " two\nlines ", "metric", "two\nlines", None),
        (Box("engine_space", "Engine space", "check"), True, "metric", True, None),
        (OUT, "  ", "metric", None, None),
    ],
)
def test_value_of_a_typed_text(box, text, system, value, kept):
    assert value_of(box, text, system) == (value, kept)


@pytest.mark.parametrize("suffix", sorted(set(SUFFIXES) - {"percent"}))
def test_what_a_box_shows_reads_back_as_the_same_value(suffix):
    box = Box(f"some_{suffix}", "Some")
    for system in ("metric", "us"):
        text = f"12.5 {SUFFIXES[suffix][1 if system == 'us' else 0]}"
        value, _ = value_of(box, text, system)
        assert value_of(box, "12.5", system)[0] == value


@pytest.mark.parametrize(
    ("box", "text", "allowed"),
    [
        (OUT, "6 ftt", "a length"),
        (OUT, "4 A", "a length"),
        (OUT, "9" * 41, "at most 40 characters"),
        (DEPTH, "0.8", "80 % or 0.8 %"),
        (DEPTH, "1", "100 % or 1 %"),
        (DEPTH, "120 %", "at most 100 %"),
        (DEPTH, "0 %", "more than 0 %"),
        (DAYS, "2 hours", "a number of days"),
        (Box("quantity", "Quantity", "count"), "2.5", "a whole number"),
    ],
)
def test_what_cannot_be_read_is_refused_by_its_label(box, text, allowed):
    with pytest.raises(InputError) as caught:
        value_of(box, text, "metric")
    assert caught.value.what == box.label
    assert allowed in caught.value.allowed


def test_percent_and_counted_texts():
    assert percent("12,5 %", "Share") == pytest.approx(0.125)
    assert counted("1 day", "Days", "days") == counted("1 d", "Days", "days") == 1.0


def test_empty_text_unstates_and_its_typed_text_goes():
    rig = changed(small(), change_of("runs", "W1", OUT, "6 ft", "metric"), change("runs", "W1", ambient_c=30.0))
    after = changed(rig, change_of("runs", "W1", AIR, "", "metric"), change_of("runs", "W1", OUT, "2 m", "metric"))
    assert (after.runs[0].ambient_c, after.runs[0].length_out_m, after.runs[0].typed) == (None, 2.0, {})


def test_change_keeps_the_typed_text_beside_the_value():
    assert change_of("runs", "W1", OUT, "6 ft", "metric") == Change(
        "runs", "W1", (("length_out_m", pytest.approx(1.8288)), ("typed", {"length_out_m": "6 ft"}))
    )


@pytest.mark.parametrize(
    ("box", "text", "said"),
    [
        (POWER, "-5 W", "Power is '-5 W'; expected 0 W or more."),
        (POWER, "200 kW", "Power is '200 kW'; expected 100000 W or less."),
    ],
)
def test_the_models_word_is_said_with_the_label_and_the_unit(box, text, said):
    with pytest.raises(InputError) as caught:
        changed(small(), change_of("loads", "lamp", box, text, "metric"))
    assert str(in_words(caught.value, box, text)) == said


def test_a_word_on_another_field_stays_as_it_is():
    other = InputError("Bank voltage", "12.8 V", "cells in series")
    assert in_words(other, POWER, "5") is other


def test_slider_travels_in_the_units_of_the_person():
    run = _run(length_out_m=3.048, ambient_c=20.0)
    assert spec_of(run, OUT, "metric")["slider"] == {"min": 0, "max": 20, "step": 0.1, "value": 3.048, "unit": "m"}
    us = spec_of(run, OUT, "us")["slider"]
    assert (us["max"], us["unit"], us["value"]) == (66, "ft", pytest.approx(10.0))
    warm = Box("ambient_c", "Air", slider=(10, 70, 1))
    assert spec_of(run, warm, "us")["slider"] == {"min": 50, "max": 158, "step": 1.0, "value": 68.0, "unit": "°F"}
    bank = small().bank
    assert spec_of(bank, DEPTH, "metric")["slider"]["value"] == pytest.approx(80)


def test_no_such_part():
    with pytest.raises(InputError, match="Id in runs is 'W9'"):
        part_of(small(), "runs", "W9")


# ---- a form bound to a part ------------------------------------------------------------------------------


@pytest.fixture
def session() -> Session:
    return Session(small())


def _edit(form: PartForm, key: str, text: str | bool) -> None:
    type_in(form.fields, key, text)


def test_form_changes_the_rig_and_shows_the_text_as_typed(session):
    form = PartForm(session, "runs", [OUT, AIR], "Run", "W1")
    _edit(form, "length_out_m", "6 ft")
    assert session.rig.runs[0].length_out_m == pytest.approx(1.8288)
    assert form.fields.spec("length_out_m") | {"slider": None} == dict(spec_of(session.rig.runs[0], OUT, "metric")) | {
        "slider": None
    }
    assert (form.fields.text("length_out_m"), form.fields.spec("length_out_m")["other"]) == ("6 ft", "1.83 m")


def test_form_gives_a_bare_number_its_unit_in_sight(session):
    form = PartForm(session, "runs", [OUT], "Run", "W1")
    _edit(form, "length_out_m", "4,2")
    assert form.fields.text("length_out_m") == "4,2 m"


def test_form_keeps_what_cannot_be_used_and_leaves_the_rig(session):
    form = PartForm(session, "loads", [POWER], "Load", "lamp")
    before = session.rig
    _edit(form, "power_w", "45 ohms")
    form.refresh()
    spec = form.fields.spec("power_w")
    assert session.rig is before
    assert (spec["text"], spec["error"]) == (
        "45 ohms",
        "Power is '45 ohms'; expected a power such as 45 W or 1.2 kW.",
    )
    _edit(form, "power_w", "45 W")
    assert (form.fields.spec("power_w")["error"], session.rig.loads[0].power_w) == ("", 45.0)


def test_form_says_what_the_rig_cannot_be_without(session):
    form = PartForm(session, "bank", [Box("temperature_c", "Cells")], "Bank")
    _edit(form, "temperature_c", "")
    assert (
        form.fields.spec("temperature_c")["error"] == "Cells is empty; expected a value; the rig cannot be without it."
    )
    assert session.rig.bank.temperature_c == 25.0


def test_waiting_texts_belong_to_their_part(session):
    form = PartForm(session, "runs", [OUT], "Run", "W1")
    _edit(form, "length_out_m", "far")
    form.point_at("W2")
    assert (form.fields.text("length_out_m"), form.fields.spec("length_out_m")["error"]) == ("3 m", "")
    form.point_at("W1")
    assert form.fields.text("length_out_m") == "far"
    form.forget()
    form.refresh()
    assert form.fields.text("length_out_m") == "1 m"


def test_form_follows_the_units_of_the_rig(session):
    form = PartForm(session, "runs", [OUT], "Run", "W2")
    session.apply(change("rig", units="us"))
    form.refresh()
    assert form.fields.text("length_out_m") == "9.843 ft"


def test_waiting_text_goes_when_the_rig_states_something_else(session):
    form = PartForm(session, "runs", [OUT], "Run", "W1")
    _edit(form, "length_out_m", "far")
    session.apply(change("rig", units="us"))
    form.refresh()
    assert form.fields.text("length_out_m") == "far"
    session.apply(change("rig", units="metric"), change("runs", "W1", length_out_m=2.5))
    form.refresh()
    assert (form.fields.text("length_out_m"), form.fields.spec("length_out_m")["error"]) == ("2.5 m", "")


def test_a_form_without_a_part_is_empty_until_pointed_at_one(session):
    form = PartForm(session, "runs", [OUT], "Run")
    assert form.fields.specs == []
    form.point_at("W1")
    assert form.fields.text("length_out_m") == "1 m"


def test_form_adds_what_the_page_knows(session):
    form = PartForm(session, "runs", [OUT], "Run", "W1")
    form.refresh({"length_out_m": {"help": "Along the conductor."}})
    assert form.fields.spec("length_out_m")["help"] == "Along the conductor."


def test_metres_typed_where_feet_are_shown_stay_as_typed():
    box = Box("length_out_m", "Length out")
    assert change_of("runs", "W1", box, "6 m", "us").fields == (
        ("length_out_m", 6.0),
        ("typed", {"length_out_m": "6 m"}),
    )
    assert change_of("runs", "W1", box, "6 m", "metric").fields == (("length_out_m", 6.0),)
