"""Every table of the package: its provenance, its order, and what is withheld when only read figures are asked for."""

from __future__ import annotations

from importlib.resources import files
from itertools import pairwise, product

import pytest

from rigcalc.errors import InputError
from rigcalc.tables import (
    STATUSES,
    Row,
    ampacity,
    battery,
    cautions,
    colours,
    conductors,
    design_rules,
    load,
    overcurrent,
    rule_sets,
)
from rigcalc.tables import voltage_drop as drop

ROW_TYPES: dict[str, type[Row]] = {
    **dict.fromkeys(ampacity.AMPACITY_TABLES, ampacity.AmpacityRow),
    "adiabatic_k": conductors.AdiabaticK,
    "ambient_factors_nec": ampacity.AmbientFactor,
    "battery_aic": overcurrent.BatteryAic,
    "battery_figures": battery.BatteryFigure,
    "bundling_factors": ampacity.BundlingFactor,
    "cautions": cautions.Caution,
    "wire_colours": colours.WireColour,
    "chemistries": battery.Chemistry,
    "coldbox_assumptions": battery.ColdboxAssumption,
    "conductor_sizes": conductors.ConductorSize,
    "copper_constants": conductors.CopperConstant,
    "design_limits": design_rules.DesignLimit,
    "design_rules": design_rules.DesignRule,
    "device_classes": overcurrent.DeviceClass,
    "device_interrupting": overcurrent.Interrupting,
    "device_limits": overcurrent.DeviceLimit,
    "device_ratings": overcurrent.Rating,
    "engine_space_factors": ampacity.EngineSpaceFactor,
    "fuse_temperature_rerating": overcurrent.Rerating,
    "lead_ocv": battery.LeadOcv,
    "lead_temperature": battery.LeadTemperature,
    "lithium_ocv": battery.LithiumOcv,
    "lithium_temperature": battery.LithiumTemperature,
    "min_circular_mils": conductors.MinCircularMils,
    "min_conductor_sizes": conductors.MinConductorSize,
    "ocp_distances": overcurrent.OcpDistance,
    "rule_clauses": rule_sets.Clause,
    "small_conductor_limits": overcurrent.SmallConductorLimit,
    "spread_by_provenance": battery.ProvenanceSpread,
    "time_current_gates": overcurrent.Gate,
    "voltage_drop_limits": drop.VoltageDropLimit,
}
INSULATION_C = (60, 70, 75, 80, 85, 90, 105, 125, 200)
CLASS_IDS = [row.id for row in overcurrent.device_classes()]
SIZES = [row.name for series in conductors.SERIES for row in conductors.conductor_sizes(series)]


def test_every_file_has_a_row_class():
    names = {path.name.removesuffix(".csv") for path in (files("rigcalc.tables") / "data").iterdir()}
    assert names == set(ROW_TYPES)


@pytest.mark.parametrize("name", ROW_TYPES)
def test_every_row_says_where_it_comes_from_and_how_it_is_known(name):
    for row in load(name, ROW_TYPES[name]):
        assert row.status in STATUSES
        assert row.source.strip()
        assert row.locator.strip()
        assert row.KEY


@pytest.mark.parametrize("name", ROW_TYPES)
def test_common_practice_without_a_source_counts_as_memory(name):
    assert all(row.from_memory for row in load(name, ROW_TYPES[name]) if "no source" in row.source)


@pytest.mark.parametrize("table", ampacity.AMPACITY_TABLES)
def test_ampacity_rises_with_size_and_never_falls_with_insulation(table):
    rows = load(table, ampacity.AmpacityRow)
    by_cell = {(row.installation, row.insulation_c, conductors.conductor(row.size).area_mm2): row for row in rows}
    for (one, before), (two, after) in pairwise(sorted(by_cell.items())):
        if one[:2] == two[:2]:
            assert before.ampacity_a < after.ampacity_a
    for row, other in product(rows, rows):
        if (row.size, row.installation) == (other.size, other.installation) and row.insulation_c < other.insulation_c:
            assert row.ampacity_a <= other.ampacity_a


@pytest.mark.parametrize("series", conductors.SERIES)
def test_resistance_falls_and_area_rises_with_size(series):
    sizes = conductors.conductor_sizes(series)
    assert [size.order for size in sizes] == list(range(1, len(sizes) + 1))
    for smaller, larger in pairwise(sizes):
        assert smaller.area_mm2 < larger.area_mm2
        assert smaller.resistance_ohm_per_km > larger.resistance_ohm_per_km


def test_read_floors_lie_below_the_nominal_areas_and_below_the_recalled_minimum():
    for size in conductors.conductor_sizes("AWG"):
        floor, sae = size.circular_mils_read_floor, conductors.min_circular_mils(size.name, "sae")
        assert (floor is None) == (size.name in {"3 AWG", "3/0 AWG", "4/0 AWG"})
        if floor and sae:
            assert floor <= sae.circular_mils < size.circular_mils
            assert sae.from_memory


def test_metric_sizes_have_no_circular_mils():
    assert {size.circular_mils for size in conductors.conductor_sizes("mm2")} == {None}


def test_nothing_from_memory_comes_from_a_look_up_of_read_figures():
    cells = product(ampacity.AMPACITY_TABLES, SIZES, INSULATION_C, ampacity.INSTALLATIONS)
    found: list[Row | None] = [ampacity.ampacity_a(*cell) for cell in cells]
    found += [ampacity.ambient_factor_nec(ambient_c, c) for ambient_c, c in product(range(-20, 100, 5), INSULATION_C)]
    found += [ampacity.bundling_factor(how, count) for how, count in product(ampacity.BUNDLING_METHODS, range(1, 60))]
    found += [overcurrent.interrupting(name, v, True) for name, v in product(CLASS_IDS, (12, 14.6, 28, 58, 120))]
    found += [row for name in CLASS_IDS for row in overcurrent.ratings(name, read_only=True)]
    found += [row for name, a in product(CLASS_IDS, (5, 10, 40, 300)) for row in overcurrent.gates(name, a, True)]
    found += [overcurrent.battery_aic(v, cca) for v, cca in product((12, 24, 32, 48), (500, 900, 2000, 5000))]
    found += [overcurrent.small_conductor_limit(n, r) for n, r in product(SIZES, ("240.4(D)", "552.10(E)(1)"))]
    found += [rules.drop_limit(use) for rules, use in product(rule_sets.RULE_SETS.values(), drop.USES)]
    rows = [row for row in found if row]
    assert not [row for row in rows if row.from_memory]
    assert {type(row).__name__ for row in rows} >= {"AmpacityRow", "Interrupting", "Rating", "Gate", "BatteryAic"}


@pytest.mark.parametrize(
    ("table", "size_name", "insulation_c", "recalled_a"),
    [("ampacity_nec_310_16", "16 AWG", 90, 18), ("ampacity_iso_annex_a", "6 mm2", 90, 50)],
)
def test_a_figure_from_memory_is_given_only_when_asked_for(table, size_name, insulation_c, recalled_a):
    assert ampacity.ampacity_a(table, size_name, insulation_c) is None
    row = ampacity.ampacity_a(table, size_name, insulation_c, read_only=False)
    assert row
    assert (row.ampacity_a, row.from_memory) == (recalled_a, True)


def test_the_highest_insulation_column_not_above_is_taken():
    def column(insulation_c: float) -> float | None:
        row = ampacity.ampacity_a("ampacity_33cfr183425", "10 AWG", insulation_c)
        return row.insulation_c if row else None

    assert [column(c) for c in (59.9, 60, 74, 104, 105, 300)] == [None, 60, 60, 90, 105, 200]


def test_an_ambient_takes_the_row_that_holds_it_and_an_unprinted_one_none():
    def factor(ambient_c: float, insulation_c: float) -> float | None:
        row = ampacity.ambient_factor_nec(ambient_c, insulation_c)
        return row.factor if row else None

    assert [factor(t, 75) for t in (-20, 10, 10.1, 30, 30.5, 60)] == [1.2, 1.2, 1.15, 1, 0.94, 0.58]
    assert [factor(56, 60), factor(61, 75), factor(90, 90), factor(30, 50)] == [None] * 4


def test_bundling_counts_fall_into_one_row_each():
    for method in ("cfr_abyc", "nec"):
        factors = [ampacity.bundling_factor(method, count) for count in range(1, 60)]
        assert all(factors)
        assert [row.factor for row in factors if row] == sorted((row.factor for row in factors if row), reverse=True)
    assert ampacity.bundling_factor("bs_4c1", 7, read_only=False) is None


def test_interrupting_rating_falls_with_voltage_and_ends_with_the_class():
    def interrupts(class_id: str, voltage_v: float) -> float | None:
        row = overcurrent.interrupting(class_id, voltage_v)
        return row.interrupting_a if row else None

    assert [interrupts("stud_block", v) for v in (14, 14.1, 32, 58, 58.1)] == [10000, 5000, 5000, 2000, None]
    assert interrupts("breaker", 12) is None


@pytest.mark.parametrize("class_id", CLASS_IDS)
def test_ratings_rise_and_stay_within_the_holder(class_id):
    sizes = [row.rating_a for row in overcurrent.ratings(class_id)]
    limit_a = overcurrent.device_class(class_id).holder_limit_a
    assert sizes == sorted(set(sizes))
    assert limit_a is None or max(sizes) <= limit_a


@pytest.mark.parametrize(
    ("class_id", "rating_a"), [("blade", 10), ("blade", 30), ("high_current_blade", 60), ("bolted_strip", 200)]
)
def test_gates_open_sooner_at_higher_current(class_id, rating_a):
    rows = overcurrent.gates(class_id, rating_a)
    assert [row.pct_of_rating for row in rows] == sorted({row.pct_of_rating for row in rows})
    for ends in ([row.t_min_s for row in rows if row.t_min_s], [row.t_max_s for row in rows if row.t_max_s]):
        assert len(ends) >= 4
        assert ends == sorted(ends, reverse=True)
    assert all(row.t_min_s < row.t_max_s for row in rows if row.t_min_s and row.t_max_s)


def test_blade_gates_hold_for_both_types_the_class_covers():
    both = {row.pct_of_rating: row for row in overcurrent.gates("blade", 20)}
    for row in load("time_current_gates", overcurrent.Gate):
        if row.family == "type_f" and row.t_min_s and row.t_max_s:
            wider = both[row.pct_of_rating]
            assert (wider.t_min_s or 0) <= row.t_min_s
            assert (wider.t_max_s or 0) >= row.t_max_s


def test_a_read_gate_is_preferred_and_a_class_without_gates_has_none():
    at_160 = {
        rating_a: gate
        for rating_a in (10, 15)
        for gate in overcurrent.gates("blade", rating_a)
        if gate.pct_of_rating == 160
    }
    assert (at_160[10].from_memory, at_160[15].from_memory) == (False, True)
    assert [overcurrent.gates(name, 100) for name in ("stud_block", "current_limiting", "breaker")] == [()] * 3
    assert overcurrent.gates("high_current_blade", 15) == ()


def test_battery_curves_run_one_way():
    lead = battery.lead_temperature()
    assert [row.temperature_c for row in lead] == sorted(row.temperature_c for row in lead)
    assert [row.size_factor for row in lead] == sorted((row.size_factor for row in lead), reverse=True)
    assert all(row.temperature_c == pytest.approx((row.temperature_f - 32) / 1.8, abs=5e-7) for row in lead)
    shares = [row.fraction for row in battery.lithium_temperature()]
    volts = [[row.cell_v for row in battery.lithium_ocv()]]
    volts += [[row.voltage_12v for row in battery.lead_ocv(kind)] for kind in ("flooded", "gel", "lower_reading")]
    for curve in (shares, *volts):
        assert all(low < high for low, high in pairwise(curve))


def test_a_chemistry_falls_back_on_its_family():
    own, family = battery.battery_figure("agm", "peukert_exponent"), battery.battery_figure("agm", "depth_of_discharge")
    assert own
    assert family
    assert (own.chemistry, family.chemistry) == ("agm", "lead")
    assert battery.battery_figure("flooded", "charge_lowest_c") is None


def test_spreads_widen_from_measured_to_guess():
    spreads = [battery.provenance_spread(name) for name in ("measured", "label", "guess")]
    assert [row.high - row.low for row in spreads] == sorted(row.high - row.low for row in spreads)
    assert all(row.low < row.mid == 1 < row.high and row.from_memory for row in spreads)


@pytest.mark.parametrize(
    ("call", "what"),
    [
        (lambda: conductors.conductor("5 AWG"), "Conductor size"),
        (lambda: conductors.conductor_sizes("kcmil"), "Conductor series"),
        (lambda: conductors.copper_constant("k"), "Copper constant"),
        (lambda: ampacity.ampacity_a("ampacity_faa", "10 AWG", 60), "Ampacity table"),
        (lambda: ampacity.ampacity_a("ampacity_bs7671_4d1a", "6 mm2", 70), "Installation"),
        (lambda: ampacity.ampacity_a("ampacity_bs7671_4d1a", "6 mm2", 70, "any"), "Installation"),
        (lambda: ampacity.bundling_factor("abyc", 3), "Bundling method"),
        (lambda: ampacity.bundling_factor("nec", 0), "Conductors laid together"),
        (lambda: overcurrent.device_class("glass"), "Device class"),
        (lambda: overcurrent.ratings("glass"), "Device class"),
        (lambda: overcurrent.interrupting("blade", 0), "Voltage"),
        (lambda: overcurrent.battery_aic(12, -1), "Cold-cranking current"),
        (lambda: drop.voltage_drop_limit("us_boat", "fridge"), "Use of the circuit"),
        (lambda: battery.chemistry("nicd"), "Battery chemistry"),
        (lambda: battery.battery_figure("agm", "colour"), "Battery figure"),
        (lambda: battery.lead_ocv("agm"), "Lead voltage table"),
        (lambda: battery.provenance_spread("hoped"), "Provenance"),
        (lambda: battery.coldbox_assumption("door"), "Cold-box assumption"),
    ],
)
def test_an_unknown_name_is_refused_with_what_is_allowed(call, what):
    with pytest.raises(InputError) as caught:
        call()
    assert caught.value.what == what
    assert caught.value.allowed
