"""Two published wire-size tables at 12 V, reproduced cell by cell from the circular-mil rule.

46 CFR 183.340(p), Table 183.340(p): 10 %, read in the regulation. ABYC E-11, Table IX: 3 %, read in reprints
(the columns for 5, 10 and 20 A).
"""

from __future__ import annotations

import pytest

from rigcalc.formulas.conductor import awg_circular_mils
from rigcalc.formulas.voltage_drop import circular_mils_needed, voltage_drop_circular_mil_v

SYSTEM_V = 12

CFR_SIZES = {"14": 14, "12": 12, "10": 10, "8": 8, "6": 6}  # sizes of the table, to their AWG number; none below 14
CFR_LENGTHS_FT = range(10, 65, 5)  # one way
CFR_TABLE = {  # current [A]: AWG at each length
    5: "14 14 14 14 14 14 14 14 12 12 12",
    15: "14 14 12 10 10 10 8 8 8 8 8",
    20: "12 12 10 10 8 8 8 8 6 6 6",
}
SMALL_CONDUCTOR_A = {"14": 15, "12": 20, "10": 30}  # largest current on a small conductor, as in NFPA 70, 240.4(D)

SAE_ABYC_CMIL = {  # least circular mils of each gauge, SAE and ABYC, from memory; the rows below agree with them
    "18": 1537, "16": 2336, "14": 3702, "12": 5833, "10": 9343, "8": 14810, "6": 25910, "4": 37360, "2": 62450,
    "1": 77790, "1/0": 98980, "2/0": 125100, "3/0": 158600, "4/0": 205500,
}  # fmt: skip
ABYC_LENGTHS_FT = [10, 15, 20, 25, *range(30, 180, 10)]  # out and back
ABYC_TABLE = {  # current [A]: AWG at each length
    5: "18 16 14 12 12 10 10 10 8 8 8 6 6 6 6 6 6 6 6",
    10: "14 12 10 10 10 8 6 6 6 6 4 4 4 4 2 2 2 2 2",
    20: "10 10 8 6 6 6 4 4 2 2 2 2 1 1 1 1/0 1/0 1/0 2/0",
}


def _cells(table: dict[int, str], lengths_ft) -> list[tuple[int, int, str]]:
    return [
        (current_a, length_ft, awg)
        for current_a, row in table.items()
        for length_ft, awg in zip(lengths_ft, row.split(), strict=True)
    ]


def _smallest(sizes_cmil: dict[str, float], needed_cmil: float) -> str:
    return next(awg for awg, cmil in sizes_cmil.items() if cmil >= needed_cmil)


def _cfr_size(current_a: float, one_way_ft: float) -> str:
    needed = circular_mils_needed(current_a, 2 * one_way_ft, 0.10 * SYSTEM_V)
    return _smallest({awg: awg_circular_mils(number) for awg, number in CFR_SIZES.items()}, needed)


def _abyc_size(current_a: float, loop_ft: float) -> str:
    return _smallest(SAE_ABYC_CMIL, circular_mils_needed(current_a, loop_ft, 0.03 * SYSTEM_V))


def test_all_cells_are_here():
    assert len(_cells(CFR_TABLE, CFR_LENGTHS_FT)) == 33
    assert len(_cells(ABYC_TABLE, ABYC_LENGTHS_FT)) == 57


@pytest.mark.parametrize(("current_a", "one_way_ft", "printed_awg"), _cells(CFR_TABLE, CFR_LENGTHS_FT))
def test_cell_of_46_cfr_183_340(current_a, one_way_ft, printed_awg):
    # Drop, nominal AWG areas and no less than 14 AWG give every cell but 20 A at 10 ft, where ampacity governs.
    by_drop = _cfr_size(current_a, one_way_ft)
    sizes = list(CFR_SIZES)
    by_ampacity = next(awg for awg in sizes if SMALL_CONDUCTOR_A.get(awg, 1000) >= current_a)
    assert max(by_drop, by_ampacity, key=sizes.index) == printed_awg
    if (current_a, one_way_ft) != (20, 10):
        assert by_drop == printed_awg


@pytest.mark.parametrize(("current_a", "loop_ft", "printed_awg"), _cells(ABYC_TABLE, ABYC_LENGTHS_FT))
def test_cell_of_abyc_table_ix(current_a, loop_ft, printed_awg):
    assert _abyc_size(current_a, loop_ft) == printed_awg


def test_a_cell_of_abyc_table_ix_that_is_below_its_own_rule():
    # 15 A over 60 ft: three reprints print 6 AWG, which drops 0.373 V where 0.36 V is allowed. The rule gives 4 AWG.
    assert _abyc_size(15, 60) == "4"
    assert voltage_drop_circular_mil_v(15, 60, SAE_ABYC_CMIL["6"]) == pytest.approx(0.3734, rel=0, abs=0.00005)


def test_nominal_areas_do_not_give_abyc_table_ix():
    # Choosing by the nominal AWG area instead of the least one changes cells, always to the thinner conductor.
    numbers = {
        "18": 18,
        "16": 16,
        "14": 14,
        "12": 12,
        "10": 10,
        "8": 8,
        "6": 6,
        "4": 4,
        "2": 2,
        "1": 1,
        "1/0": 0,
        "2/0": -1,
    }
    nominal = {awg: awg_circular_mils(number) for awg, number in numbers.items()}
    sizes = list(nominal)
    steps = [
        sizes.index(_smallest(nominal, circular_mils_needed(current_a, loop_ft, 0.36))) - sizes.index(printed)
        for current_a, loop_ft, printed in _cells(ABYC_TABLE, ABYC_LENGTHS_FT)
    ]
    assert set(steps) == {0, -1}
    assert steps.count(-1) == 12
