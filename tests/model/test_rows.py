"""Adding, copying, moving and taking out parts. Invented figures."""

from __future__ import annotations

import pytest

from rigcalc.errors import InputError
from rigcalc.model import Rig
from rigcalc.model.edit import Change, changed
from rigcalc.model.rows import copied, cut_off, day_type_out, free_id, in_order, load_out, moved
from tests.rigs import small, small_data


def three() -> Rig:
    """The small rig with three loads, the second typed in kilowatts and read on a meter."""
    loads = [
        *small_data()["loads"],
        {"id": "kettle", "name": "Kettle", "power_w": 900.0, "typed": {"power_w": "0.9 kW"}},
        {"id": "fan", "name": "Fan", "reading": {"energy_wh": 90.0, "over_h": 24.0, "at": "at_battery"}},
    ]
    return small(loads=loads)


def _ids(rig: Rig) -> list[str]:
    return [load.id for load in rig.loads]


@pytest.mark.parametrize(
    ("wish", "made"),
    [
        ("Rear lamp", "rear-lamp"),
        ("Lamp", "lamp-2"),
        ("Kühlbox 40 l", "kuhlbox-40-l"),
        ("冷蔵庫", "part"),
        ("bank", "bank-2"),
        ("-- ", "part"),
        ("a" * 90, "a" * 28),
    ],
)
def test_an_id_is_made_of_a_name_and_used_once(wish, made):
    assert free_id(small(), wish) == made


def test_an_id_also_avoids_those_about_to_be_used():
    assert free_id(small(), "Fan", ["fan", "fan-2"]) == "fan-3"


@pytest.mark.parametrize(
    ("part_id", "step", "order"),
    [
        ("fan", -1, ["lamp", "fan", "kettle"]),
        ("lamp", 1, ["kettle", "lamp", "fan"]),
        ("lamp", -1, ["lamp", "kettle", "fan"]),
        ("fan", 1, ["lamp", "kettle", "fan"]),
    ],
)
def test_move_keeps_everything_about_every_part(part_id, step, order):
    rig = three()
    after = changed(rig, *moved(rig, "loads", part_id, step))
    assert _ids(after) == order
    assert {load.id: load for load in after.loads} == {load.id: load for load in rig.loads}
    assert (after.runs, after.devices) == (rig.runs, rig.devices)


def test_copy_stands_below_its_original_and_hangs_on_no_run():
    rig = three()
    copy_id, changes = copied(rig, "loads", "kettle")
    after = changed(rig, *changes)
    assert _ids(after) == ["lamp", "kettle", "kettle-2", "fan"]
    copy = after.loads[2]
    assert (copy_id, copy.name, copy.power_w, copy.typed) == ("kettle-2", "Kettle (copy)", 900.0, {"power_w": "0.9 kW"})
    assert "kettle-2" not in {run.to_id for run in after.runs}


def test_copy_of_the_longest_name_is_still_a_name():
    rig = small(loads=[{**small_data()["loads"][0], "name": "N" * 80}])
    after = changed(rig, *copied(rig, "loads", "lamp")[1])
    assert len(after.loads[1].name) == 80


def test_order_takes_new_parts_in():
    rig = three()
    new = Change("loads", "tap", (("name", "Tap"),), new=True)
    after = changed(rig, *in_order(rig, "loads", ["lamp", "tap", "kettle", "fan"], [new]))
    assert _ids(after) == ["lamp", "tap", "kettle", "fan"]


@pytest.mark.parametrize("ids", [["lamp"], ["lamp", "kettle", "fan", "fan"], ["lamp", "kettle", "tap"]])
def test_order_must_hold_each_part_once(ids):
    with pytest.raises(InputError, match="each part once"):
        in_order(three(), "loads", ids)


@pytest.mark.parametrize("act", [moved, copied])
def test_a_part_that_is_not_there_is_named(act):
    with pytest.raises(InputError, match="Id in loads is 'tap'"):
        act(three(), "loads", "tap", *((1,) if act is moved else ()))


def test_a_load_goes_with_its_run_its_device_and_the_switch_in_it():
    rig = small(main_switch_run="W2")
    out = load_out(rig, "lamp")
    after = changed(rig, *out.changes)
    assert (_ids(after), [run.id for run in after.runs], [one.id for one in after.devices]) == ([], ["W1"], ["F1"])
    assert after.main_switch_run is None
    assert out.also == ("run W2", "device F2", "the place of the main switch")


def test_a_load_on_no_run_goes_alone():
    rig = three()
    out = load_out(rig, "fan")
    assert (out.also, _ids(changed(rig, *out.changes))) == ((), ["lamp", "kettle"])


def test_cut_off_leaves_the_load():
    rig = small()
    after = changed(rig, *cut_off(rig, "lamp").changes)
    assert (_ids(after), len(after.runs), len(after.devices)) == (["lamp"], 1, 1)


def test_a_type_of_day_goes_with_the_hours_stated_for_it():
    days = [{"id": "camp", "name": "Camp"}, {"id": "drive", "name": "Drive"}]
    uses = [{"day_type": "camp", "daily_use_h": 3.0}, {"day_type": "drive", "daily_use_h": 1.0}]
    lamp = {**small_data()["loads"][0], "day_use": uses}
    rig = small(day_types=days, loads=[lamp])
    out = day_type_out(rig, "camp")
    after = changed(rig, *out.changes)
    assert [one.id for one in after.day_types] == ["drive"]
    assert [use.day_type for use in after.loads[0].day_use] == ["drive"]
    assert out.also == ("its hours of Lamp",)
    last = changed(after, *day_type_out(after, "drive").changes)
    assert (last.day_types, last.loads[0].day_use) == ((), ())
