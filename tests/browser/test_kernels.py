"""Kernels end with their pages, also when a page has no chance to say so, and not before."""

from __future__ import annotations

import time

import psutil

from tests.browser.conftest import served


def kernels(process) -> set[int]:
    return {child.pid for child in psutil.Process(process.pid).children(recursive=True)}


def gone(process, pids: set[int], within_s: float) -> bool:
    deadline = time.monotonic() + within_s
    while time.monotonic() < deadline and pids & kernels(process):
        time.sleep(0.2)
    return not pids & kernels(process)


def test_a_kernel_ends_when_its_page_is_left(kit_server, tab):
    address, process = kit_server
    before = kernels(process)
    one = tab(address).open("00-first")
    mine = kernels(process) - before
    assert len(mine) == 1
    one.page.close(run_before_unload=True)
    assert gone(process, mine, within_s=20)


def test_an_idle_kernel_without_a_page_ends_and_one_with_a_page_does_not(kit_folder, chromium, tab):
    with served(kit_folder, cull_after_s=15) as (address, process):
        kept = tab(address).open("00-first")
        mine = kernels(process)
        lost = chromium.new_context()
        page = lost.new_page()
        page.goto(f"{address}voila/render/10-second.ipynb")
        page.wait_for_selector(".rig-answer")
        other = kernels(process) - mine
        assert len(other) == 1
        lost.close()
        assert gone(process, other, within_s=60)
        kept.page.get_by_role("button", name="Apply").click()
        kept.page.wait_for_selector("text=applied 1 times")


def test_a_page_whose_kernel_died_says_so(kit_server, tab):
    address, process = kit_server
    before = kernels(process)
    one = tab(address).open("00-first")
    for pid in kernels(process) - before:
        psutil.Process(pid).kill()
    one.page.wait_for_selector("text=■ The calculation has stopped, so nothing typed now is worked out or kept.")


def test_a_page_cut_off_from_its_server_says_so(kit_folder, tab):
    with served(kit_folder) as (address, _process):
        one = tab(address).open("00-first")
    one.page.wait_for_selector("text=■ The calculation cannot be reached, so nothing typed now is kept.")
