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


def type_over(one, field, text: str) -> None:
    """Replace what stands in a field, by keyboard."""
    field.focus()
    one.page.keyboard.press("Control+A")
    one.page.keyboard.type(text)
    one.page.keyboard.press("Enter")


def choose_file(one, path) -> None:
    with one.page.expect_file_chooser() as chooser:
        one.page.get_by_text("Open rig file").click()
    chooser.value.set_files(path)


def lamp_power(one):
    named = box(one, "Power, Cabin lamp")
    return named if named.count() else one.page.get_by_role("textbox", name=re.compile(r"^Power, .*[Ll]amp"))


def type_a_power_in_kilowatts(one) -> str:
    """The day's energy follows. Returns the id of the lamp it was typed for."""
    follow(one, "Load inventory")
    before = one.page.inner_text(".rig-answer")
    type_over(one, lamp_power(one), "0,012 kW")
    one.page.wait_for_function("before => document.querySelector('.rig-answer').innerText !== before", arg=before)
    lamp = next(load for load in kept(one)["loads"] if "amp" in load["name"] and load.get("power_w") == 12.0)
    assert lamp["typed"]["power_w"] == "0,012 kW"
    return lamp["id"]


def type_a_power_that_is_none_and_mend_it(one, lamp_id: str) -> None:
    """It is said beside its box, keeps its text, and leaves the rig as it was."""
    power = lamp_power(one)
    power.fill("twelve")
    power.press("Tab")
    one.page.wait_for_selector("text=/twelve.*expected/")
    assert power.input_value() == "twelve"
    assert next(load for load in kept(one)["loads"] if load["id"] == lamp_id)["power_w"] == 12.0
    power.fill("12 W")
    power.press("Tab")
    one.idle()


def read_energy_and_autonomy(one) -> None:
    follow(one, "Daily energy")
    assert "Wh" in one.page.inner_text(".rig-answer")
    follow(one, "Battery and charging")
    assert re.search(r"\d+\.\d+ days", one.page.inner_text(".rig-answer"))


def type_a_length_in_feet(one) -> None:
    """The run's conductor and its drop follow, the text stays as typed."""
    follow(one, "Wiring")
    type_over(one, one.page.get_by_role("textbox", name=re.compile(r"^Length out, ")).nth(1), "31 ft")
    one.page.wait_for_function("localStorage.getItem('rigcalc.rig').includes('31 ft')")
    one.idle()
    assert "AWG" in one.page.inner_text("main")


def read_that_every_circuit_has_a_fuse(one) -> None:
    follow(one, "Overcurrent protection")
    text = one.page.inner_text("main")
    assert re.search(r"\d+ of \d+ circuits", text)
    assert "7.5 A" in text or "5 A" in text


def close_and_come_back(one) -> dict:
    """All of it is still there. Returns the rig the browser kept."""
    stored = kept(one)
    one.page.reload()
    one.page.wait_for_selector("#findings")
    one.idle()
    assert "Four loads to start with" in one.page.inner_text("#rigcalc-header")
    assert kept(one) == stored
    return stored


def save_the_rig(one, path, stored: dict) -> None:
    """The saved file is the rig, and nothing in it stops."""
    with one.page.expect_download() as saved:
        one.page.get_by_role("button", name="Save rig file").click()
    saved.value.save_as(path)
    rig = read_rig(path.read_text(encoding="utf-8"))
    assert json.loads(path.read_text(encoding="utf-8")) == stored
    assert not any(found.stops for found in findings(study(rig)))


def open_it_in_another_browser(other, path, stored: dict) -> None:
    other.open("40-conductors")
    choose_file(other, path)
    other.page.wait_for_selector("#rigcalc-header >> text=Four loads to start with")
    assert kept(other) == stored


def test_the_walk(site, tab, tmp_path):
    one, other, path = tab(site), tab(site, context="other"), tmp_path / "starter.json"
    open_starter(one)
    assert kept(one)["name"] == "Four loads to start with"
    lamp_id = type_a_power_in_kilowatts(one)
    type_a_power_that_is_none_and_mend_it(one, lamp_id)
    read_energy_and_autonomy(one)
    type_a_length_in_feet(one)
    read_that_every_circuit_has_a_fuse(one)
    stored = close_and_come_back(one)
    save_the_rig(one, path, stored)
    open_it_in_another_browser(other, path, stored)
    assert one.complaints == []
    assert other.complaints == []


def test_a_file_that_is_no_rig_is_refused_and_nothing_is_lost(site, tab, tmp_path):
    one = tab(site)
    open_starter(one)
    before = kept(one)
    bad = tmp_path / "bad.json"
    bad.write_text('{"format": "rigcalc-rig", "version": 9}')
    choose_file(one, bad)
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
