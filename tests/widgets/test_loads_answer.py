"""What the load inventory answers in words, and what stands under its numbers. Invented figures."""

from __future__ import annotations

import pytest

from rigcalc.model.edit import Change
from rigcalc.widgets import loads_page
from rigcalc.widgets.load_results import answer
from rigcalc.widgets.session import Session
from tests.rigs import small, small_data
from tests.widgets.load_pages import cell, field, page

LAMP = {"id": "a", "name": "Lamp", "power_w": 10.0, "daily_use_h": 3.0, "provenance": "measured"}


FAN = {"id": "b", "name": "Fan", "power_w": 10.0, "daily_use_h": 1.0, "provenance": "guess"}


def _answer(*loads: dict[str, object]) -> str:
    return answer(Session(small(loads=list(loads), runs=small_data()["runs"][:1], devices=[])).study)


@pytest.mark.parametrize(
    ("loads", "sentence"),
    [
        ([LAMP], "1 load takes <strong>30.0 Wh a day</strong> at the battery; none of it is guessed."),
        (
            [LAMP, FAN],
            "2 loads take <strong>40.0 Wh a day</strong> at the battery; "
            "25 % of it rests on guesses: measure Fan first.",
        ),
        (
            [{**FAN, "provenance": "label"}],
            "1 load takes <strong>10.0 Wh a day</strong> at the battery; none of it is guessed, "
            "and measuring Fan would settle the most.",
        ),
        (
            [{"id": "c", "name": "Tap"}],
            "1 load takes <strong>0 Wh a day</strong> at the battery; 1 load says too little and counts as 0 Wh.",
        ),
    ],
)
def test_the_answer_is_one_sentence(loads, sentence):
    assert _answer(*loads) == sentence


def test_names_of_people_never_become_markup():
    at = page(loads=[{**LAMP, "name": "<img src=x> & co", "id": "a"}], runs=small_data()["runs"][:1], devices=[])
    cell(at, "a", "provenance", "guess")
    shown = at.one.html + at.answer.html + at.spread.html
    assert "<img" not in shown
    assert "&lt;img src=x&gt; &amp; co" in at.one.html
    at.table._handle({"type": "remove", "id": "a"})
    assert "<img" not in at.notice.html


def test_the_spread_shows_the_table_it_comes_from(loads):
    for words in ("measured", "read from a label", "guessed", "Common practice, no source", "▲ memory"):
        assert words in loads.spread.html
    loads.session.apply(Change("loads", "lamp", (("provenance", None),)))
    assert "taken as a guess" in loads.spread.html


def test_notes_and_working_of_the_chosen_load_are_shown(loads):
    field(loads.day, "inside_c", "4 °C")
    assert "not moved to" in loads.one.html
    assert "Working: the day of Lamp" in loads.one.html


def test_the_page_is_one_widget():
    assert len(loads_page(Session(small())).children) > 6
