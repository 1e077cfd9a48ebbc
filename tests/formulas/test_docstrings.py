"""Every public formula says what it means: parameters with units, result, equation or source, example."""

from __future__ import annotations

import doctest
import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest

import rigcalc.formulas

TEXT_PARAMETERS = {"what"}  # the only parameter without a unit


def _functions() -> Iterator[Any]:
    for found in pkgutil.iter_modules(rigcalc.formulas.__path__):
        module = importlib.import_module(f"rigcalc.formulas.{found.name}")
        for name, member in inspect.getmembers(module, inspect.isfunction):
            if member.__module__ == module.__name__ and not found.name.startswith("_") and not name.startswith("_"):
                yield pytest.param(member, id=f"{found.name}.{name}")


PUBLIC = list(_functions())


def _sections(function: Callable[..., Any]) -> dict[str, str]:
    text = inspect.getdoc(function) or ""
    parts = re.split(r"^(\w+)\n-+$", text, flags=re.MULTILINE)
    return {"Meaning": parts[0].strip(), **dict(zip(parts[1::2], map(str.strip, parts[2::2]), strict=True))}


def _parameters(section: str) -> dict[str, str]:
    """Name to description; several names may share one entry."""
    entries = re.split(r"^(?=\S)", section, flags=re.MULTILINE)
    described: dict[str, str] = {}
    for entry in filter(None, entries):
        names, _, rest = entry.partition(" : ")
        described.update({name.strip().lstrip("*"): rest for name in names.split(",")})
    return described


@pytest.mark.parametrize("function", PUBLIC)
def test_the_meaning_is_one_sentence_on_one_line(function):
    first, *more = _sections(function)["Meaning"].split("\n")
    assert first.endswith(".")
    assert not more


@pytest.mark.parametrize("function", PUBLIC)
def test_all_parts_are_there(function):
    sections = _sections(function)
    assert {"Parameters", "Returns", "Examples"} <= sections.keys()
    assert sections.keys() & {"Notes", "References"}
    assert all(sections.values())


@pytest.mark.parametrize("function", PUBLIC)
def test_every_parameter_is_described_with_its_unit(function):
    described = _parameters(_sections(function)["Parameters"])
    assert set(described) == set(inspect.signature(function).parameters)
    for name, text in described.items():
        assert re.search(r"\[[^\]]+\]", text) or name in TEXT_PARAMETERS or "LossCurve" in text, name


@pytest.mark.parametrize("function", PUBLIC)
def test_the_result_has_its_unit(function):
    assert re.search(r"\[[^\]]+\]", _sections(function)["Returns"])


@pytest.mark.parametrize("function", PUBLIC)
def test_the_example_shows_a_result(function):
    examples = doctest.DocTestParser().get_examples(_sections(function)["Examples"])
    assert any(example.want for example in examples)
