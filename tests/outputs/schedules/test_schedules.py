"""Schedules hold what the rig and its study hold, each part once, in the person's units and order."""

from __future__ import annotations

from collections import Counter

import pytest

from rigcalc.errors import InputError
from rigcalc.model import rig_from_data
from rigcalc.outputs.schedules import SCHEDULES, schedule
from rigcalc.outputs.schedules.budget import energy_balance, energy_budget
from rigcalc.outputs.schedules.fuses import fuse_schedule
from rigcalc.outputs.schedules.labels import panel_legend, wire_labels
from rigcalc.outputs.schedules.loads import load_sheet, load_sums
from rigcalc.outputs.schedules.lookup import always_live
from rigcalc.outputs.schedules.parts import parts_list
from rigcalc.outputs.schedules.wires import wire_schedule
from tests.outputs.schedules.examples import NAMES, example, of
from tests.rigs import example_data, small_data

ALL = pytest.mark.parametrize("name", NAMES)


def numbers(table, head: str) -> list[float]:
    """The numbers of a column that may also hold words."""
    return [value for value in table[head].tolist() if isinstance(value, int | float)]


@ALL
def test_every_schedule_is_made_in_both_systems_of_units(name):
    for one in SCHEDULES.values():
        metric, us = one.function(example(name), "metric"), one.function(example(name), "us")
        assert len(metric) == len(us) > 0 or one.id == "panel_legend"
        assert len(set(metric.columns)) == len(metric.columns) == len(us.columns)


@ALL
def test_each_run_and_device_and_load_appears_once(name):
    one = example(name)
    assert Counter(wire_schedule(one)["Wire"]) == Counter(run.id for run in one.rig.runs)
    assert Counter(fuse_schedule(one)["Device"]) == Counter(device.id for device in one.rig.devices)
    assert Counter(load_sheet(one)["Load"]) == Counter(load.id for load in one.rig.loads)


@ALL
def test_energies_sum_to_the_study(name):
    one = example(name)
    budget = energy_budget(one)
    day_wh = one.energy.daily_energy_wh
    assert budget["At the battery [Wh]"].sum() == pytest.approx(day_wh)
    assert budget["Share [%]"].sum() == pytest.approx(100)
    for day, total_wh in one.energy.by_day_type.items():
        head = next(head for head in budget.columns if f"({day})" in head)
        assert budget[head].sum() == pytest.approx(total_wh)
    idle_wh = sum(inverter.idle_wh for inverter in one.energy.inverters)
    assert sum(numbers(load_sheet(one), "At the battery, a day [Wh]")) + idle_wh == pytest.approx(day_wh)
    assert max(energy_balance(one)["Out, at the battery [Wh]"]) == pytest.approx(day_wh)


@ALL
def test_shares_make_up_the_whole_and_the_guessed_share_is_the_study_s(name):
    one = example(name)
    lines = load_sums(one).set_index("What")["Value"]
    assert sum(lines[what] for what in lines.index if what.startswith(("Known by", "Inverters"))) == pytest.approx(100)
    assert lines["Known by: guess"] + lines["Known by: not stated"] == pytest.approx(100 * one.energy.guess_share)


@ALL
def test_parts_have_every_device_and_cable(name):
    one = example(name)
    parts = parts_list(one)
    devices = parts[(parts["Group"] == "Protection") & (parts["Used as"] != "")]
    assert Counter(", ".join(devices["Used as"]).split(", ")) == Counter(device.id for device in one.rig.devices)
    assert sum(devices["Quantity"]) == len(one.rig.devices)
    labels = wire_labels(one)
    assert sum(parts[parts["What it must be"].str.startswith("Lug")]["Quantity"]) == len(labels)


@ALL
def test_both_ends_of_a_conductor_carry_the_same_number(name):
    labels = wire_labels(example(name))
    assert set(Counter(labels["Label"]).values()) == {2}
    for _, pair in labels.groupby("Label"):
        assert list(pair["End"]) == ["A", "B"]
        assert list(pair["Fitted at"]) == list(reversed(pair["Leads to"].tolist()))


@ALL
def test_the_legend_has_a_row_for_each_way_of_a_panel(name):
    rig = example(name).rig
    panels = {one.id for one in rig.buses} | {one.id for one in rig.blocks}
    assert Counter(panel_legend(example(name))["Wire"]) == Counter(r.id for r in rig.runs if r.from_id in panels)


def test_feet_and_fahrenheit_where_asked_and_sizes_stay_names():
    metric, us = (wire_schedule(example("weaving-studio"), units) for units in ("metric", "us"))
    assert list(us["Length out [ft]"]) == pytest.approx([m / 0.3048 for m in metric["Length out [m]"]])  # exact foot
    for c, f in zip(metric["Insulation [°C]"], us["Insulation [°F]"], strict=True):
        assert f == c or f == pytest.approx(c * 9 / 5 + 32)
    assert list(us["Size out"]) == list(metric["Size out"])
    assert list(us["Design current [A]"]) == list(metric["Design current [A]"])


def test_the_rig_s_own_units_count_where_none_are_asked_for():
    assert "Length out [ft]" in wire_schedule(example("canal-workboat"))
    assert "Length out [m]" in wire_schedule(example("weaving-studio"))


def test_orders():
    one = example("book-van")
    assert list(wire_schedule(one)["Wire"])[:3] == ["W1", "W2", "W3"]
    for order, head in (("route", "Route"), ("panel", "From"), ("reel", "Size out")):
        column = wire_schedule(one, order=order)[head].tolist()
        assert len([at for at in range(1, len(column)) if column[at] != column[at - 1]]) == len(set(column)) - 1
    energy = numbers(load_sheet(one, order="energy"), "At the battery, a day [Wh]")
    assert energy == sorted(energy, reverse=True)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda one: wire_schedule(one, order="colour"), "Order is 'colour'; expected one of number, route"),
        (lambda one: wire_schedule(one, units="imperial"), "Units is 'imperial'; expected metric or us"),
        (lambda one: schedule("wires"), "Schedule is 'wires'; expected one of load_sheet"),
    ],
)
def test_what_is_not_offered_is_refused(call, message):
    with pytest.raises(InputError, match=message):
        call(example("starter"))


def test_what_nobody_stated_reads_so_and_hand_written_cells_are_empty():
    data = small_data()
    del data["runs"][1]["insulation_c"], data["devices"][1]["distance_m"], data["loads"][0]["provenance"]
    one = of(data)
    wire, fuse = (table.set_index(table.columns[0]) for table in (wire_schedule(one), fuse_schedule(one)))
    assert wire.loc["W2", "Insulation [°C]"] == "not stated"
    assert fuse.loc["F2", "Distance from source [m]"] == "not stated"
    assert load_sheet(one)["Known by"].tolist() == ["not stated"]
    assert wire["Colour"].isna().all()
    assert fuse["Position"].isna().all()


def test_a_load_without_a_power_is_not_known_and_not_zero():
    data = small_data()
    del data["loads"][0]["power_w"], data["runs"][1]["conductor"]
    one = of(data)
    assert load_sheet(one)["At the battery, a day [Wh]"].tolist() == ["not known"]
    wire = wire_schedule(one).set_index("Wire")
    assert wire.loc["W2", "Design current [A]"] == "not known"
    assert wire.loc["W2", "Size out"] == "not chosen"
    assert "not stated: power of lamp" in wire.loc["W2", "Remarks"]


def test_a_cable_that_can_mean_two_sizes_says_so():
    data = small_data()
    data["runs"][1]["conductor"] = "6"
    assert "6 AWG (13.3 mm²) or 6 mm²" in wire_schedule(of(data)).set_index("Wire").loc["W2", "Remarks"]


def test_a_conductor_that_fails_says_what_it_fails():
    data = small_data()
    data["loads"][0]["power_w"] = 1000.0
    assert "carries less than its current" in wire_schedule(of(data)).set_index("Wire").loc["W2", "Remarks"]


def test_what_the_main_switch_leaves_live_is_said():
    data = small_data() | {"main_switch_run": "W2"}
    data["loads"].append(data["loads"][0] | {"id": "lamp2", "name": "Second lamp"})
    data["runs"].append(data["runs"][1] | {"id": "W3", "to_id": "lamp2"})
    one = of(data)
    assert always_live(one.rig) == {"W1", "W3"}
    remarks = wire_schedule(one).set_index("Wire")["Remarks"]
    assert ["always live" in remarks[wire] for wire in ("W1", "W2", "W3")] == [True, False, True]
    assert always_live(rig_from_data(small_data())) is None


def test_a_fuse_behind_a_converter_sees_the_converter_s_voltage():
    fuses = fuse_schedule(example("canal-workboat")).set_index("Device")["Highest voltage of its source [V]"]
    assert fuses["F17"] == 12.5
    assert fuses["F1"] == 29.4


def test_ratings_from_memory_are_marked():
    one = example("canal-workboat")
    fuses = fuse_schedule(one).set_index("Device")
    recalled = [c.circuit_id for c in one.network.circuits if c.rating_status.startswith("memory")]
    assert recalled
    assert all("from memory" in fuses.loc[device, "Remarks"] for device in recalled)


def test_a_longer_run_changes_wires_and_cuts_alike():
    data = example_data("starter")
    run = data["runs"][-1]
    run["length_out_m"] += 1.0
    run.pop("typed", None)
    tables = {}
    for key, one in (("before", example("starter")), ("after", of(data))):
        wires = wire_schedule(one, "metric").set_index("Wire")["Length to cut out [m]"]
        cuts = SCHEDULES["cut_list"].function(one, "metric").set_index("Wire")["Length to cut [m]"]
        tables[key] = (wires[run["id"]], cuts[f"{run['id']} L+"])
    assert [a - b for a, b in zip(tables["after"], tables["before"], strict=True)] == pytest.approx([1.0, 1.0])


def test_a_rule_set_without_a_read_table_leaves_sizes_open():
    data = small_data() | {"rule_set": "eu_small_craft"}
    for run in data["runs"]:
        del run["conductor"]
    wire = wire_schedule(of(data)).set_index("Wire")
    assert set(wire["Size out"]) == {"not chosen"}
    assert set(wire["Corrected ampacity [A]"]) == set(wire["Voltage at its end, battery lowest [V]"]) == {"not known"}
    assert wire["Remarks"].str.contains("no size passes").all()
    assert SCHEDULES["reel_plan"].function(of(data))["Remarks"].tolist() == ["no size was chosen; do not buy yet"]


def test_a_device_in_the_return_is_listed_and_said_to_protect_nothing():
    data = small_data()
    data["devices"].append({"id": "F3", "run_id": "W2", "conductor": "negative"})
    row = fuse_schedule(of(data)).set_index("Device").loc["F3"]
    assert (row["Rating [A]"], row["Remarks"]) == ("not stated", "in the return conductor it protects nothing")


def test_a_rig_without_wiring_has_its_schedules_all_the_same():
    data = small_data() | {"loads": [], "runs": [], "devices": [], "blocks": []}
    for one in SCHEDULES.values():
        assert list(one.function(of(data)).columns)
    assert wire_schedule(of(data)).empty
