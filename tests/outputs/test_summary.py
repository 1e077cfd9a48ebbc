"""The documented result says what the study says, in plain JSON."""

from __future__ import annotations

import json

import pytest

from rigcalc.model import rig_from_data
from rigcalc.outputs.summary import as_data, as_text, finding_lines
from rigcalc.rules import findings
from rigcalc.study import study
from tests.rigs import EXAMPLES, example_data, small, small_data


@pytest.mark.parametrize("name", sorted(path.stem for path in EXAMPLES.glob("*.json")))
def test_every_example_gives_strict_json_and_a_page(name):
    result = study(rig_from_data(example_data(name)))
    found = findings(result)
    data = json.loads(json.dumps(as_data(result, found), allow_nan=False))
    assert data["daily_energy_wh"] == pytest.approx(result.energy.daily_energy_wh)
    assert {run["id"] for run in data["runs"]} == {run.id for run in result.rig.runs}
    assert len(data["findings"]) == len(found)
    text = as_text(result, found)
    assert result.rig.name in text
    assert "A calculation is not an inspection" in text


def test_a_circuit_carries_its_run_and_its_fuse():
    result = study(rig_from_data(small_data()))
    circuit = as_data(result, findings(result))["circuits"][1]
    assert circuit["id"] == "F2"
    assert circuit["conductor"] == "14 AWG"
    assert circuit["fuse"]["rating_a"] == 10
    for key in ("design_current_a", "ampacity_a", "drop_v", "drop_percent"):
        assert circuit[key] > 0


def test_what_is_not_known_is_null_and_never_zero():
    data = small_data() | {"rule_set": "eu_small_craft"}
    del data["runs"][0]["conductor"]
    result = study(rig_from_data(data))
    run = as_data(result, findings(result))["runs"][0]
    assert run["conductor"] is None
    assert run["ampacity_a"] is None


def test_the_voltage_at_a_device_behind_an_unknown_conductor_is_null():
    data = small_data() | {"rule_set": "eu_small_craft"}
    del data["runs"][0]["conductor"]
    result = study(rig_from_data(data))
    assert [run["device_v"] for run in as_data(result, findings(result))["runs"]] == [None, None]
    assert all(run["device_v"] > 11 for run in as_data(study(small()), ())["runs"])


def test_html_in_names_stays_the_same_text():
    data = small_data()
    data["loads"][0]["name"] = "<script>alert(1)</script>"
    result = study(rig_from_data(data))
    assert as_data(result, findings(result))["loads"][0]["name"] == "<script>alert(1)</script>"


def lines_of(data):
    return finding_lines(findings(study(rig_from_data(data))))


def test_each_fact_that_is_not_stated_has_a_line_those_of_stops_first():
    data = small_data() | {"main_switch_run": "W1", "colour_scheme": "abyc"}
    del data["bank"]["wanted_autonomy_days"]
    del data["devices"][1]["distance_m"]
    lines = lines_of(data)
    at = lines.index("Not stated, so neither passed nor failed: 2.")
    assert [line[:19] for line in lines[at + 1 :]] == ["? not stated P02 F2", "? not stated B01 ba"]


def test_an_accepted_stop_is_a_note_and_an_accepted_warning_is_accepted():
    data = small_data()
    data["devices"][0]["distance_m"] = 0.6
    data["runs"][1] |= {"length_out_m": 30.0, "length_back_m": 30.0}
    given = {"reason": "Seen and meant", "name": "Reviewer", "date": "2026-01-31"}
    data["accepted"] = [given | {"rule": "P02", "subject": "F1"}, given | {"rule": "W03", "subject": "W2"}]
    lines = {line.split(":")[0].split(maxsplit=2)[2]: line for line in lines_of(data)[:3]}
    assert lines["P02 F1"].endswith("(note by Reviewer: Seen and meant)")
    assert lines["W03 W2"].endswith("(accepted by Reviewer: Seen and meant)")


def test_the_page_says_what_weakens_the_capacity():
    data = small_data()
    data["bank"]["temperature_c"] = -60.0
    data["loads"][0] |= {"power_w": 300.0, "daily_use_h": 24.0}
    result = study(rig_from_data(data))
    text, told = as_text(result, ()), as_data(result, ())
    assert "outside the table" in text
    assert "faster than the fastest stated rate" in text
    assert told["temperature_status"] == "outside the table"
    assert told["rate_status"].startswith("faster than the fastest")
    plain = study(rig_from_data(small_data()))
    assert "outside the table" not in as_text(plain, ())
    assert "faster" not in as_text(plain, ())


def test_how_the_breaking_capacity_is_known_is_told():
    data = small_data()
    data["devices"][1]["device_class"] = "bolted_strip"
    result = study(rig_from_data(data))
    assert as_data(result, ())["circuits"][1]["fuse"]["interrupting_status"] == "memory"
