"""What the page on conductors answers: choices, drops, workings, clauses and findings."""

from __future__ import annotations

import json

import pytest

from rigcalc.study.compare import other_rule_sets
from rigcalc.tables.rule_sets import RULE_SETS
from rigcalc.widgets.conductors import ConductorsPage
from rigcalc.widgets.session import open_rig
from tests.widgets.conductor_pages import edit, edit_cell, page, run
from tests.widgets.hands import press, type_in


class TestResults:
    def test_what_fails_is_marked_in_more_than_colour(self):
        shown = page()
        shown.pick("W2")
        edit(shown, "length_out_m", "40 m")
        assert "■ " in shown.decides.html
        assert "rig-stop" in shown.decides.html

    def test_next_smaller_choice_next_larger_and_the_other_series(self):
        shown = page()
        shown.pick("W2")
        edit(shown, "conductor", "")
        for title in ("next smaller", "choice", "next larger", "other series"):
            assert title in shown.decides.html
        assert "mm2" in shown.decides.html

    def test_volts_along_the_way_end_at_the_device(self):
        shown = page()
        shown.pick("W2")
        study = shown.session.study
        figure = json.loads(shown.plot.figure)
        present = next(trace for trace in figure["data"] if trace["name"] == "as it is")
        volts = [study.network.node_v[node] for node in ("bank", "X2", "lamp")]
        assert present["y"] == pytest.approx([*volts, volts[-1]])
        assert "10.5 V" in shown.plot.alt
        assert shown.plot.table["rows"][0][0] == "Bank"

    def test_a_power_that_does_not_get_through_is_said(self):
        shown = page()
        shown.pick("W2")
        edit(shown, "conductor", "18 AWG")
        edit(shown, "length_out_m", "300 m")
        assert "does not get through" in shown.plot.alt
        assert shown.runs.table.row("W2")["cells"]["current"] == "■ not deliverable"

    def test_both_drops_and_each_working_with_its_source(self):
        shown = page()
        shown.pick("W2")
        assert "Two drops" in shown.more.html
        for text in ("Working: design current of W2", "Working: ampacity", "NFPA 70", "secondary"):
            assert text in shown.more.html

    def test_other_rule_sets_are_worked_out_once_asked_for(self):
        shown = page()
        shown.pick("W2")
        assert RULE_SETS["iec_vehicle"].title not in shown.more.html
        press(shown.more, "others")
        for rule_set, size in other_rule_sets(shown.session.study, "W2").items():
            assert RULE_SETS[rule_set].title in shown.more.html
            assert size in shown.more.html

    def test_rules_without_read_sizes_say_so_and_show_the_others(self):
        shown = page(rule_set="eu_small_craft")
        assert "not available from a read source" in shown.answer.html
        assert "not available from a read source" in shown.clauses.html
        assert RULE_SETS["us_boat"].title in shown.more.html

    def test_another_rule_set_judges_by_its_own_clauses(self):
        shown = page()
        type_in(shown.rules.fields, "rule_set", "us_boat")
        assert shown.session.rig.rule_set == "us_boat"
        assert "33 CFR 183.425" in shown.clauses.html

    def test_us_units(self):
        shown = page(units="us")
        shown.pick("W2")
        assert shown.runs.table.row("W2")["cells"]["length_out_m"] == "9.843 ft"
        assert shown.runs.table.row("W2")["other"]["length_out_m"] == "3.00 m"
        edit_cell(shown, "W2", "length_out_m", "10")
        assert run(shown, "W2").length_out_m == pytest.approx(3.048)

    def test_what_people_type_is_escaped(self):
        shown = page()
        shown.pick("W2")
        edit(shown, "name", "<b>lamp</b>")
        assert "<b>lamp</b>" not in shown.decides.html + shown.answer.html
        assert "&lt;b&gt;lamp&lt;/b&gt;" in shown.decides.html

    def test_only_its_own_findings_stand_on_the_page(self):
        shown = page()
        edit_cell(shown, "W2", "length_out_m", "60 m")
        assert "W2" in shown.findings.html
        assert all(one.rule in shown.findings.html for one in shown.session.findings
                   if one.rule.startswith("W") and one.state == "found")  # fmt: skip

    def test_the_first_answer_of_the_example(self):
        shown = ConductorsPage(open_rig())
        shown.view()
        good = sum(one.choice is not None and not one.choice.fails for one in shown.session.study.network.runs)
        assert f"{good} of {len(shown.session.rig.runs)} runs are within every limit" in shown.answer.html
