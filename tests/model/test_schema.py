"""The JSON Schema beside the model says what the model says."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any

import pytest
from hypothesis import given

from rigcalc.errors import InputError
from rigcalc.model import read_rig, schema
from tests.model.building import BUILT, NAMES, damaged, rigs
from tests.rigs import example_data, small_data

jsonschema = pytest.importorskip("jsonschema")
PUBLISHED: dict[str, Any] = json.loads((files("rigcalc.model") / "rig.schema.json").read_text(encoding="utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(PUBLISHED)


def test_the_published_schema_is_current():
    assert json.loads(schema()) == PUBLISHED, "write rigcalc.model.schema() to rigcalc/model/rig.schema.json"


def test_the_schema_is_a_schema():
    jsonschema.Draft202012Validator.check_schema(PUBLISHED)


@pytest.mark.parametrize("name", NAMES)
def test_an_example_passes_the_schema(name):
    assert list(VALIDATOR.iter_errors(example_data(name))) == []


@given(rigs())
@BUILT
def test_a_built_rig_passes_the_schema(data):
    assert list(VALIDATOR.iter_errors(data)) == []


@given(damaged())
@BUILT
def test_what_the_reader_takes_passes_the_schema(data):
    text = json.dumps(data)
    try:
        read_rig(text)
    except InputError:
        return
    assert list(VALIDATOR.iter_errors(json.loads(text))) == []


@pytest.mark.parametrize("key", ["format", "version", "name", "bank", "ambient_usual_c", "ambient_hot_c"])
def test_a_needed_key_is_needed_in_the_schema_too(key):
    data = small_data()
    del data[key]
    assert [error.validator for error in VALIDATOR.iter_errors(data)] == ["required"]


def test_an_unknown_key_fails_the_schema_too():
    assert [error.validator for error in VALIDATOR.iter_errors(small_data() | {"lods": []})] == ["additionalProperties"]


def test_every_key_with_a_dimension_ends_in_its_unit():
    bare = {"quantity", "series", "parallel", "cells_per_unit", "version", "conductors_together", "events_per_day",
            "wanted_autonomy_days", "efficiency", "efficiency_10", "efficiency_50", "efficiency_100", "duty_cycle",
            "adapter_efficiency", "wiring_efficiency", "grouping_factor", "largest_share", "depth_of_discharge",
            "end_of_life_fraction"}  # fmt: skip
    units = {"m", "a", "v", "w", "wh", "ah", "h", "min", "s", "c", "ohm", "percent"}
    for part in [PUBLISHED, *PUBLISHED["$defs"].values()]:
        for key, field in part["properties"].items():
            kinds = {one.get("type") for one in [field, *field.get("anyOf", [])]}
            if kinds & {"number", "integer"} and key not in bare:
                assert key.rsplit("_", 1)[-1] in units, key
