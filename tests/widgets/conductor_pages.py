"""The page on conductors with the small rig, and edits of its runs."""

from __future__ import annotations

from rigcalc.widgets.conductors import ConductorsPage
from rigcalc.widgets.session import Session
from tests.rigs import small, small_data
from tests.widgets.hands import type_in, type_in_cell, viewed


def page(**changes) -> ConductorsPage:
    return viewed(ConductorsPage(Session(small(**changes))))


def lone() -> ConductorsPage:
    """The lamp's run is not there yet, nor its device."""
    data = small_data()
    data["runs"], data["devices"] = data["runs"][:1], data["devices"][:1]
    return page(runs=data["runs"], devices=data["devices"])


def run(shown: ConductorsPage, run_id: str):
    return next(one for one in shown.session.rig.runs if one.id == run_id)


def edit_cell(shown: ConductorsPage, run_id: str, key: str, text: str) -> None:
    type_in_cell(shown.runs.table, run_id, key, text)


def edit(shown: ConductorsPage, key: str, text: str | bool) -> None:
    type_in(shown.form.fields, key, text)
