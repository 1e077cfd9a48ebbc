"""Figures of the wiring pages: plotly accepts every key, and what is drawn is what was given."""

from __future__ import annotations

import pytest

from rigcalc.widgets.figures import as_figure
from rigcalc.widgets.wiring_figures import Edge, Level, fuse_window, lines_of, volts_along_way

DRAWN = {"bar", "scatter"}  # by the basic bundle of plotly.js


@pytest.mark.parametrize("smaller", [None, ("12 AWG", [12.0, 11.8, 11.2])])
@pytest.mark.parametrize("lowest", [None, Level("the device works down to", 10.5)])
@pytest.mark.parametrize("limit", [None, Level("drop of 3 %", 11.64)])
def test_volts_along_the_way(smaller, lowest, limit):
    figure = as_figure(volts_along_way(["Bank", "<bus>", "Lamp"], [12.0, 11.9, 11.6], smaller, lowest, limit))
    assert {trace.type for trace in figure.data} <= DRAWN
    assert list(figure.data[0].y) == [12.0, 11.9, 11.6, 11.6]
    assert len(figure.data) == 1 + sum(one is not None for one in (smaller, lowest, limit))
    low, high = figure.layout.yaxis.range
    assert low < min(y for trace in figure.data for y in trace.y)
    assert high > 12.0
    assert figure.layout.xaxis.ticktext[1] == "&lt;bus&gt;"


def test_a_way_without_any_drop_has_an_axis_all_the_same():
    low, high = volts_along_way(["Bank", "Bus"], [12.0, 12.0], None, None, None)["layout"]["yaxis"]["range"]
    assert low < 12.0 < high


@pytest.mark.parametrize("most", [None, Edge("14 AWG in W2", 15.0)])
@pytest.mark.parametrize("chosen_a", [None, 7.5, 20.0])
def test_the_window_of_a_fuse(most, chosen_a):
    ratings = (1.0, 5.0, 7.5, 10.0, 15.0, 20.0, 500.0)
    figure = as_figure(fuse_window(Edge("load", 4.2), Edge("load / 0.8", 5.25), most, ratings, chosen_a))
    assert {trace.type for trace in figure.data} <= DRAWN
    rows = {trace.name: trace for trace in figure.data}
    assert list(rows["load"].x) == [4.2]
    assert ("this one" in rows) is (chosen_a is not None)
    assert 500.0 not in rows["ratings made"].x  # far off what counts
    assert figure.layout.xaxis.range[1] > max(4.2, 5.25, chosen_a or 0, most.current_a if most else 0)
    if chosen_a == 20.0 and most is not None:
        assert rows["this one"].marker.symbol == "x"
    assert figure.layout.shapes[0].x0 == 5.25


def test_edges_that_cross_shade_nothing():
    assert (
        fuse_window(Edge("load", 20.0), Edge("least", 25.0), Edge("most", 15.0), (15.0, 30.0), None)["layout"]["shapes"]
        == []
    )


@pytest.mark.parametrize("name", ["", "Bank", "Fuse block behind the counter of the kitchen", "x" * 80])
def test_names_under_a_step_stay_narrow(name):
    lines = lines_of(name).split("<br>")
    assert len(lines) <= 3
    assert all(len(line) <= 9 for line in lines)
