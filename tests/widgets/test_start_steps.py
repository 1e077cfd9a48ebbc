"""How far the rig is, its rules and the answer on the first page. Invented figures."""

from __future__ import annotations

from rigcalc.model.new import new_rig
from rigcalc.tables.rule_sets import RULE_SETS, TOPICS, rule_set
from rigcalc.widgets import start_page
from rigcalc.widgets.session import Session
from tests.rigs import small
from tests.widgets.hands import press
from tests.widgets.start_pages import fact, page


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


def test_the_page_is_one_widget():
    assert len(start_page(Session(small())).children) > 6
