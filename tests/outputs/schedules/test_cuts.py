"""Cuts add up, and a reel plan uses each cut once and fills no reel beyond its length."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.errors import InputError
from rigcalc.outputs.schedules.cuts import Cut, cut_list, cut_sums, cuts, plan, reel_plan
from tests.outputs.schedules.examples import NAMES, example, of
from tests.rigs import small_data

LENGTHS = st.lists(st.tuples(st.sampled_from(["14 AWG", "6 mm2"]), st.floats(0.0, 70.0)), max_size=40)
DUST_M = 1e-6


def pieces(rows) -> list[Cut]:
    """Cuts of these sizes and lengths, without slack."""
    return [Cut(f"W{n}", "L+", size, length_m, 0.0, "bank", "X", "") for n, (size, length_m) in enumerate(rows)]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("slack_m", [0.0, 0.3])
def test_totals_are_the_runs_and_their_slack(name, slack_m):
    one = example(name)
    ways = [way for run in one.rig.runs for way in (run.length_out_m, run.length_back_m) if way is not None]
    total_m = sum(ways) + 2 * slack_m * len(ways)
    assert cut_list(one, "metric", slack_m=slack_m)["Length to cut [m]"].sum() == pytest.approx(total_m)
    sums = cut_sums(one, "metric", slack_m=slack_m)
    assert sums["To cut [m]"].sum() == pytest.approx(total_m)
    assert sums["Cuts"].sum() == len(ways)
    assert sums["Bought [m]"].sum() == pytest.approx(total_m + sums["Left over [m]"].sum())
    assert reel_plan(one, "metric", slack_m=slack_m)["Cut [m]"].sum() == pytest.approx(total_m)


@given(LENGTHS, st.floats(1.0, 60.0))
def test_a_plan_uses_each_cut_once_and_overfills_no_reel(rows, reel_m):
    found = pieces(rows)
    reels = plan(found, reel_m)
    assert Counter(cut.wire for reel in reels for cut in reel.cuts) == Counter(cut.wire for cut in found)
    for reel in reels:
        assert sum(cut.length_m for cut in reel.cuts) <= reel.length_m + DUST_M
        assert {cut.size for cut in reel.cuts} == {reel.size}
        assert reel.own_length == (reel.length_m > reel_m)
        assert not reel.own_length or len(reel.cuts) == 1


@given(LENGTHS, st.floats(1.0, 60.0))
def test_no_later_reel_holds_what_an_earlier_one_had_room_for(rows, reel_m):
    reels = [reel for reel in plan(pieces(rows), reel_m) if not reel.own_length]
    for at, late in enumerate(reels):
        for early in (reel for reel in reels[:at] if reel.size == late.size):
            assert all(cut.length_m > early.left_m - DUST_M for cut in late.cuts)


def fewest(lengths: list[int], reel: int) -> int:
    """The fewest reels there can be, by trying every placing."""
    best = len(lengths)

    def place(at: int, used: list[int]) -> None:
        nonlocal best
        if len(used) >= best:
            return
        if at == len(lengths):
            best = len(used)
            return
        for n in range(len(used)):
            if used[n] + lengths[at] <= reel:
                place(at + 1, [*used[:n], used[n] + lengths[at], *used[n + 1 :]])
        place(at + 1, [*used, lengths[at]])

    place(0, [])
    return best


@given(st.lists(st.integers(1, 30), min_size=1, max_size=7))
def test_longest_first_stays_within_its_proven_bound(lengths):
    """FFD ≤ 11/9 · OPT + 6/9: G. Dósa, "The tight bound of first fit decreasing", ESCAPE 2007 (from memory)."""
    reels = plan(pieces([("14 AWG", float(length)) for length in lengths]), 30.0)
    assert len(reels) <= 11 / 9 * fewest(lengths, 30) + 6 / 9


def test_a_cut_longer_than_a_reel_is_bought_to_length():
    one = example("weaving-studio")
    table = reel_plan(one, "metric", reel_m=30.0)
    long = table[table["Remarks"].str.startswith("longer than a reel")]
    assert long["Cut [m]"].min() > 30
    assert list(long["Waste [%]"]) == [0] * len(long)


def test_the_reel_is_fifty_metres_or_a_hundred_feet():
    """Builder's values, common practice, no source."""
    assert reel_plan(example("starter"))["Reel, builder's value [m]"].max() == 50
    assert reel_plan(example("canal-workboat"))["Reel, builder's value [ft]"].max() == pytest.approx(100)


def test_a_chassis_return_is_no_conductor_to_cut():
    found = {cut.wire for cut in cuts(example("book-van"))}
    assert "W9 L+" in found
    assert "W9 L−" not in found


def test_a_return_of_its_own_size_is_cut_from_that_size():
    data = small_data()
    data["runs"][1] |= {"return_conductor": "12 AWG", "length_back_m": 4.0}
    back = {cut.wire: cut for cut in cuts(of(data), slack_m=0.0)}["W2 L−"]
    assert (back.size, back.length_m) == ("12 AWG", 4.0)


def test_each_cut_is_listed_once_in_every_order():
    for order in ("number", "route", "reel"):
        assert set(Counter(cut_list(example("book-van"), order=order)["Wire"]).values()) == {1}


@pytest.mark.parametrize("call", [lambda one: cuts(one, -0.1), lambda one: reel_plan(one, reel_m=0.0)])
def test_lengths_that_cannot_be_are_refused(call):
    with pytest.raises(InputError, match="expected"):
        call(example("starter"))
