"""Ways of feeding the same load."""

from __future__ import annotations

import pytest
from hypothesis import given

from tests.study.load_rigs import FED, converter, energy_of, inverter, load, loads, row_of, unstated, way

BRICK = {"feed": "inverter_adapter", "fed_by": "inv", "adapter_efficiency": 0.85}


def test_double_conversion_ours_no_evidence():
    # Chain product: 60 W by an inverter of 0.88 and an adapter of 0.85 is 80.21 W, by one DC stage of 0.92 65.22 W.
    study = energy_of(
        load(power_w=60.0, daily_use_h=1.0, **BRICK), inverters=[inverter(efficiency=0.88)], converters=[converter()]
    )
    assert way(study, "inverter and adapter, already on") == pytest.approx(80.21, abs=0.005)
    assert way(study, "converter") == pytest.approx(65.22, abs=0.005)
    assert way(study, "direct") == pytest.approx(60)


def test_an_inverter_for_one_load_alone_costs_its_idle_draw_too():
    study = energy_of(load(daily_use_h=4.0), inverters=[inverter(idle_w=25.0)])
    alone, already_on = way(study, "inverter, idle charged to it"), way(study, "inverter, already on")
    assert alone - already_on == pytest.approx(25 * 4)


def test_the_way_it_is_fed_now_agrees_with_its_row():
    study = energy_of(load(**BRICK), load("other", feed="inverter", fed_by="inv"), **FED)
    assert way(study, "inverter and adapter, already on") == pytest.approx(row_of(study).battery_wh.likely)


def test_an_adapter_known_from_another_load_serves():
    # The worst of the rig's adapters stands in for a load that has none.
    worse = BRICK | {"adapter_efficiency": 0.7}
    study = energy_of(load(), load("a", **BRICK), load("b", **worse), inverters=[inverter(efficiency=0.9)])
    assert way(study, "inverter and adapter, already on") == pytest.approx(500 / 0.7 / 0.9)


def test_a_way_the_rig_does_not_have_says_why():
    reasons = {cost.path: cost.why_not for cost in energy_of(load()).paths if cost.battery_wh is None}
    assert reasons["converter"] == "the rig has no converter"
    assert reasons["inverter, already on"] == "the rig has no inverter"
    reasons = {cost.path: cost.why_not for cost in energy_of(load(), inverters=[inverter()]).paths if cost.why_not}
    assert reasons["inverter and adapter, already on"] == "no load of the rig states the efficiency of an adapter"


def test_every_converter_and_inverter_is_a_way_of_its_own():
    study = energy_of(
        load(),
        converters=[converter("a"), converter("b", 0.8)],
        inverters=[inverter("i"), inverter("j", rated_w=500.0)],
    )
    ways = [(cost.path, cost.fed_by) for cost in study.paths if cost.battery_wh is not None]
    assert [by for path, by in ways if path == "converter"] == ["a", "b"]
    assert [by for path, by in ways if path == "inverter, already on"] == ["i", "j"]


def test_hours_that_nobody_stated_charge_no_idle():
    reading = {"energy_wh": 100.0, "over_h": 24.0, "at": "dc_at_appliance"}
    costs = energy_of(unstated(reading=reading), inverters=[inverter()]).paths
    alone = next(cost for cost in costs if cost.path == "inverter, idle charged to it")
    assert (alone.battery_wh, alone.why_not) == (None, "its hours of use are not stated")


@given(loads())
def test_direct_is_never_dearer_and_alone_never_cheaper_than_already_on(some):
    costs = {(cost.load_id, cost.path): cost.battery_wh for cost in energy_of(*some, **FED).paths}
    for (load_id, _), battery_wh in costs.items():
        assert battery_wh is None or battery_wh >= costs[load_id, "direct"]
    for one in some:
        if not one.get("feed", "").startswith("inverter"):
            alone = costs[one["id"], "inverter, idle charged to it"]
            assert alone >= costs[one["id"], "inverter, already on"]
