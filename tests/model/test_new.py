"""A new rig is valid, can be studied, and says which of its figures are only a start."""

from __future__ import annotations

import pytest

from rigcalc.errors import InputError
from rigcalc.model import read_rig, write_rig
from rigcalc.model.edit import changed
from rigcalc.model.new import NOTE, at_voltage, new_rig, starting_figures
from rigcalc.rules import findings
from rigcalc.study import study
from rigcalc.tables.battery import battery_figure, chemistries
from rigcalc.tables.rule_sets import RULE_SETS


@pytest.mark.parametrize("rule_set_id", RULE_SETS)
@pytest.mark.parametrize("system_v", [12, 24, 48])
def test_every_kind_of_new_rig_is_valid_and_can_be_studied(rule_set_id, system_v):
    for row in chemistries():
        rig = new_rig("New", rule_set_id, system_v, row.id)
        assert read_rig(write_rig(rig)) == rig
        result = study(rig)
        assert (result.energy.daily_energy_wh, result.autonomy.autonomy_d) == (0.0, None)
        assert not [one for one in findings(result) if one.rule.startswith(("L", "B")) and one.stops]


def test_without_a_word_it_is_a_north_american_vehicle():
    rig = new_rig()
    assert (rig.rule_set, rig.units, rig.system_v, rig.loads) == ("na_vehicle", "us", 12, ())
    assert [(run.id, run.from_id, run.to_id) for run in rig.runs] == [("W1", "bank", "X1")]
    assert [(one.id, one.run_id, one.rating_a) for one in rig.devices] == [("F1", "W1", None)]
    assert rig.note == NOTE
    assert "starting figures" in NOTE


@pytest.mark.parametrize(
    ("rule_set_id", "units"),
    [("us_boat", "us"), ("na_cabin", "us"), ("iec_cabin", "metric"), ("strictest_of_all", "metric")],
)
def test_units_follow_the_country_unless_said(rule_set_id, units):
    assert new_rig(rule_set_id=rule_set_id).units == units
    assert new_rig(rule_set_id=rule_set_id, units="metric").units == "metric"


@pytest.mark.parametrize("chemistry_id", [row.id for row in chemistries()])
def test_each_starting_figure_of_the_bank_carries_its_source_and_is_the_banks(chemistry_id):
    bank = new_rig(system_v=24, chemistry_id=chemistry_id).bank
    for one in starting_figures(chemistry_id, 24):
        assert getattr(bank, one.field) == one.value
        assert one.source
        assert one.status in ("secondary", "memory")


def test_figures_of_the_tables_are_used_as_they_stand():
    of = {one.field: one for one in starting_figures("lifepo4", 24)}
    read = battery_figure("lifepo4", "charge_v_per_12v_unit")
    assert (of["highest_charge_v"].value, of["highest_charge_v"].source) == (2 * read.value, read.source)
    assert "standing in for lifepo4" in of["end_of_life_fraction"].locator
    assert of["lowest_working_v"].value == pytest.approx(24.0)  # 3.0 V a cell: common practice, no source


def test_bad_figures_are_refused():
    with pytest.raises(InputError, match="unit_capacity_ah"):
        new_rig(capacity_ah=0)
    with pytest.raises(InputError, match="System voltage is 36; expected 12, 24 or 48 V"):
        starting_figures("agm", 36)


def test_another_voltage_takes_more_units_in_series():
    rig = new_rig(system_v=12)
    after = changed(rig, *at_voltage(rig, 24))
    assert (after.system_v, after.bank.series, after.bank.nominal_v) == (24, 2, pytest.approx(25.6))
    assert (after.bank.lowest_working_v, after.bank.highest_charge_v) == (24.0, pytest.approx(28.8))
    assert changed(after, *at_voltage(after, 12)).bank == rig.bank


def test_another_voltage_that_the_units_cannot_make_is_refused():
    rig = new_rig(system_v=48)
    one_unit = changed(rig, *at_voltage(rig, 48)).model_copy(
        update={"bank": rig.bank.model_copy(update={"cells_per_unit": 16, "series": 1})}
    )
    with pytest.raises(InputError, match=r"with battery units of 51.2 V'; expected a voltage that whole units"):
        at_voltage(one_unit, 12)
