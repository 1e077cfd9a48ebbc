"""Page 00 without a browser: examples, a rig of one's own, its facts and rules, how far it is. Invented figures."""

from __future__ import annotations

import pytest

from rigcalc.model import write_rig
from rigcalc.model.edit import Change, change
from rigcalc.model.new import NOTE, new_rig
from rigcalc.tables.rule_sets import RULE_SETS, TOPICS, rule_set
from rigcalc.widgets import start_page
from rigcalc.widgets.session import Session, example_names, open_rig
from rigcalc.widgets.start import StartPage
from rigcalc.widgets.start_results import example_data
from tests.rigs import small


def page(rig=None) -> StartPage:
    made = StartPage(Session(rig or small()))
    made.view()
    return made


@pytest.fixture
def start() -> StartPage:
    return page()


def fact(at: StartPage, key: str, text: str) -> None:
    at.form.fields._handle({"type": "edit", "key": key, "text": text})


def question(at: StartPage, key: str, text: str) -> None:
    at.new.fields._handle({"type": "edit", "key": key, "text": text})


def press(sheet, act: str, arg: str = "") -> None:
    sheet._handle({"type": "act", "act": act, "arg": arg})


# ---- examples --------------------------------------------------------------------------------------------


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


# ---- a rig of one's own ----------------------------------------------------------------------------------


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


# ---- facts -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "text", "value"),
    [
        ("name", "Heron", "Heron"),
        ("revision", "C", "C"),
        ("revision", "", None),
        ("date", "2026-05-30", "2026-05-30"),
        ("note", "Two lines", "Two lines"),
        ("units", "us", "us"),
        ("ambient_usual_c", "68 F", pytest.approx(20.0)),
        ("ambient_hot_c", "45", 45.0),
    ],
)
def test_each_fact_is_a_field_of_the_rig(start, key, text, value):
    fact(start, key, text)
    assert start.form.fields.spec(key)["error"] == ""
    assert getattr(start.session.rig, key) == value


@pytest.mark.parametrize(
    ("key", "text", "error"),
    [
        ("name", "", "Name is empty; expected a value; the rig cannot be without it."),
        ("date", "May", "Date is 'May'; expected a date such as"),
        ("ambient_hot_c", "hot", "Air, hottest designed for is 'hot'; expected a temperature such as"),
        ("ambient_hot_c", "400 °C", "Air, hottest designed for is '400 °C'; expected 250 °C or less."),
    ],
)
def test_a_fact_that_cannot_be_used_leaves_the_rig(start, key, text, error):
    before = start.session.rig
    fact(start, key, text)
    assert start.form.fields.spec(key)["error"].startswith(error)
    assert (start.form.fields.text(key), start.session.rig) == (text, before)


@pytest.mark.parametrize("rule_set_id", RULE_SETS)
def test_kind_and_country_of_the_opened_rig_choose_its_rules(start, rule_set_id):
    rules = rule_set(rule_set_id)
    fact(start, "kind", rules.kind)
    if rules.kind != "any":
        fact(start, "region", rules.region)
    assert start.session.rig.rule_set == rule_set_id
    assert (start.form.fields.text("kind"), start.form.fields.text("region")) == (rules.kind, rules.region)
    assert start.form.fields.spec("kind")["help"] == rules.title


def test_leaving_the_strictest_of_all_asks_for_a_country(start):
    fact(start, "kind", "any")
    assert start.form.fields.spec("region")["choices"] == (("any", "any"),)
    fact(start, "kind", "boat")
    assert start.session.rig.rule_set == "us_boat"


def test_another_voltage_takes_the_bank_with_it(start):
    fact(start, "system_v", "24")
    rig = start.session.rig
    assert (rig.system_v, rig.bank.series, rig.bank.lowest_working_v) == (24, 2, 24.0)
    start.session.apply(Change("bank", "", (("cells_per_unit", 8), ("series", 1))))
    fact(start, "system_v", "12")
    assert "change the bank first" in start.form.fields.spec("system_v")["error"]


def test_the_slider_moves_the_air_and_units_follow(start):
    fact(start, "units", "us")
    spec = start.form.fields.spec("ambient_hot_c")
    assert (spec["text"], spec["other"], spec["slider"]["unit"]) == ("86 °F", "30.0 °C", "°F")
    fact(start, "ambient_hot_c", "104 °F")
    assert start.session.rig.ambient_hot_c == pytest.approx(40.0)


# ---- steps and rules -------------------------------------------------------------------------------------


def test_each_step_is_linked_and_says_its_state(start):
    html = start.steps.html
    for page_id in ("10-load-inventory", "20-daily-energy", "30-battery-autonomy", "40-conductors"):
        assert f'href="{page_id}.ipynb"' in html
    for state in (
        "1 load, none guessed",
        "200 Wh a day, ",
        "days, 1 wanted",
        "2 of 2 runs have a conductor that passes",
        "2 of 2 devices have a rating",
    ):
        assert state in html


def test_a_new_rig_says_what_is_missing():
    html = page(new_rig()).steps.html
    for state in ("no load yet", "nothing drawn yet", "1 of 1 run has", "1 of 1 device has a rating"):
        assert state in html


def test_stops_loose_ends_and_missing_figures_show_in_their_step():
    lamp = {"id": "tap", "name": "Tap"}
    rig = small(loads=[lamp], runs=small().model_dump(mode="json", exclude_unset=True)["runs"][:1], devices=[])
    html = page(rig).steps.html
    assert "1 load, 1 guessed, 1 not complete" in html
    assert "1 of what it feeds on no run yet" in html
    assert "1 run without protection" in html
    assert "■ 1 stop" in html
    assert "<strong>1 stop</strong> to cure" in page(rig).answer.html


def test_where_sizes_were_not_read_the_step_says_so(start):
    fact(start, "kind", "boat")
    fact(start, "region", "iec")
    assert "no sizes: these rules" in start.steps.html
    assert "▲ Its sizes are not available from a read source" in start.rules.html


def test_rules_show_each_clause_with_its_source_and_the_others_beside(start):
    own = rule_set("na_vehicle")
    for topic in TOPICS:
        clause = own.clause(topic)
        assert clause.text.replace("'", "&#x27;") in start.rules.html
        assert clause.locator in start.rules.html
    assert "▲ memory" in start.rules.html
    for other in RULE_SETS.values():
        assert other.title in start.rules.html
    assert "Small craft, Europe (ISO 13297): " in start.rules.html
    assert "its sizes are not available from a read source" in start.rules.html


def test_the_answer_names_the_rig_and_its_state(start):
    assert "Test rig, 12 V: 1 load, a bank that lasts " in start.answer.html
    assert "nothing drawn from its bank yet" in page(new_rig()).answer.html


def test_names_of_people_never_become_markup():
    at = page(small(name="<b>Van</b>"))
    press(at.examples, "open", "starter")
    assert "<b>" not in at.notice.html + at.answer.html
    assert "&lt;b&gt;Van" in at.notice.html


def test_a_file_that_is_opened_becomes_the_rig(start):
    start.files._handle({"type": "open", "name": "van.json", "text": write_rig(small(name="Van"))})
    assert (start.session.rig.name, start.form.fields.text("name")) == ("Van", "Van")


def test_the_page_is_one_widget():
    assert len(start_page(Session(small())).children) > 6
