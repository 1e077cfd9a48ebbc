"""Facts of the opened rig as fields of the first page. Invented figures."""

from __future__ import annotations

import pytest

from rigcalc.model.edit import Change
from rigcalc.tables.rule_sets import RULE_SETS, rule_set
from tests.widgets.start_pages import fact


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
