"""Studies of the example rigs, worked out once; and a rig whose texts look like formulas and markup."""

from __future__ import annotations

from functools import cache
from typing import Any

from rigcalc.model import rig_from_data
from rigcalc.study import Study, study
from tests.rigs import EXAMPLES, example_data, small_data

NAMES = sorted(path.stem for path in EXAMPLES.glob("*.json"))
RISKY = ("=1+1", "+cmd", "-2+3", "@SUM(A1)")
MARKUP = "<script>alert(1)</script>"


@cache
def example(name: str) -> Study:
    """The study of an example rig."""
    return study(rig_from_data(example_data(name)))


def of(data: dict[str, Any]) -> Study:
    """The study of a rig as plain data."""
    return study(rig_from_data(data))


def hostile() -> Study:
    """Every text of the small rig that a person types is one a spreadsheet or a browser could take for more."""
    data = small_data()
    data |= {"name": "=1+1", "revision": "+cmd", "day_types": [{"id": "camp", "name": "@SUM(A1)"}]}
    data["loads"][0] |= {"name": "-2+3", "note": "\tx"}
    data["loads"].append(data["loads"][0] | {"id": "lamp2", "name": MARKUP, "note": "", "alternates_with": "=1+1"})
    data["blocks"][0]["name"] = "+cmd"
    data["runs"][0] |= {"name": "@SUM(A1)", "note": "=1+1"}
    data["runs"].append(data["runs"][1] | {"id": "W3", "name": "-2+3", "to_id": "lamp2", "note": "-1"})
    return of(data)
