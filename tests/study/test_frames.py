"""Schedules as DataFrames."""

from __future__ import annotations

import subprocess
import sys

import pytest

from rigcalc.study import frames, study
from tests.study.load_rigs import FED, load, rig_of, unstated

DAYS = [{"id": "camp", "name": "Camp"}, {"id": "drive", "name": "Drive"}]


def test_budget_sums_to_the_day_in_every_column():
    one = study(rig_of(load(), load("ac", feed="inverter", fed_by="inv"), day_types=DAYS, **FED))
    table = frames.budget(one)
    assert table["battery_wh"].sum() == pytest.approx(one.energy.daily_energy_wh)
    assert table["share"].sum() == pytest.approx(1)
    for day, total_wh in one.energy.by_day_type.items():
        assert table[f"{day}_wh"].sum() == pytest.approx(total_wh)
    assert list(table["battery_wh"]) == sorted(table["battery_wh"], reverse=True)


def test_inventory_keeps_a_cold_box_in_its_own_room_and_names_what_is_missing():
    box = load("box", cold_box={"inside_c": 4.0}, duty_ambient_c=32.0)
    table = frames.inventory(rig_of(box, unstated("lamp", power_w=5.0, quantity=3))).set_index("id")
    assert table.loc["box", "day_wh"] == pytest.approx(500)
    assert table.loc["box", "notes"] == ""
    assert table.loc["lamp", "not stated"] == "hours of use"
    assert table.loc["lamp", "power_w"] == pytest.approx(5)


def test_autonomy_holds_the_days():
    one = study(rig_of(load()))
    table = frames.autonomy(one).set_index("what")
    assert table.loc["Autonomy", "value"] == pytest.approx(one.autonomy.autonomy_d)
    assert set(table["unit"]) == {"Wh", "Ah", "-", "Wh/d", "d", "A"}


def test_an_empty_rig_has_empty_tables():
    assert frames.inventory(rig_of()).empty
    assert frames.budget(study(rig_of())).empty


def test_importing_the_study_loads_no_tables_library():
    code = "import sys, rigcalc.study.frames; print(sorted({'pandas', 'numpy', 'pint'} & set(sys.modules)))"
    answer = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert answer.stdout.strip() == "[]"
