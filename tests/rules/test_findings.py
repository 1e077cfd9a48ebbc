"""The list of findings as a whole: its order, acceptances, sources, words, and that it never breaks."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.errors import InputError
from rigcalc.model import rig_from_data
from rigcalc.model.edit import changed
from rigcalc.rules import SEVERITIES, Finding, findings, remedy
from rigcalc.rules.words import apart
from rigcalc.study import study
from rigcalc.tables.rule_sets import RULE_SETS
from tests.rigs import EXAMPLES, small, small_data
from tests.rules.cases import CASES, bank, both, device, free_fuse, lamp, run, top

LATEST = "2026-01-31"


def heard(*edits: Any) -> tuple[Finding, ...]:
    data = small_data()
    both(*edits)(data)
    return findings(study(rig_from_data(data)))


def only(found: tuple[Finding, ...], rule: str) -> Finding:
    return next(one for one in found if one.rule == rule)


def accepted(rule: str, subject: str) -> Any:
    given_by = {"rule": rule, "subject": subject, "reason": "Seen and meant", "name": "Reviewer", "date": LATEST}
    return top(accepted=[given_by])


def test_a_warning_is_accepted_with_its_reason():
    drop = only(heard(run(2, length_out_m=30.0, length_back_m=30.0), accepted("W03", "W2")), "W03")
    assert drop.accepted is not None
    assert drop.accepted.reason == "Seen and meant"
    assert drop.severity == "warning"


def test_an_accepted_stop_stays_a_stop():
    over = only(heard(free_fuse, lamp(power_w=300.0), accepted("W01", "W2")), "W01")
    assert over.accepted is not None
    assert over.severity == "stop"
    assert over.stops


def test_an_acceptance_holds_for_its_own_subject_only():
    drop = only(heard(run(2, length_out_m=30.0, length_back_m=30.0), accepted("W03", "W1")), "W03")
    assert drop.accepted is None


def test_stops_come_first_and_what_is_not_stated_after_what_was_found():
    found = heard(free_fuse, lamp(power_w=300.0, provenance="guess"), device(1, distance_m=None), bank(parallel=2))
    ranks = [(SEVERITIES.index(one.severity), one.state != "found", one.rule, one.subject) for one in found]
    assert ranks == sorted(ranks)
    assert {one.severity for one in found} == set(SEVERITIES)
    assert {one.state for one in found} == {"found", "not stated"}


def test_names_stay_the_text_they_are():
    name = "<script>alert(1)</script> & {0} %s"
    found = heard(lamp(name=name, lowest_working_v=11.6))
    assert name in only(found, "B05").sentence
    done = study(small(loads=[small_data()["loads"][0] | {"name": name, "lowest_working_v": 11.6}]))
    assert remedy(done, only(findings(done), "B05"))


@pytest.mark.parametrize("rule_set", RULE_SETS)
def test_the_boat_law_says_what_it_binds(rule_set: str) -> None:
    """33 CFR 183 subpart I is law only for boats with gasoline engines, outboards excepted."""
    found = heard(top(rule_set=rule_set), lambda data: data["devices"].clear(), device_less)
    source = only(found, "P01").source
    assert source.startswith("33 CFR 183.455")
    assert ("law on boats with gasoline engines" in source) == (rule_set == "us_boat")
    assert ("quoted here as practice" in source) == (rule_set != "us_boat")


def device_less(data: dict[str, Any]) -> None:
    data["runs"][0].pop("conductor")
    data["runs"][1].pop("conductor")


def test_a_limit_that_was_only_recalled_says_so_in_the_sentence():
    assert "common practice without a source" in only(heard(bank(depth_of_discharge=0.95)), "B02").sentence
    thin = heard(top(rule_set="iec_vehicle"), run(2, conductor="1 mm2"))
    assert "recalled, not read" in only(thin, "W07").sentence
    assert only(thin, "W07").status == "memory"


def test_rounding_never_hides_a_limit_that_is_passed():
    done = study(small())
    assert apart(done, 3.004, 3.0, "percent", 2) == ("3.004 %", "3.000 %")
    assert apart(done, 3.4, 3.0, "percent", 2) == ("3.4 %", "3.0 %")


def test_lengths_are_said_in_the_units_of_the_rig():
    assert "2.0 ft" in only(heard(top(units="us"), device(1, distance_m=0.6096)), "P02").sentence.replace("2.00", "2.0")


def test_a_remedy_that_would_bring_another_stop_is_not_offered():
    """More strings would last the wanted days but feed more fault current than the blade fuse breaks."""
    data = small_data()
    both(bank(wanted_autonomy_days=6.0), run(1, conductor="4/0 AWG"))(data)
    done = study(rig_from_data(data))
    found = only(findings(done), "B01")
    assert found.candidates
    assert remedy(done, found) is None


def test_a_stated_window_is_judged_by_both_its_edges():
    """15 A on 14 AWG is the most, and 75 % of it the most it carries for hours: 11.25 A at 25 °C."""
    of_f2 = [one for one in heard(device(2, rating_a=15.0)) if one.subject == "F2"]
    assert not of_f2
    assert only(heard(lamp(max_fuse_a=None), device(2, rating_a=15.5)), "P03").stops


def test_the_remedy_of_a_shared_way_adds_least_copper():
    """A long feeder and a short branch: one size more in the branch adds less copper, and is tried first."""
    data = small_data()
    lamp(lowest_working_v=11.6)(data)
    found = only(findings(study(rig_from_data(data))), "B05")
    first = found.candidates[0][0]
    assert (first.id, dict(first.fields)) == ("W2", {"conductor": "12 AWG"})


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.json")), ids=lambda path: path.stem)
def test_an_example_rig_has_no_stop(path: Any) -> None:
    found = findings(study(rig_from_data(json.loads(path.read_text(encoding="utf-8")))))
    assert [(one.rule, one.subject, one.sentence) for one in found if one.stops] == []


SIZES = st.sampled_from([None, "18 AWG", "10 AWG", "6", "6 mm2", "6 mm", "4/0 AWG"])
LENGTHS_M = st.sampled_from([0.0, 0.01, 3.0, 80.0, 1000.0])
EDITS = st.one_of(
    st.builds(lamp, power_w=st.sampled_from([None, 0.0, 1.0, 500.0, 90000.0]), starting_power_w=st.just(2e4)),
    st.builds(lamp, provenance=st.sampled_from([None, "label", "guess"]), quantity=st.integers(1, 9)),
    st.builds(
        lamp, lowest_working_v=st.sampled_from([None, 9.0, 11.9, 14.0]), max_fuse_a=st.sampled_from([None, 0.0, 3.0])
    ),
    st.builds(lamp, starting_power_w=st.floats(0, 5000), starting_s=st.floats(0, 60)),
    st.builds(run, st.integers(1, 2), conductor=SIZES, return_conductor=SIZES, length_out_m=LENGTHS_M),
    st.builds(run, st.integers(1, 2), return_path=st.just("chassis"), length_back_m=st.none()),
    st.builds(run, st.integers(1, 2), engine_space=st.booleans(), conductors_together=st.integers(1, 40)),
    st.builds(
        run, st.integers(1, 2), insulation_c=st.sampled_from([None, 40.0, 90.0, 200.0]), terminal_c=st.just(60.0)
    ),
    st.builds(
        run,
        st.integers(1, 2),
        ambient_c=st.floats(-60, 249),
        purpose=st.sampled_from(["sense", "charging", "cranking"]),
    ),
    st.builds(device, st.integers(1, 2), rating_a=st.sampled_from([None, 0.5, 7.0, 400.0]), distance_m=LENGTHS_M),
    st.builds(device, st.integers(1, 2), device_class=st.sampled_from([None, "blade", "breaker", "stud_block"])),
    st.builds(device, st.integers(1, 2), voltage_rating_v=st.floats(1, 100), ambient_c=st.floats(-60, 249)),
    st.builds(bank, chemistry=st.just("lifepo4"), unit_short_circuit_a=st.sampled_from([None, 0.0, 1e5])),
    st.builds(bank, parallel=st.integers(1, 24), unit_discharge_max_a=st.sampled_from([None, 0.0, 1.0])),
    st.builds(top, rule_set=st.sampled_from(sorted(RULE_SETS)), units=st.sampled_from(["metric", "us"])),
    st.builds(
        top, chassis_bond=st.sampled_from(["", "6", "8 AWG", "rope", "1/0 AWG"]), ambient_hot_c=st.floats(-60, 250)
    ),
)


@given(st.lists(EDITS, max_size=5))
def test_findings_of_any_rig_that_can_be_studied(edits: list[Any]) -> None:
    data = small_data()
    both(*edits)(data)
    try:
        done = study(rig_from_data(data))
    except InputError:
        return
    for one in findings(done):
        assert one.sentence.endswith((".", "?"))
        assert one.source
        assert one.stops == (one.severity == "stop" and one.state == "found")


@given(st.sampled_from(CASES), st.lists(EDITS, max_size=1))
def test_a_remedy_always_cures(case: Any, edits: list[Any]) -> None:
    data = case.broken()
    try:
        both(*edits)(data)
        done = study(rig_from_data(data))
    except (InputError, IndexError):
        return
    for one in [one for one in findings(done) if one.rule == case.rule][:1]:
        cure = remedy(done, one)
        if cure:
            after = findings(study(changed(done.rig, *cure.changes)))
            assert (one.rule, one.subject) not in {(other.rule, other.subject) for other in after}
            assert {(f.rule, f.subject) for f in after if f.stops} <= {
                (f.rule, f.subject) for f in findings(done) if f.stops
            }
