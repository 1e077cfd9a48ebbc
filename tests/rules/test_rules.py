"""Each rule: the smallest rig that breaks it, and that rig cured: the finding is gone and no stop is new."""

from __future__ import annotations

from dataclasses import replace

import pytest

from rigcalc.model import Rig, rig_from_data
from rigcalc.model.edit import changed
from rigcalc.rules import RULES, Finding, findings, remedy
from rigcalc.study import Study, study
from rigcalc.study.results import Spread
from rigcalc.tables.design_rules import design_rules
from tests.rigs import small, small_data
from tests.rules.cases import CASES, Case, inverter

BY_RECORD = ("A02", "L06")  # identities no valid rig can break: broken in the study's record instead


def _named(case: Case) -> str:
    at = [one for one in CASES if one.rule == case.rule].index(case)
    return f"{case.rule}-{at + 1}"


def _heard(rig: Rig) -> tuple[Study, tuple[Finding, ...]]:
    done = study(rig)
    return done, findings(done)


def _of(heard: tuple[Finding, ...], case: Case) -> list[Finding]:
    return [one for one in heard if (one.rule, one.subject, one.state) == (case.rule, case.subject, "found")]


def _stops(heard: tuple[Finding, ...]) -> set[tuple[str, str]]:
    return {(one.rule, one.subject) for one in heard if one.stops}


def test_every_rule_has_a_case_and_a_row_in_the_table():
    assert {case.rule for case in CASES} | set(BY_RECORD) == set(RULES) == {row.id for row in design_rules()}


def test_the_small_rig_breaks_nothing():
    said = [(one.rule, one.state) for one in findings(study(small(main_switch_run="W1", colour_scheme="abyc")))]
    assert said == [("D07", "found")]


@pytest.mark.parametrize("case", CASES, ids=_named)
def test_the_rule_is_broken(case):
    _, heard = _heard(rig_from_data(case.broken()))
    found = _of(heard, case)
    assert found, [(one.rule, one.subject, one.state) for one in heard]
    assert found[0].severity == case.severity
    assert case.says in found[0].sentence
    assert found[0].measured
    assert found[0].limit
    assert found[0].source


@pytest.mark.parametrize("case", CASES, ids=_named)
def test_the_cure_cures_and_brings_no_stop(case):
    before, heard = _heard(rig_from_data(case.broken()))
    if case.cure is None:
        cure = remedy(before, _of(heard, case)[0])
        assert cure is not None
        assert case.remedy in cure.sentence
        after = changed(before.rig, *cure.changes)
    else:
        after = rig_from_data(case.cured())
    _, then = _heard(after)
    assert not [one for one in then if (one.rule, one.subject) == (case.rule, case.subject)]
    assert _stops(then) <= _stops(heard)


def _behind_inverter() -> Study:
    data = small_data()
    inverter()(data)
    return study(rig_from_data(data))


def test_an_inverter_that_gives_more_than_it_takes_is_stopped():
    """L06: no efficiency above 1 can be typed, so the record of the load is changed by hand."""
    sound = _behind_inverter()
    row = replace(sound.energy.rows[0], battery_wh=Spread(100.0, 180.0, 260.0))
    wrong = replace(sound, energy=replace(sound.energy, rows=(row,)))
    assert ("L06", "lamp") in _stops(findings(wrong))
    assert ("L06", "lamp") not in _stops(findings(sound))


def test_an_inverter_current_without_losses_at_full_voltage_is_stopped():
    """A02: 100 W over 14.4 V is less than 100 W over the voltage left when the bank is low."""
    sound = _behind_inverter()
    runs = tuple(replace(one, design_current_a=100 / 14.4) if one.run_id == "W2" else one for one in sound.network.runs)
    wrong = replace(sound, network=replace(sound.network, runs=runs))
    assert ("A02", "W2") in _stops(findings(wrong))
    assert ("A02", "W2") not in _stops(findings(sound))
