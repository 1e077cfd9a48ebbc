"""The walk on the starter rig with keyboard and mouse: inventory to protected circuit, and back after a reload."""

from __future__ import annotations

import json
import re

from rigcalc.model import read_rig
from rigcalc.rules import findings
from rigcalc.study import study


def open_starter(one) -> None:
    one.open("00-start")
    one.page.get_by_role("button", name=re.compile("Open.*Four loads", re.I)).click()
    one.page.wait_for_selector("h1 ~ * >> text=Four loads to start with")
    one.idle()


def box(one, label: str):
    return one.page.get_by_role("textbox", name=label, exact=True)


def kept(one) -> dict:
    return json.loads(one.page.evaluate("localStorage.getItem('rigcalc.rig')"))


def follow(one, title: str) -> None:
    """Through the head's links, as a person goes."""
    one.page.locator(".rig-rows").get_by_role("link", name=title, exact=True).first.click()
    one.page.wait_for_selector("#findings")
    one.idle()


def test_the_walk(site, tab, tmp_path):
    one = tab(site)
    open_starter(one)
    assert kept(one)["name"] == "Four loads to start with"

    # Loads: a power typed in kilowatts by keyboard, the day's energy follows.
    follow(one, "Load inventory")
    before = one.page.inner_text(".rig-answer")
    power = (
        box(one, "Power, Cabin lamp")
        if box(one, "Power, Cabin lamp").count()
        else one.page.get_by_role("textbox", name=re.compile(r"^Power, .*[Ll]amp"))
    )
    power.focus()
    one.page.keyboard.press("Control+A")
    one.page.keyboard.type("0,012 kW")
    one.page.keyboard.press("Enter")
    one.page.wait_for_function("before => document.querySelector('.rig-answer').innerText !== before", arg=before)
    lamp = next(load for load in kept(one)["loads"] if "amp" in load["name"] and load.get("power_w") == 12.0)
    assert lamp["typed"]["power_w"] == "0,012 kW"

    # A wrong entry is said beside its box, keeps its text, and leaves the rig as it was.
    power.fill("twelve")
    power.press("Tab")
    one.page.wait_for_selector("text=/twelve.*expected/")
    assert power.input_value() == "twelve"
    assert next(load for load in kept(one)["loads"] if load["id"] == lamp["id"])["power_w"] == 12.0
    power.fill("12 W")
    power.press("Tab")
    one.idle()

    # Energy and autonomy answer for this rig.
    follow(one, "Daily energy")
    assert "Wh" in one.page.inner_text(".rig-answer")
    follow(one, "Battery and charging")
    answer = one.page.inner_text(".rig-answer")
    assert re.search(r"\d+\.\d+ days", answer)

    # A length in feet: the run's conductor and its drop follow, the text stays as typed.
    follow(one, "Wiring")
    length = one.page.get_by_role("textbox", name=re.compile(r"^Length out, ")).nth(1)
    length.focus()
    one.page.keyboard.press("Control+A")
    one.page.keyboard.type("31 ft")
    one.page.keyboard.press("Enter")
    one.page.wait_for_function("localStorage.getItem('rigcalc.rig').includes('31 ft')")
    one.idle()
    assert "AWG" in one.page.inner_text("main")

    # Every circuit has a fuse, and the reason stands beside it.
    follow(one, "Overcurrent protection")
    text = one.page.inner_text("main")
    assert re.search(r"\d+ of \d+ circuits", text)
    assert "7.5 A" in text or "5 A" in text

    # Closed and opened again, all of it is still there.
    stored = kept(one)
    one.page.reload()
    one.page.wait_for_selector("#findings")
    one.idle()
    assert "Four loads to start with" in one.page.inner_text("#rigcalc-header")
    assert kept(one) == stored

    # The saved file is the rig; opened in another browser it is the same.
    with one.page.expect_download() as saved:
        one.page.get_by_role("button", name="Save rig file").click()
    path = tmp_path / "starter.json"
    saved.value.save_as(path)
    rig = read_rig(path.read_text(encoding="utf-8"))
    assert json.loads(path.read_text(encoding="utf-8")) == stored
    assert not any(found.stops for found in findings(study(rig)))
    other = tab(site, context="other").open("40-conductors")
    with other.page.expect_file_chooser() as chooser:
        other.page.get_by_text("Open rig file").click()
    chooser.value.set_files(path)
    other.page.wait_for_selector("#rigcalc-header >> text=Four loads to start with")
    assert kept(other) == stored
    assert one.complaints == []
    assert other.complaints == []


def test_a_file_that_is_no_rig_is_refused_and_nothing_is_lost(site, tab, tmp_path):
    one = tab(site)
    open_starter(one)
    before = kept(one)
    bad = tmp_path / "bad.json"
    bad.write_text('{"format": "rigcalc-rig", "version": 9}')
    with one.page.expect_file_chooser() as chooser:
        one.page.get_by_text("Open rig file").click()
    chooser.value.set_files(bad)
    one.page.wait_for_selector("text=version is 9; expected 1.")
    assert kept(one) == before


def test_html_in_names_is_shown_as_text(site, tab):
    one = tab(site)
    open_starter(one)
    follow(one, "Load inventory")
    name = one.page.get_by_role("textbox", name=re.compile(r"^Load, ")).first
    name.fill("<img src=x onerror=alert(1)>")
    name.press("Enter")
    one.idle()
    for title in ("Daily energy", "Wiring"):
        follow(one, title)
        assert one.page.locator("main img").count() == 0
        assert "<img src=x" in one.page.inner_text("main")
    assert one.complaints == []


def test_a_remedy_is_tried_applied_and_undone(site, tab):
    one = tab(site).open("40-conductors")  # the example van has a waste water pump on too thin a conductor
    before = one.page.inner_text("#findings")
    assert "W12" in before
    one.page.get_by_role("button", name="Find a remedy").first.click()
    one.page.get_by_role("button", name="Apply").first.click(timeout=60_000)
    one.page.wait_for_function("!document.querySelector('#findings').innerText.includes('W12')")
    one.page.get_by_role("button", name="Undo last change").click()
    one.page.wait_for_function("document.querySelector('#findings').innerText.includes('W12')")
    assert one.complaints == []
