"""The study as a whole: what it takes over from the study before a change is what it would have worked out anew."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.model import Rig
from rigcalc.model.edit import Change, change, changed
from rigcalc.study import WIRING_ONLY, study
from tests.rigs import example_data, rig_from_data

VAN = rig_from_data(example_data("book-van"))


def _first(kind: str) -> str:
    return str(getattr(VAN, kind)[0].id)


CHANGES: dict[str, Change] = {
    "ambient_usual_c": change("rig", ambient_usual_c=27.5),
    "ambient_hot_c": change("rig", ambient_hot_c=44.0),
    "units": change("rig", units="metric"),
    "name": change("rig", name="Another name"),
    "rule_set": change("rig", rule_set="iec_vehicle"),
    "bank": change("bank", depth_of_discharge=0.5),
    "day_types": change("day_types", _first("day_types"), name="Some other day"),
    "inverters": change("inverters", _first("inverters"), idle_w=3.0),
    "converters": change("converters", _first("converters"), efficiency=0.7),
    "loads": change("loads", _first("loads"), quantity=3),
    "runs": change("runs", _first("runs"), length_out_m=0.7),
    "devices": change("devices", _first("devices"), rating_a=80.0),
}


@pytest.mark.parametrize("one", CHANGES.values(), ids=CHANGES)
def test_a_study_after_a_change_is_the_study_of_the_changed_rig(one):
    after = changed(VAN, one)
    taken, new = study(after, study(VAN)), study(after)
    assert taken == new
    assert taken.energy.workings == new.energy.workings
    assert taken.energy.paths == new.energy.paths
    assert taken.energy.cold_boxes == new.energy.cold_boxes
    assert [row.workings for row in taken.energy.rows] == [row.workings for row in new.energy.rows]


@given(st.lists(st.sampled_from([*CHANGES.values()]), min_size=1, max_size=4, unique=True))
def test_studies_in_a_chain_are_those_of_each_rig(edits: list[Any]) -> None:
    rig, done = VAN, study(VAN)
    for one in edits:
        rig = changed(rig, one)
        done = study(rig, done)
    assert done == study(rig)


def test_energy_is_taken_over_only_where_nothing_but_wiring_changed():
    done = study(VAN)
    for field, one in CHANGES.items():
        assert (study(changed(VAN, one), done).energy is done.energy) == (field in WIRING_ONLY), field


def test_what_only_the_wiring_reads_are_fields_of_a_rig():
    assert set(Rig.model_fields) > WIRING_ONLY
