"""The example rigs: what each must hold to be taught with, and that none of them is stopped."""

from __future__ import annotations

import pytest

from rigcalc.model import Rig, rig_from_data
from rigcalc.rules import findings
from rigcalc.study import Study, study
from tests.model.building import NAMES
from tests.rigs import example_data

STUDIES: dict[str, Study] = {}


def rig(name: str) -> Rig:
    return rig_from_data(example_data(name))


def studied(name: str) -> Study:
    if name not in STUDIES:
        STUDIES[name] = study(rig(name))
    return STUDIES[name]


def test_the_five_examples_are_there():
    assert NAMES == ["book-van", "canal-workboat", "ringing-trailer", "starter", "weaving-studio"]


@pytest.mark.parametrize("name", NAMES)
def test_an_example_says_what_it_is_and_how_its_figures_are_known(name):
    one = rig(name)
    assert len(one.note) > 100
    assert one.revision
    assert one.date
    assert all(load.provenance for load in one.loads)
    assert len({load.provenance for load in one.loads}) > 1
    assert all(run.id.startswith("W") for run in one.runs)
    assert all(device.id.startswith("F") for device in one.devices)
    assert all(part.id.startswith("X") for part in (*one.buses, *one.blocks))


@pytest.mark.parametrize("name", NAMES)
def test_an_example_is_not_stopped(name):
    heard = findings(studied(name))
    assert [one.sentence for one in heard if one.stops] == []


@pytest.mark.parametrize("name", NAMES)
def test_an_example_is_wired_and_protected_throughout(name):
    network = studied(name).network
    assert network.unconnected == ()
    assert network.unprotected == ()
    assert all(run.solved and run.choice and not run.ambiguous for run in network.runs)
    assert all(row.missing == () for row in studied(name).energy.rows)


def test_the_starter_breaks_no_rule():
    assert findings(studied("starter")) == ()
    assert len(rig("starter").loads) == 4


def test_the_van_has_a_few_warnings():
    warnings = [one.rule for one in findings(studied("book-van")) if one.severity == "warning"]
    assert 1 <= len(warnings) <= 5


def test_the_van_holds_what_the_notebooks_need():
    one = rig("book-van")
    assert (one.rule_set, one.system_v, one.bank.chemistry) == ("na_vehicle", 12, "lifepo4")
    assert len(one.devices) >= 14
    assert {load.feed for load in one.loads} == {"direct", "converter", "inverter", "inverter_adapter"}
    assert {load.feed for load in one.loads if load.cold_box} == {"direct", "inverter"}
    assert any(load.reading and load.reading.ambient_c is not None for load in one.loads)
    assert any(load.alternates_with for load in one.loads)
    assert any(run.return_path == "chassis" for run in one.runs)
    assert any(run.engine_space for run in one.runs)
    assert any((run.conductors_together or 2) > 2 for run in one.runs)
    assert any(run.to_id == "inverter" for run in one.runs)
    assert one.inverters[0].efficiency_50 is not None
    assert one.main_switch_run
    assert len(one.day_types) == 2
    assert any(run.typed for run in one.runs)


def test_a_dead_short_behind_the_vans_block_is_within_what_blade_fuses_break():
    blades = [one for one in studied("book-van").network.circuits if one.device_class == "blade"]
    assert len(blades) >= 10
    assert all(one.prospective_a and one.prospective_a < 1000 for one in blades)  # ISO 8820-3:2015, scope: 1000 A, 32 V


def test_each_example_goes_by_rules_of_its_own_kind():
    assert {name: rig(name).rule_set for name in NAMES} == {
        "book-van": "na_vehicle",
        "canal-workboat": "us_boat",
        "ringing-trailer": "iec_vehicle",
        "starter": "na_vehicle",
        "weaving-studio": "iec_cabin",
    }


def test_the_studio_is_the_largest():
    assert max(NAMES, key=lambda name: len(rig(name).runs)) == "weaving-studio"
    assert len(rig("weaving-studio").devices) >= 30
    assert rig("weaving-studio").bank.parallel >= 4
