"""Commissioning, maintenance and battery card: what is predicted is the study's, what is measured stays empty."""

from __future__ import annotations

import pytest

from rigcalc import CAUTION
from rigcalc.outputs.schedules.battery import battery_card
from rigcalc.outputs.schedules.commissioning import commissioning_drops, commissioning_steps
from rigcalc.outputs.schedules.maintenance import maintenance
from tests.outputs.schedules.examples import NAMES, example, of
from tests.rigs import small_data

MEASURED = ("Measured current [A]", "Measured at the source [V]", "Measured, positive side [V]")


@pytest.mark.parametrize("name", NAMES)
def test_both_sides_make_the_study_s_drop_and_measured_cells_are_empty(name):
    one = example(name)
    table = commissioning_drops(one).set_index("Wire")
    assert set(table.index) == {run.id for run in one.rig.runs}
    for run in one.network.runs:
        row = table.loc[run.run_id]
        positive_v, negative_v = row["Predicted, positive side [V]"], row["Predicted, negative side [V]"]
        assert positive_v + negative_v == pytest.approx(run.choice.drop_v)
        assert row["Both, 20 % less [V]"] == pytest.approx(0.8 * run.choice.drop_v)
        assert row["Both, 20 % more [V]"] == pytest.approx(1.2 * run.choice.drop_v)
    assert table[list(MEASURED)].isna().all(axis=None)


def test_sides_share_the_drop_by_their_lengths_and_a_thicker_return_drops_less():
    data = small_data()
    data["runs"][1] |= {"length_out_m": 3.0, "length_back_m": 1.0}
    row = commissioning_drops(of(data)).set_index("Wire").loc["W2"]
    assert row["Predicted, positive side [V]"] == pytest.approx(3 * row["Predicted, negative side [V]"])
    data["runs"][1] |= {"length_back_m": 3.0, "return_conductor": "10 AWG"}
    row = commissioning_drops(of(data)).set_index("Wire").loc["W2"]
    ratio = row["Predicted, positive side [V]"] / row["Predicted, negative side [V]"]
    # NFPA 70 chapter 9 table 8, stranded uncoated, 75 °C: 14 AWG 3.14, 10 AWG 1.24 Ω/kFT (from memory)
    assert ratio == pytest.approx(3.14 / 1.24, rel=0.01)  # both figures are printed to three digits


def test_a_chassis_drops_by_its_own_resistance():
    row = commissioning_drops(example("book-van")).set_index("Wire").loc["W9"]
    run = next(run for run in example("book-van").rig.runs if run.id == "W9")
    back_v = row["Predicted, negative side [V]"]
    assert run.chassis_resistance_ohm
    assert back_v == pytest.approx(row["At a current of [A]"] * run.chassis_resistance_ohm)


def test_a_chassis_without_a_resistance_is_said():
    data = small_data()
    data["runs"][1] |= {"return_path": "chassis", "length_back_m": None}
    row = commissioning_drops(of(data)).set_index("Wire").loc["W2"]
    assert row["Predicted, negative side [V]"] == pytest.approx(0)
    assert row["Remarks"] == "resistance of the chassis not stated: counted as none"


def test_a_run_whose_current_is_not_known_has_no_prediction():
    data = small_data()
    del data["loads"][0]["power_w"]
    table = commissioning_drops(of(data)).set_index("Wire")
    assert table.loc["W2", "Predicted, both [V]"] == "not known"


def test_steps_come_in_order_and_are_empty():
    table = commissioning_steps(example("starter"))
    stages = [int(text.split()[0]) for text in table["Stage"]]
    assert stages == sorted(stages)
    assert set(stages) == set(range(1, 13))
    assert table["Reading"].isna().all()


def test_maintenance_looks_at_the_three_runs_that_drop_most():
    one = example("weaving-studio")
    table = maintenance(one)
    drops = table[table["What"].str.startswith("Drop of")]["Predicted"].tolist()
    every = sorted((run.choice.drop_v for run in one.network.runs), reverse=True)
    assert drops == pytest.approx(every[:3])
    assert table["First reading"].isna().all()


@pytest.mark.parametrize(("name", "asked"), [("canal-workboat", True), ("starter", False)])
def test_only_flooded_cells_are_topped_up(name, asked):
    assert (example(name).rig.bank.chemistry == "flooded") == asked
    assert any("Electrolyte" in text for text in maintenance(example(name))["What"]) == asked


def test_the_card_holds_the_links_and_the_cautions():
    table = battery_card(example("canal-workboat"))
    lines = table.set_index("What")["Value"]
    assert lines["Links"] == "2 in series, 2 strings in parallel"
    assert lines["Rated capacity of the bank"] == 370
    assert lines["Cell temperature designed for"] == 50  # typed as 50 F
    assert lines["Caution"] == CAUTION
    sources = table[table["What"].str.startswith("Caution,")]["Source or note"]
    assert sources.str.len().min() > 0
