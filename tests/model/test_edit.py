"""Changing a rig: a new rig with the same checks, the old one as it was."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.errors import InputError
from rigcalc.model import Acceptance, read_rig, rig_from_data, write_rig
from rigcalc.model.edit import Change, change, changed
from rigcalc.model.rig import PART_KINDS
from tests.model.building import NAMES, THOROUGH, json_values
from tests.rigs import example_data, small, small_data


def refusal(*changes: Change) -> str:
    with pytest.raises(InputError) as caught:
        changed(small(), *changes)
    return str(caught.value)


def test_a_field_is_set_and_the_old_rig_stays():
    rig = small()
    new = changed(rig, change("loads", "lamp", power_w=20.0, name="Small lamp"))
    assert (new.loads[0].power_w, new.loads[0].name) == (20.0, "Small lamp")
    assert rig == small()


def test_the_bank_and_the_rig_have_no_id():
    new = changed(small(), change("bank", parallel=3), change("rig", name="Other", rule_set="us_boat"))
    assert (new.bank.parallel, new.name, new.rule_set) == (3, "Other", "us_boat")


def test_none_unstates_a_field():
    new = changed(small(), change("runs", "W2", conductor=None), change("bank", unit_short_circuit_a=None))
    assert new.runs[1].conductor is None
    assert "conductor" not in new.runs[1].model_fields_set
    assert new.bank.unit_short_circuit_a is None


def test_a_needed_field_cannot_be_unstated():
    assert refusal(change("runs", "W2", length_out_m=None)).startswith("length_out_m of run W2 is empty")


def test_text_as_typed_goes_with_its_value():
    data = small_data()
    data["runs"][1] |= {"length_out_m": 1.8288, "length_back_m": 1.2, "typed": {"length_out_m": "6 ft"}}
    data["runs"][1]["typed"]["length_back_m"] = "120 cm"
    rig = rig_from_data(data)
    assert changed(rig, change("runs", "W2", length_out_m=2.0)).runs[1].typed == {"length_back_m": "120 cm"}
    both = changed(rig, change("runs", "W2", typed={"length_out_m": "7 ft"}, length_out_m=2.1336))
    assert both.runs[1].typed == {"length_back_m": "120 cm", "length_out_m": "7 ft"}
    assert changed(rig, change("runs", "W2", name="Lamp")).runs[1].typed == rig.runs[1].typed


def test_a_new_text_without_its_value_is_refused():
    assert refusal(change("runs", "W2", typed={"length_out_m": "6 ft"})).startswith(
        "length_out_m typed as '6 ft' is 3;"
    )


def test_a_part_is_added_and_wired():
    new = changed(
        small(),
        Change("loads", "fan", (("name", "Fan"), ("power_w", 20.0)), new=True),
        Change(
            "runs",
            "W3",
            (("name", "Fan"), ("from_id", "X2"), ("to_id", "fan"), ("length_out_m", 2.0), ("length_back_m", 2.0)),
            new=True,
        ),
        Change("devices", "F3", (("run_id", "W3"),), new=True),
        Change("buses", "X9", (("name", "Bus"),), new=True),
    )
    assert [load.id for load in new.loads] == ["lamp", "fan"]
    assert new.devices[-1].run_id == "W3"
    assert [bus.id for bus in new.buses] == ["X9"]


def test_an_id_is_added_once():
    assert refusal(Change("loads", "lamp", (("name", "Second"),), new=True)) == (
        "Id in loads is 'lamp'; expected an id used once; loads has it too."
    )


@pytest.mark.parametrize(
    ("kind", "part", "message"),
    [
        ("loads", "lamp", "to_id of run W2 is 'lamp'; expected an id from buses, "),
        ("blocks", "X2", "to_id of run W1 is 'X2'; expected an id from buses, "),
        ("runs", "W2", "run_id of device F2 is 'W2'; expected an id from runs."),
    ],
)
def test_what_others_refer_to_is_not_taken_out_alone(kind, part, message):
    assert refusal(Change(kind, part, gone=True)).startswith(message)


def test_a_circuit_is_taken_out_whole():
    gone = [Change("devices", "F2", gone=True), Change("runs", "W2", gone=True), Change("loads", "lamp", gone=True)]
    new = changed(small(), *gone)
    assert (len(new.loads), len(new.runs), len(new.devices)) == (0, 1, 1)


def test_changes_are_checked_once_all_are_in():
    new = changed(small(), change("loads", "lamp", id="lamps"), change("runs", "W2", to_id="lamps"))
    assert new.runs[1].to_id == "lamps"


@pytest.mark.parametrize("kind", PART_KINDS)
def test_a_part_that_is_not_there_is_named(kind):
    assert refusal(change(kind, "nothing", name="x")) == (
        f"Id in {kind} is 'nothing'; expected the id of a part of this rig."
    )


@pytest.mark.parametrize("kind", ["name", "typed", "accepted", "load", "", "runs.W1", "version"])
def test_a_kind_that_is_none_is_named(kind):
    assert refusal(change(kind, "x", name="x")).endswith(
        "expected rig, bank, day_types, inverters, converters, loads, buses, blocks, runs, devices."
    )


def test_an_unknown_field_is_refused_with_the_nearest():
    assert refusal(change("loads", "lamp", powr_w=3.0)) == (
        "Key in load lamp is 'powr_w'; expected 'power_w', the nearest known key."
    )


def test_whole_lists_are_set_as_objects_or_as_plain_data():
    one = Acceptance(rule="W03", subject="W2", reason="Short runs only", name="The owner", date="2025-06-30")
    as_object = changed(small(), change("rig", accepted=(one,)))
    as_data = changed(small(), change("rig", accepted=[one.model_dump()]))
    assert as_object.accepted == as_data.accepted == (one,)


def test_format_and_version_stay():
    assert refusal(change("rig", version=2)) == "version is 2; expected 1."
    assert refusal(change("rig", format=None)) == "format is empty; expected 'rigcalc-rig'."


@pytest.mark.parametrize("name", NAMES)
def test_no_change_is_the_same_rig(name):
    rig = rig_from_data(example_data(name))
    assert changed(rig) == rig
    assert write_rig(changed(rig)) == write_rig(rig)


@given(
    st.sampled_from(["rig", "bank", *PART_KINDS, "other"]),
    st.sampled_from(["lamp", "W1", "W2", "F1", "X2", "", "new"]),
    st.dictionaries(
        st.sampled_from(["id", "name", "typed", "power_w", "to_id", "from_id", "parallel", "loads", "x"]),
        json_values,
        max_size=3,
    ),
    st.booleans(),
    st.booleans(),
)
@THOROUGH
def test_any_change_ends_as_a_valid_rig_or_an_input_error(kind, part, fields, new, gone):
    try:
        rig = changed(small(), Change(kind, part, tuple(fields.items()), new=new, gone=gone))
    except InputError:
        return
    assert read_rig(write_rig(rig)) == rig


ACCEPTED = {"rule": "W03", "subject": "W2", "reason": "Meant", "name": "Reviewer", "date": "2026-01-31"}


def test_what_was_accepted_about_a_part_goes_with_it():
    kept = ACCEPTED | {"subject": "rig"}
    rig = small(accepted=[ACCEPTED, kept])
    less = changed(rig, Change("devices", "F2", gone=True), Change("runs", "W2", gone=True))
    assert [one.subject for one in less.accepted] == ["rig"]
    one = changed(small(accepted=[ACCEPTED]), Change("devices", "F2", gone=True), Change("runs", "W2", gone=True))
    assert one.accepted == ()
    assert len(changed(rig, Change("devices", "F2", gone=True)).accepted) == 2


@pytest.mark.parametrize("subject", ["bank", "rig", "W2", "lamp", "X2"])
def test_an_acceptance_is_of_a_part_the_bank_or_the_rig(subject):
    assert small(accepted=[ACCEPTED | {"subject": subject}]).accepted[0].subject == subject


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        ({"subject": "W9"}, "Subject of the acceptance of W03 is 'W9'; expected one of rig, bank, lamp, X2, W1, W2"),
        ({"rule": "W99"}, "Design rule is 'W99'; expected one of"),
        ({"rule": "drop"}, "Design rule is 'drop'; expected one of"),
    ],
)
def test_an_acceptance_that_matches_nothing_is_refused(wrong, says):
    with pytest.raises(InputError) as caught:
        small(accepted=[ACCEPTED | wrong])
    assert says in str(caught.value)
