"""Pages with the small rig, fresh for each test."""

from __future__ import annotations

import pytest

from rigcalc.widgets.loads import LoadsPage
from rigcalc.widgets.start import StartPage
from tests.widgets import load_pages, start_pages


@pytest.fixture
def loads() -> LoadsPage:
    return load_pages.page()


@pytest.fixture
def start() -> StartPage:
    return start_pages.page()
