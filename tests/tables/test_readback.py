"""Cells of each table read back against the document its rows name.

The source stands beside each case. A case from memory, or marked `common practice, no source`, only guards the copy.
"""

from __future__ import annotations

import pytest

from rigcalc.tables import load
from rigcalc.tables.ampacity import ambient_factor_nec, ampacity_a, bundling_factor, engine_space_factor
from rigcalc.tables.battery import (
    battery_figure,
    chemistry,
    coldbox_assumption,
    lead_ocv,
    lead_temperature,
    lithium_ocv,
    lithium_temperature,
    provenance_spread,
)
from rigcalc.tables.cautions import Caution
from rigcalc.tables.colours import WireColour
from rigcalc.tables.conductors import (
    adiabatic_k,
    conductor,
    copper_constant,
    min_circular_mils,
    min_conductor_size,
)
from rigcalc.tables.overcurrent import (
    battery_aic,
    device_class,
    gates,
    interrupting,
    ocp_distance,
    ratings,
    rerating,
    small_conductor_limit,
)
from rigcalc.tables.rule_sets import rule_set
from rigcalc.tables.voltage_drop import voltage_drop_limit

pytestmark = pytest.mark.readback
FOOT_M, INCH_M = 0.3048, 0.0254


@pytest.mark.parametrize(
    ("table", "insulation_c", "installation", "printed_a"),
    [
        # 33 CFR 183.425 Table 5
        ("ampacity_33cfr183425", 60, None, {"18 AWG": 10, "10 AWG": 40, "4/0 AWG": 300}),
        ("ampacity_33cfr183425", 75, None, {"14 AWG": 20, "8 AWG": 65, "2 AWG": 170}),
        ("ampacity_33cfr183425", 105, None, {"16 AWG": 25, "10 AWG": 60, "4/0 AWG": 445}),
        # NFPA 70 Table 310.16, copper, as printed from the 2011 edition on
        ("ampacity_nec_310_16", 60, None, {"14 AWG": 15, "12 AWG": 20, "10 AWG": 30, "4/0 AWG": 195}),
        ("ampacity_nec_310_16", 75, None, {"6 AWG": 65, "1/0 AWG": 150, "4/0 AWG": 230}),
        ("ampacity_nec_310_16", 90, None, {"3 AWG": 115, "1 AWG": 145, "4/0 AWG": 260}),
        # BS 7671 Table 4D1A, two cables, DC
        ("ampacity_bs7671_4d1a", 70, "insulated_wall", {"1.5 mm2": 14.5, "35 mm2": 99}),
        ("ampacity_bs7671_4d1a", 70, "enclosed", {"2.5 mm2": 24, "16 mm2": 76}),
        ("ampacity_bs7671_4d1a", 70, "clipped", {"6 mm2": 47, "150 mm2": 381}),
        ("ampacity_bs7671_4d1a", 70, "free_air", {"25 mm2": 131, "70 mm2": 251}),
        # BS 7671 Table 4E1A, two cables, DC
        ("ampacity_bs7671_4e1a", 90, "insulated_wall", {"1.5 mm2": 19, "95 mm2": 241}),
        ("ampacity_bs7671_4e1a", 90, "clipped", {"6 mm2": 59, "25 mm2": 143}),
        ("ampacity_bs7671_4e1a", 90, "free_air", {"150 mm2": 504}),
        # ISO 10133 / 13297 Annex A, from memory and doubtful
        ("ampacity_iso_annex_a", 70, None, {"0.75 mm2": 10, "150 mm2": 380}),
    ],
)
def test_ampacity(table, insulation_c, installation, printed_a):
    rows = {size: ampacity_a(table, size, insulation_c, installation, read_only=False) for size in printed_a}
    assert {size: row.ampacity_a for size, row in rows.items() if row} == printed_a


def test_free_air_column_begins_at_25_mm2():
    """BS 7671 Tables 4D1A and 4E1A print method F from 25 mm² up."""
    assert ampacity_a("ampacity_bs7671_4d1a", "16 mm2", 70, "free_air") is None


def test_factors():
    # 33 CFR 183.425 Table 5 note 1, engine spaces
    engine = [engine_space_factor(insulation_c) for insulation_c in (60, 75, 80, 90, 105, 125, 200)]
    assert [row.factor for row in engine if row] == [0.58, 0.75, 0.78, 0.82, 0.85, 0.89, 1]
    # 33 CFR 183.425 Table 5 note 2
    note_2 = [bundling_factor("cfr_abyc", count) for count in (3, 4, 6, 7, 24, 25)]
    assert [row.factor for row in note_2 if row] == [0.7, 0.6, 0.6, 0.5, 0.5, 0.4]
    # NFPA 70 310.15(C)(1)
    nec = [bundling_factor("nec", count) for count in (3, 4, 6, 7, 9, 10, 20, 21, 30, 31, 40, 41)]
    assert [row.factor for row in nec if row] == [1, 0.8, 0.8, 0.7, 0.7, 0.5, 0.5, 0.45, 0.45, 0.4, 0.4, 0.35]
    # BS 7671 Table 4C1, from memory
    circuits = [bundling_factor("bs_4c1", count, read_only=False) for count in (1, 2, 3, 6, 9, 12)]
    assert [row.factor for row in circuits if row] == [1, 0.8, 0.7, 0.57, 0.5, 0.45]
    # NFPA 70, ambient correction for 30 °C
    ambient = [ambient_factor_nec(*cell) for cell in ((10, 60), (25, 75), (35, 90), (40, 75), (50, 60), (55, 90))]
    assert [row.factor for row in ambient if row] == [1.29, 1.05, 0.96, 0.88, 0.58, 0.76]


@pytest.mark.parametrize(
    ("size_name", "circular_mils", "ohm_per_1000_ft"),
    [  # NFPA 70 Chapter 9 Table 8, stranded, uncoated copper at 75 °C
        ("18 AWG", 1620, 7.95),
        ("14 AWG", 4110, 3.14),
        ("10 AWG", 10380, 1.24),
        ("4 AWG", 41740, 0.308),
        ("2/0 AWG", 133100, 0.0967),
        ("4/0 AWG", 211600, 0.0608),
    ],
)
def test_awg_sizes(size_name, circular_mils, ohm_per_1000_ft):
    size = conductor(size_name)
    half_last_digit = 0.5 * 10.0 ** -len(str(ohm_per_1000_ft).split(".")[1])
    assert (size.circular_mils, size.resistance_at_c) == (circular_mils, 75)
    assert size.resistance_ohm_per_km * FOOT_M == pytest.approx(ohm_per_1000_ft, rel=0, abs=half_last_digit)


@pytest.mark.parametrize(("size_name", "diameter_in"), [("10 AWG", 0.1019), ("4/0 AWG", 0.4600)])
def test_awg_areas(size_name, diameter_in):
    """ASTM B258 diameters, printed to 0.0001 in."""
    smallest, largest = (0.785398 * ((diameter_in + step) * INCH_M * 1000) ** 2 for step in (-0.00005, 0.00005))
    assert smallest <= conductor(size_name).area_mm2 <= largest


@pytest.mark.parametrize(
    ("area", "ohm_per_km"),  # IEC 60228, class 5, plain copper, 20 °C
    [("0.75", 26.0), ("1.5", 13.3), ("6", 3.30), ("16", 1.21), ("50", 0.386), ("95", 0.206), ("240", 0.0801)],
)
def test_metric_sizes(area, ohm_per_km):
    size = conductor(f"{area} mm2")
    assert (size.area_mm2, size.resistance_ohm_per_km, size.resistance_at_c) == (float(area), ohm_per_km, 20)


@pytest.mark.parametrize(
    ("size_name", "longest_ft", "current_a"),
    [  # ABYC E-11 Table IX, 12 V, 3 %: the longest round trip printed with each size
        ("18 AWG", 10, 5),
        ("10 AWG", 60, 5),
        ("6 AWG", 170, 5),
        ("2 AWG", 100, 20),
        ("1/0 AWG", 160, 20),
        ("2/0 AWG", 170, 20),
    ],
)
def test_read_floors(size_name, longest_ft, current_a):
    row = min_circular_mils(size_name, "read_floor")
    assert row
    assert row.circular_mils == pytest.approx(10.75 * current_a * longest_ft / (0.03 * 12), rel=0, abs=1)


def test_copper():
    # 46 CFR 183.340(p); IEC 60364-5-52 Annex G; ISO 10133; FAA AC 43.13-1B 11-66d
    names = ("circular_mil_k", "iec_rho1", "iso_drop", "zero_resistance_below_zero")
    assert [copper_constant(name).value for name in names] == [10.75, 0.0225, 0.0164, 234.5]
    # IEC 60364-4-43 Table 43A; the 105 °C figure is computed
    assert [row.k_a_sqrt_s_per_mm2 for c in (70, 90, 105) if (row := adiabatic_k(c))] == [115, 143, 87.6]
    # SAE / ABYC minimum areas, from memory
    assert [row.circular_mils for awg in ("18", "10", "4/0") if (row := min_circular_mils(f"{awg} AWG", "sae"))] == [
        1537,
        9343,
        205500,
    ]


def test_limits_of_the_rule_sets():
    # ABYC E-11 11.14.2.6; IEC 60364-5-52 G.52.1
    limits = [voltage_drop_limit(*cell) for cell in (("us_boat", "navigation_light"), ("us_boat", "lighting"))]
    limits += [voltage_drop_limit(*cell) for cell in (("iec_vehicle", "lighting"), ("iec_cabin", "electronics"))]
    assert [row.limit_pct for row in limits if row] == [3, 10, 3, 5]
    # 33 CFR 183.455(b), ABYC E-11 11.12.1.1, NFPA 70 552.10(E)(4), ISO 13297:2020 12.3
    distances = [ocp_distance("us_boat", how) for how in ("general", "sheathed", "battery_sheathed")]
    distances += [ocp_distance("na_vehicle", "general"), ocp_distance("eu_small_craft", "charging_source")]
    printed_m = [7 * INCH_M, 40 * INCH_M, 72 * INCH_M, 18 * INCH_M, 1.8]
    assert [row.distance_m for row in distances if row] == pytest.approx(printed_m, rel=1e-12)
    # 33 CFR 183.425(d)-(f); ISO 10133:2012 7.7; NFPA 70 552.10(C)(4)
    cells = (
        ("us_boat", "single"),
        ("us_boat", "sheathed"),
        ("eu_small_craft", "single"),
        ("na_vehicle", "chassis_bond"),
    )
    assert [row.size for cell in cells if (row := min_conductor_size(*cell))] == ["16 AWG", "18 AWG", "1 mm2", "8 AWG"]
    # NFPA 70 240.4(D)
    small = [small_conductor_limit(f"{awg} AWG") for awg in (14, 12, 10)]
    assert [row.limit_a for row in small if row] == [15, 20, 30]
    assert rule_set("us_boat").clause("fuse").locator == "11.10; 33 CFR 183.455(c)(1)"


def test_protective_devices():
    # ISO 8820-3:2015 scope: 1000 A at 32 V
    assert [device_class(name).max_dc_v for name in ("blade", "high_current_blade")] == [32, 32]
    blades = [interrupting(name, 32) for name in ("blade", "high_current_blade")]
    assert [row.interrupting_a for row in blades if row] == [1000, 1000]
    # Sandia SAND96-2797: 20 kA DC at 125 V
    assert [row.interrupting_a for v in (12, 58, 125) if (row := interrupting("current_limiting", v))] == [20000] * 3
    # Blade fuse colour table, types C and F
    assert [row.rating_a for row in ratings("blade")] == [1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30]
    # NFPA 70 240.6(A)
    first_and_last = [row.rating_a for row in ratings("breaker")]
    assert first_and_last[:9] == [15, 20, 25, 30, 35, 40, 45, 50, 60]
    assert first_and_last[-5:] == [350, 400, 450, 500, 600]
    # Strip fuses, stud-mounted blocks, UL 248-15 Class T: ratings from memory
    ends = [[row.rating_a for row in ratings(name)] for name in ("bolted_strip", "stud_block", "current_limiting")]
    assert [(sizes[0], sizes[-1]) for sizes in ends] == [(40, 500), (30, 300), (1, 1200)]
    # Continuous load on a fuse at 25 °C, read; NFPA 70 210.20, from memory
    assert [device_class(name).continuous_share for name in ("blade", "breaker")] == [0.75, 0.8]
    # Type E blade fuse of 40 A: data sheet
    assert [(row.ambient_c, row.fraction) for row in rerating("high_current_blade")] == [
        (20, 1),
        (65, 0.85),
        (85, 0.75),
        (110, 0.625),
        (125, 0.55),
    ]
    # ISO 8820-3 type E gates
    assert [(row.pct_of_rating, row.t_min_s, row.t_max_s) for row in gates("high_current_blade", 40)][1:] == [
        (135, 60, 1800),
        (200, 2, 60),
        (350, 0.2, 7),
        (600, 0.04, 1),
    ]


def test_breakers_on_lead_banks():
    """ABYC E-11 Table V-A, 12 to 24 V, by cold-cranking amperes."""
    rows = [battery_aic(12, cca) for cca in (650, 651, 1100, 1101)]
    assert [(row.main_a, row.branch_a) for row in rows if row] == [
        (1500, 750),
        (3000, 1500),
        (3000, 1500),
        (5000, 2500),
    ]
    assert battery_aic(24, 2201) is None


def test_batteries():
    # IEEE 485 Table 1
    factors = {row.temperature_f: row.size_factor for row in lead_temperature()}
    assert [factors[f] for f in (25, 40, 60, 77, 120)] == [1.52, 1.30, 1.11, 1.00, 0.86]
    # Temperature article, 3.2 V 10 Ah sample
    shares = {row.temperature_c: row.fraction for row in lithium_temperature()}
    assert shares == {-20: 0.441, -10: 0.664, 0: 0.802, 25: 1}
    # Libre Solar firmware, ocv_lfp
    volts = {row.state_of_charge: row.cell_v for row in lithium_ocv()}
    assert [volts[soc] for soc in (0, 0.1, 0.5, 1)] == [2.833, 3.177, 3.265, 3.392]
    # Public data set of 12 V lead-acid voltages; Deep Cycle Battery FAQ table
    halves = [
        row.voltage_12v
        for kind in ("flooded", "gel", "lower_reading")
        for row in lead_ocv(kind)
        if row.state_of_charge == 0.5
    ]
    assert halves == [12.24, 12.40, 12.06]
    # Battery-monitor instruction book; PyBaMM Prada2013
    exponents = [battery_figure(name, "peukert_exponent") for name in ("agm", "gel", "flooded", "lifepo4")]
    assert [row.value for row in exponents if row] == [1.11, 1.12, 1.22, 1.05]
    # 12.8 V 3.6 Ah data sheet; 12 V 40 Ah spec sheet
    lithium = [
        battery_figure("lifepo4", name) for name in ("charge_v_per_12v_unit", "charge_highest_c", "discharge_lowest_c")
    ]
    assert [row.value for row in lithium if row] == [14.4, 45, -20]
    cyclic = battery_figure("agm", "charge_v_per_12v_unit")
    assert cyclic
    assert (cyclic.low, cyclic.high) == (14.7, 15)
    assert chemistry("lifepo4").cell_v * chemistry("lifepo4").cells_per_12v == pytest.approx(12.8)
    # common practice, no source
    resistances = [battery_figure(name, "fault_resistance_ohm_ah_per_12v") for name in ("agm", "lifepo4")]
    assert [row.value for row in resistances if row] == [0.25, pytest.approx(4 * 0.0002 * 100)]


def test_starting_figures():
    # common practice, no source; fresh food: Regulation (EU) 2019/2016 Annex I
    spreads = [provenance_spread(name) for name in ("measured", "label", "guess")]
    assert [(row.low, row.high) for row in spreads] == [(0.9, 1.1), (0.75, 1.25), (0.5, 1.5)]
    names = ("evaporator_below_inside_k", "condenser_above_ambient_k", "constant_share_low", "constant_share_high")
    assert [coldbox_assumption(name).value for name in (*names, "fresh_food_c")] == [10, 15, 0, 0.3, 4]


def test_wire_colours():
    """ABYC E-11 and ISO 10133 as quoted: minus is yellow or black, the bond green or green/yellow."""
    colours = {(row.scheme, row.wire): row.colour for row in load("wire_colours", WireColour)}
    assert [colours["abyc", wire] for wire in ("positive", "negative", "bond")] == ["red", "yellow", "green"]
    assert [colours["iso", wire] for wire in ("positive", "negative", "bond")] == ["red", "black", "green/yellow"]


def test_cautions():
    """33 CFR 183.460(b) and NFPA 70 552.10(D): the figures within the sentences."""
    facts = {row.id: (row.fact, row.locator) for row in load("cautions", Caution)}
    assert "120 %" in facts["alternator_fuse"][0]
    assert facts["alternator_fuse"][1] == "(b)"
    assert "1100 mm²" in facts["vehicle_vent"][0]
