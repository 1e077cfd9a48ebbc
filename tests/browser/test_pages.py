"""Every page as it is served: nothing asked outside, no complaint, no barrier, no sideways scroll on a phone."""

from __future__ import annotations

import pytest

from rigcalc.widgets.page import PAGES

NAMES = [name for _, pages in PAGES for name, _ in pages]


@pytest.mark.parametrize("name", NAMES)
def test_a_page_is_quiet_and_open_to_all(site, tab, name):
    wide = tab(site).open(name)
    wide.page.wait_for_selector("#findings")
    wide.idle()
    assert wide.page.locator("h1").count() == 1
    assert wide.axe() == []
    assert wide.complaints == []
    assert "Traceback" not in wide.page.inner_text("body")


@pytest.mark.parametrize("name", NAMES)
def test_a_page_fits_a_phone(site, tab, name):
    phone = tab(site, width=360, context="phone").open(name)
    phone.page.wait_for_selector("#findings")
    phone.idle()
    assert phone.overflow_px() <= 1
    assert phone.page.locator(".rig-steps summary").is_visible()
    assert phone.axe() == []
    assert phone.complaints == []


def test_the_command_shows_the_start_page_at_its_root(site, tab):
    one = tab(site)
    one.page.goto(site)
    one.page.wait_for_selector("#findings")
    assert "Which rig are you working on?" in one.page.inner_text("h1")
