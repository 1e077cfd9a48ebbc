"""The first page with a rig, and answers to what it asks. Invented figures."""

from __future__ import annotations

from rigcalc.widgets.session import Session
from rigcalc.widgets.start import StartPage
from tests.rigs import small
from tests.widgets.hands import type_in, viewed


def page(rig=None) -> StartPage:
    return viewed(StartPage(Session(rig or small())))


def fact(at: StartPage, key: str, text: str) -> None:
    type_in(at.form.fields, key, text)


def question(at: StartPage, key: str, text: str) -> None:
    type_in(at.new.fields, key, text)
