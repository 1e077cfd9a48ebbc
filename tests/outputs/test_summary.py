"""The documented result says what the study says, in plain JSON."""

from __future__ import annotations

import json

import pytest

from rigcalc.model import rig_from_data
from rigcalc.outputs.summary import as_data, as_text
from rigcalc.rules import findings
from rigcalc.study import study
from tests.rigs import EXAMPLES, example_data, small_data


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


def test_html_in_names_stays_the_same_text():
    data = small_data()
    data["loads"][0]["name"] = "<script>alert(1)</script>"
    result = study(rig_from_data(data))
    assert as_data(result, findings(result))["loads"][0]["name"] == "<script>alert(1)</script>"
