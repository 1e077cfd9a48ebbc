"""One run under the other rule sets, against sizes those rules' own documents print."""

from __future__ import annotations

from typing import Any

import pytest

from rigcalc.model import rig_from_data
from rigcalc.study import study
from rigcalc.study.compare import other_rule_sets
from rigcalc.study.results import NOT_AVAILABLE
from rigcalc.tables.rule_sets import RULE_SETS
from tests.rigs import small_data

FT_M = 0.3048


def one_run(power_w: float, length_m: float, use: str, **rig: Any) -> dict[str, Any]:
    """A load straight at the bank, its fuse left out of the question."""
    data = small_data() | {"blocks": [], "devices": []} | rig
    data["loads"][0] |= {"power_w": power_w, "circuit_use": use, "max_fuse_a": 100.0}
    data["loads"][0].pop("lowest_working_v")
    run = data["runs"][1] | {"from_id": "bank", "length_out_m": length_m, "length_back_m": length_m}
    run.pop("conductor")
    data["runs"] = [run]
    return data


@pytest.mark.parametrize(
    ("current_a", "out_ft", "back_ft", "use", "published"),
    [
        (10, 10, 10, "electronics", "10 AWG"),  # ABYC E-11 table, 12 V 3 %: 10 A at 20 ft out and back
        (20, 12.5, 12.5, "pump", "6 AWG"),  # the same table: 20 A at 25 ft
        (20, 85, 85, "pump", "2/0 AWG"),  # the same table: 20 A at 170 ft
        (10, 11, 10, "pump", "10 AWG"),  # trade catalogue's worked example, 3 %: bilge pump, 11 ft out, 10 ft back
        (10, 11, 10, "other", "16 AWG"),  # the same example at 10 %
        (20, 30, 30, "other", "8 AWG"),  # 46 CFR 183.340(p), 12 V 10 %: 20 A at 30 ft one way
    ],
)
def test_the_boat_rules_give_the_published_size(current_a, out_ft, back_ft, use, published):
    # The comparison keeps the run's own current: the power is made to draw the published one.
    data = one_run(1.0, out_ft * FT_M, use)
    data["runs"][0]["length_back_m"] = back_ft * FT_M
    for _ in range(8):
        result = study(rig_from_data(data))
        data["loads"][0]["power_w"] *= current_a / result.network.runs[0].design_current_a
    result = study(rig_from_data(data))
    assert result.network.runs[0].design_current_a == pytest.approx(current_a, abs=0.005)
    assert other_rule_sets(result, "W2")["us_boat"] == published


def test_the_iec_rules_give_the_size_of_annex_g():
    # IEC 60364-5-52 Annex G: 20 A over 5 m, 3 % of 12 V for lighting: S >= 0.0225 * 10 * 20 / 0.36 = 12.5, so 16 mm².
    data = one_run(228.0, 5.0, "lighting")
    result = study(rig_from_data(data))
    assert result.network.runs[0].design_current_a == pytest.approx(20, abs=0.7)
    assert other_rule_sets(result, "W2")["iec_vehicle"] == "16 mm2"


def test_a_rule_set_without_a_read_table_says_so_and_its_own_is_not_repeated():
    found = other_rule_sets(study(rig_from_data(small_data())), "W2")
    assert found["eu_small_craft"] == NOT_AVAILABLE
    assert set(found) == set(RULE_SETS) - {"na_vehicle"}


def test_a_rig_under_rules_without_sizes_is_compared_by_each_others_whole_choice():
    data = small_data()
    for run in data["runs"]:
        run.pop("conductor")
    here = study(rig_from_data(data | {"rule_set": "eu_small_craft"}))
    assert not here.network.available
    there = study(rig_from_data(data | {"rule_set": "us_boat"}))
    for run in there.network.runs:
        assert run.choice is not None
        assert other_rule_sets(here, run.run_id)["us_boat"] == run.choice.size


def test_each_other_rule_set_says_what_it_would_choose_for_the_whole_rig():
    # With short runs before it, the choice for one run is that of the whole rig under the other rules.
    data = one_run(120.0, 4.0, "pump")
    found = other_rule_sets(study(rig_from_data(data)), "W2")
    for rule_set in ("us_boat", "iec_vehicle", "na_cabin", "iec_cabin", "strictest_of_all"):
        other = study(rig_from_data(data | {"rule_set": rule_set})).network.runs[0]
        assert other.choice is not None
        assert found[rule_set] == other.choice.size


def test_no_size_may_pass():
    found = other_rule_sets(study(rig_from_data(one_run(2000.0, 60.0, "electronics"))), "W2")
    assert found["us_boat"].startswith("none passes: 4/0 AWG fails by")
    assert "drop" in found["us_boat"]
