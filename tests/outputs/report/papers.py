"""Reading a report back."""

from __future__ import annotations

import io
from functools import cache
from typing import Any

import pypdf

from rigcalc.model import Rig, rig_from_data
from rigcalc.outputs.report import pdf
from rigcalc.rules import findings
from rigcalc.rules.finding import Finding
from rigcalc.study import Study, study
from tests.rigs import EXAMPLES, example_data, small

NAMES = sorted(path.stem for path in EXAMPLES.glob("*.json"))


def squeezed(text: str) -> str:
    """Letters only: where a line breaks on paper is no matter."""
    return "".join(text.replace("\u200b", "").split())


def pages(made: bytes) -> list[str]:
    return [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(made)).pages]


def heard(rig: Rig) -> tuple[Study, tuple[Finding, ...]]:
    found = study(rig)
    return found, findings(found)


@cache
def example(name: str) -> tuple[Study, tuple[Finding, ...]]:
    return heard(rig_from_data(example_data(name)))


@cache
def example_pages(name: str, paper: Any = "a4", edition: Any = "full") -> list[str]:
    return pages(pdf(*example(name), paper, edition))


def small_pages(edition: Any = "full", **changes: Any) -> list[str]:
    return pages(pdf(*heard(small(**changes)), "a4", edition))


def whole(name: str, edition: Any = "full") -> str:
    return squeezed("".join(example_pages(name, "a4", edition)))
