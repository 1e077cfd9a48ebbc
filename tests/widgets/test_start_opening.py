"""Opening an example, a file or a rig of one's own on the first page. Invented figures."""

from __future__ import annotations

import pytest

from rigcalc.model import write_rig
from rigcalc.model.edit import change
from rigcalc.model.new import NOTE, new_rig
from rigcalc.widgets.session import example_names, open_rig
from rigcalc.widgets.start_results import example_data
from tests.rigs import small
from tests.widgets.hands import press
from tests.widgets.start_pages import fact, page, question


def test_each_example_is_offered_with_its_note(start):
    assert len(example_names()) == 5
    for name, data in example_data().items():
        assert f'data-arg="{name}"' in start.examples.html
        assert data["note"].split(".")[0] in start.examples.html.replace("&#x27;", "'")


def test_a_rig_of_ones_own_is_not_lost_in_silence(start):
    own = start.session.rig
    press(start.examples, "open", "starter")
    assert start.session.rig == open_rig("starter").rig
    assert (
        "Test rig was a rig of your own: Undo brings it back, but only while this page stays open." in start.notice.html
    )
    press(start.notice, "undo")
    assert start.session.rig == own
    assert start.notice.html == ""


def test_from_one_example_to_another_undo_is_enough():
    at = page(open_rig("starter").rig)
    press(at.examples, "open", "ringing-trailer")
    name = at.session.rig.name
    assert f"{name} is open. Undo brings Four loads to start with back." in at.notice.html
    assert 'aria-label="Open afresh: Bird-ringing trailer"' in at.examples.html


def test_a_file_that_is_opened_becomes_the_rig(start):
    start.files._handle({"type": "open", "name": "van.json", "text": write_rig(small(name="Van"))})
    assert (start.session.rig.name, start.form.fields.text("name")) == ("Van", "Van")


def test_a_new_rig_is_a_north_american_vehicle_unless_said_otherwise(start):
    assert (start.new.fields.text("kind"), start.new.fields.text("region")) == ("vehicle", "north_america")
    assert "Vehicle, North America" in start.new.button.html
    press(start.new.button, "start")
    assert start.session.rig == new_rig("New vehicle")
    assert "New vehicle is open. Test rig was a rig of your own" in start.notice.html


def test_kind_and_country_come_first_and_choose_the_rules(start):
    assert [spec["key"] for spec in start.new.fields.specs][:2] == ["kind", "region"]
    assert [spec["key"] for spec in start.form.fields.specs][:2] == ["kind", "region"]
    for key, text in (("kind", "cabin"), ("region", "iec"), ("system_v", "48"), ("chemistry", "agm"), ("name", "Hut")):
        question(start, key, text)
    question(start, "capacity_ah", "0,2 kAh")
    assert start.new.fields.spec("capacity_ah")["error"] == ""
    press(start.new.button, "start")
    rig = start.session.rig
    assert (rig.name, rig.rule_set, rig.system_v, rig.units) == ("Hut", "iec_cabin", 48, "metric")
    assert (rig.bank.chemistry, rig.bank.series, rig.bank.capacity_ah) == ("agm", 4, pytest.approx(200))


def test_the_name_follows_the_kind_until_it_is_typed(start):
    question(start, "kind", "boat")
    assert start.new.fields.text("name") == "New boat"
    question(start, "name", "Heron")
    question(start, "kind", "cabin")
    assert start.new.fields.text("name") == "Heron"


def test_the_strictest_of_all_is_a_choice_with_a_name(start):
    question(start, "kind", "any")
    assert start.new.fields.spec("region")["choices"] == (("any", "any"),)
    assert "Rules: Strictest of all." in start.new.button.html
    question(start, "kind", "boat")
    assert (start.new.fields.text("region"), start.new.rules.id) == ("north_america", "us_boat")
    question(start, "kind", "any")
    press(start.new.button, "start")
    assert start.session.rig.rule_set == "strictest_of_all"


def test_rules_without_read_sizes_say_so_before_a_rig_is_started(start):
    question(start, "kind", "boat")
    question(start, "region", "iec")
    assert "▲ Its sizes are not available from a read source" in start.new.button.html


@pytest.mark.parametrize(
    ("key", "text", "trouble"),
    [
        ("capacity_ah", "plenty", "Capacity of the bank is"),
        ("capacity_ah", "0 Ah", "Capacity of the bank is &#x27;0 Ah&#x27;; expected 0.01 Ah or more."),
        ("capacity_ah", "", "Capacity of the bank is empty; expected a charge such as 100 Ah."),
        ("name", " ", "Name is"),
    ],
)
def test_what_stands_in_the_way_of_a_new_rig_is_said(start, key, text, trouble):
    before = start.session.rig
    question(start, key, text)
    press(start.new.button, "start")
    assert trouble in start.new.button.html
    assert start.session.rig is before


def test_starting_figures_are_shown_until_they_are_replaced():
    at = page(new_rig(chemistry_id="flooded"))
    assert "Starting figures of the bank" in at.figures.html
    for words in ("Depth of discharge", "50 %", "10.5 V", "15.0 V", "standing in for flooded", "▲ memory"):
        assert words in at.figures.html
    at.session.apply(change("bank", depth_of_discharge=0.4))
    assert "Depth of discharge" not in at.figures.html
    fact(at, "note", "All figures are mine.")
    assert at.figures.html == ""
    assert page().figures.html == ""


def test_nothing_to_show_where_all_figures_were_replaced():
    mine = {"temperature_c": 5.0, "depth_of_discharge": 0.7, "end_of_life_fraction": 0.7}
    at = page(new_rig())
    at.session.apply(change("bank", lowest_working_v=11.0, highest_charge_v=14.2, **mine))
    assert (NOTE in at.session.rig.note, at.figures.html) == (True, "")
