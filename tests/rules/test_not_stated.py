"""A fact nobody stated neither passes nor fails: it is a finding of its own kind and never a stop."""

from __future__ import annotations

import pytest

from rigcalc.model import rig_from_data
from rigcalc.rules import Finding, findings, remedy
from rigcalc.study import study
from tests.rigs import small_data
from tests.rules.cases import Data, Edit, bank, block, both, device, lamp, run, top

BOAT_EU = top(rule_set="eu_small_craft")
CABIN = top(rule_set="na_cabin")
CHASSIS = run(2, return_path="chassis", length_back_m=None)


def unwired(data: Data) -> None:
    """The lamp with no run and no fuse."""
    data["runs"].pop()
    data["devices"].pop()


def behind_converter(data: Data) -> None:
    """The lamp on a 24 V converter that W2 feeds, by a run with a fuse of its own."""
    data["converters"] = [
        {"id": "dc", "name": "Converter", "output_v": 24.0, "efficiency": 0.9, "lowest_input_v": 10.0}
    ]
    lamp(feed="converter", fed_by="dc")(data)
    run(2, to_id="dc")(data)
    data["runs"].append(data["runs"][1] | {"id": "W3", "from_id": "dc", "to_id": "lamp"})
    data["devices"].append({"id": "F3", "run_id": "W3", "device_class": "blade", "rating_a": 5.0, "distance_m": 0.0})


CASES: tuple[tuple[str, str, Edit, str], ...] = (
    ("L01", "lamp", lamp(power_w=None), "power"),
    ("L01", "lamp", lamp(provenance=None), "how its figures are known"),
    ("B01", "bank", bank(wanted_autonomy_days=None), "How many days"),
    ("B03", "bank", bank(unit_discharge_max_a=None), "How much current"),
    ("B03", "bank", bank(parallel=2), "share of the busiest string"),
    ("B05", "lamp", lamp(lowest_working_v=None), "below which Lamp stops"),
    ("W01", "lamp", unwired, "No run reaches Lamp"),
    ("W01", "rig", BOAT_EU, "no ampacity table"),
    (
        "W01",
        "W2",
        both(top(rule_set="iec_vehicle"), run(2, conductor="2.5 mm2", conductors_together=4)),
        "grouping factor",
    ),
    ("W01", "W2", run(2, insulation_c=50.0), "not in a table"),
    ("W03", "rig", BOAT_EU, "no limit"),
    ("W03", "W2", both(top(chassis_bond="8 AWG"), CHASSIS), "left out of the drop"),
    ("W07", "rig", CABIN, "smallest conductor"),
    ("W11", "W2", both(CABIN, CHASSIS), "do not say"),
    ("W21", "rig", run(2, terminal_c=50.0), "terminals of W2"),
    ("P02", "F2", device(2, distance_m=None), "is not stated"),
    ("P02", "rig", CABIN, "not read in these rules"),
    ("P03", "rig", BOAT_EU, "F1 and F2 may be"),
    ("P08", "F2", device(2, device_class="breaker"), "F2 in W2 (Block to lamp) can break"),
    ("P08", "dc", behind_converter, "whether F3 can clear"),
    ("P10", "F2", device(2, device_class="breaker"), "is not stated"),
    ("P13", "rig", device(2, device_class="breaker", ambient_c=60.0), "F2 (Circuit breaker) can carry in the heat"),
    ("P13", "rig", device(2, ambient_c=130.0), "up to 30 A) can carry in the heat"),
    ("D04", "rig", top(), "Which colours"),
    ("P14", "rig", top(), "whether anything cuts the bank off"),
    ("P17", "X2", block(rating_a=None), "made for is not stated"),
)


@pytest.mark.parametrize(("rule", "subject", "edit", "says"), CASES, ids=[f"{c[0]}-{c[1]}-{c[3][:12]}" for c in CASES])
def test_what_is_not_stated_is_said_and_is_no_stop(rule: str, subject: str, edit: Edit, says: str) -> None:
    data = small_data()
    edit(data)
    done = study(rig_from_data(data))
    found = [one for one in findings(done) if (one.rule, one.subject) == (rule, subject)]
    assert [one.state for one in found] == ["not stated"], _all(findings(done))
    assert says in found[0].sentence
    assert found[0].measured == "not stated"
    assert not found[0].stops
    assert remedy(done, found[0]) is None


def _all(heard: tuple[Finding, ...]) -> list[tuple[str, str, str]]:
    return [(one.rule, one.subject, one.sentence) for one in heard]


def test_an_unstated_power_is_said_once_and_judges_nothing_on_its_way():
    data = small_data()
    del data["loads"][0]["power_w"]
    for one in data["runs"]:
        del one["conductor"]
    heard = findings(study(rig_from_data(data)))
    said = [one for one in heard if one.rule == "W01"]
    assert [one.sentence for one in said] == [
        "The power of Lamp is not stated, so the current in W1 and W2 is not known."
    ]
    assert not any(one.stops for one in heard)
