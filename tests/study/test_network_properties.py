"""What holds for the conductors and fuses of any rig."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from rigcalc.model import Rig, rig_from_data
from rigcalc.rules import findings
from rigcalc.study import study
from rigcalc.tables.conductors import conductor
from rigcalc.tables.overcurrent import ratings
from tests.study.wiring_rigs import RULE_SETS, free, run_of


@st.composite
def rigs(draw) -> Rig:
    """Small rigs of one to five loads on a block, everything left to be chosen."""
    data = free(rule_set=draw(st.sampled_from(RULE_SETS)))
    data["ambient_hot_c"] = draw(st.sampled_from([25.0, 30.0, 45.0, 60.0]))
    data["bank"]["unit_short_circuit_a"] = draw(st.sampled_from([300.0, 900.0, 6000.0]))
    load, feeder, branch = data["loads"][0], data["runs"][0], data["runs"][1]
    feeder |= {"length_out_m": draw(st.floats(0.1, 4)), "length_back_m": draw(st.floats(0.1, 4))}
    data["loads"], data["runs"], data["devices"] = [], [feeder], data["devices"][:1]
    for i in range(draw(st.integers(1, 5))):
        use = draw(st.sampled_from(["lighting", "pump", "electronics", "other"]))
        watts = draw(st.floats(1, 250))
        data["loads"].append(load | {"id": f"L{i}", "power_w": watts, "circuit_use": use, "max_fuse_a": 60.0})
        lengths = {"length_out_m": draw(st.floats(0.1, 9)), "length_back_m": draw(st.floats(0.1, 9))}
        data["runs"].append(branch | lengths | {"id": f"B{i}", "to_id": f"L{i}"})
        data["devices"].append({"id": f"G{i}", "run_id": f"B{i}", "distance_m": 0.0})
    return rig_from_data(data)


@given(rigs())
def test_a_chosen_fuse_protects_every_conductor_behind_it_and_carries_its_load(rig):
    net = study(rig).network
    runs = {run.run_id: run for run in net.runs}
    for circuit in net.circuits:
        if circuit.rating_a is None or any(runs[one].choice is None for one in circuit.runs):
            continue
        assert circuit.rating_a >= 1.25 * circuit.continuous_a * (1 - 1e-6)
        assert circuit.rating_a in {row.rating_a for row in ratings(circuit.device_class or "")}
        for one in circuit.runs:
            choice = runs[one].choice
            assert choice is not None
            assert choice.fuse_limit_a is not None
            assert circuit.rating_a <= choice.fuse_limit_a
            if net.rule_set != "us_boat":  # the one rule set read that lets a device pass the ampacity
                assert circuit.rating_a <= (choice.ampacity_a or 0) * (1 + 1e-9)
            else:
                assert circuit.rating_a <= 1.5 * (choice.ampacity_a or 0)


@given(rigs())
def test_a_choice_passes_every_limit_and_the_next_smaller_does_not(rig):
    for run in study(rig).network.runs:
        if run.choice is None:
            continue
        assert run.choice.fails == ()
        assert run.choice.way_drop_percent <= (run.drop_limit_percent or 100) + 1e-6
        if run.smaller and run.decided_by != "smallest of the table":
            assert run.smaller.fails


@given(rigs(), st.floats(0.1, 5))
def test_a_longer_branch_never_gets_a_smaller_conductor_nor_more_volts(rig, further_m):
    before = study(rig).network
    longer = rig.model_copy(
        update={"runs": tuple(
            run.model_copy(update={"length_out_m": run.length_out_m + further_m}) if run.id == "B0" else run
            for run in rig.runs
        )}
    )  # fmt: skip
    after = study(longer).network
    one, other = run_of(before, "B0"), run_of(after, "B0")
    if one.choice and other.choice and one.choice.size == other.choice.size:
        assert other.load_v <= one.load_v + 1e-3
    elif one.choice and other.choice:
        assert conductor(other.choice.size).order > conductor(one.choice.size).order


@given(rigs())
def test_findings_never_fail_and_chosen_conductors_pass_their_own_rules(rig):
    found = findings(study(rig))
    chosen = {run.run_id for run in study(rig).network.runs if run.choice}
    wrong = [f for f in found if f.rule in ("W01", "P03", "P06") and f.stops and f.subject in chosen]
    assert wrong == []
