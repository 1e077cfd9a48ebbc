"""The page of the load inventory with the small rig, and edits of its loads. Invented figures."""

from __future__ import annotations

from rigcalc.widgets.loads import LoadsPage
from rigcalc.widgets.session import Session
from tests.rigs import small
from tests.widgets.hands import type_in, type_in_cell, viewed

INVERTER = {"id": "V1", "name": "Inverter", "rated_w": 300.0, "on_h": 5.0, "efficiency": 0.9, "idle_w": 4.0}


def page(**changes: object) -> LoadsPage:
    return viewed(LoadsPage(Session(small(**changes))))


def load(at: LoadsPage, load_id: str = "lamp"):
    return next(one for one in at.session.rig.loads if one.id == load_id)


def cell(at: LoadsPage, load_id: str, key: str, text: str) -> None:
    type_in_cell(at.table, load_id, key, text)


def field(form, key: str, text: str | bool) -> None:
    type_in(form.fields, key, text)
