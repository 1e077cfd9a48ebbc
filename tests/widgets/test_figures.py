"""Figures as plain dicts: plotly takes every key of them, and what they show is what they were given."""

from __future__ import annotations

import pytest

from rigcalc.study.results import Spread
from rigcalc.widgets.figures import (
    GROUPS,
    Bar,
    Point,
    as_figure,
    autonomy_by_temperature,
    autonomy_by_use,
    energy_bars,
    short,
    way_bars,
)

BARS = [
    Bar("load kettle", "Kettle <b>", "inverter", 450.0, 50.0, Spread(400.0, 500.0, 700.0)),
    Bar("load lamp", "Lamp", "direct", 200.0, 0.0, Spread(180.0, 200.0, 220.0)),
    Bar("idle inv", "Inverter, being on", "inverter_idle", 90.0, 0.0, Spread(90.0, 90.0, 90.0)),
]
HERE = Point("this rig", 1000.0, 2.0)
#: Okabe and Ito, Color Universal Design, 2008, from memory.
OKABE_ITO = {"#0072B2", "#E69F00", "#009E73", "#D55E00", "#56B4E9", "#CC79A7", "#F0E442", "#000000"}


def by_use(**more):
    return autonomy_by_use([500.0, 1000.0, 2000.0], [4.0, 2.0, 1.0], HERE, (900.0, 1200.0), 1.5, **more)


def by_temperature(outside=(True, False, False)):
    return autonomy_by_temperature([-30.0, 0.0, 25.0], [1.0, 1.6, 2.0], outside, HERE, None, "°C")


FIGURES = {
    "energy": energy_bars(BARS),
    "no loads": energy_bars([]),
    "ways": way_bars([("Direct", 100.0, 0.0), ("Inverter, idle charged to it", 110.0, 40.0)]),
    "use": by_use(),
    "what if": by_use(what_if=Point("what if", 1500.0, 1.3)),
    "temperature": by_temperature(),
    "inside the table": by_temperature((False, False, False)),
}


@pytest.mark.parametrize("name", FIGURES)
def test_plotly_takes_it_key_for_key(name):
    made = as_figure(FIGURES[name]).to_plotly_json()
    assert {trace["type"] for trace in made["data"]} <= {"bar", "scatter"}  # what the basic bundle draws
    assert len(made["data"]) == len(FIGURES[name]["data"])
    assert made["layout"]["height"] == FIGURES[name]["layout"]["height"]


def trace(figure, name):
    return next(one for one in figure["data"] if one["name"] == name)


class TestEnergyBars:
    def test_each_way_is_a_trace_and_the_bars_of_a_row_add_up_to_its_likely_energy(self):
        figure = energy_bars(BARS)
        for bar in BARS:
            bars = [one for one in figure["data"] if one["type"] == "bar" and bar.key in one["y"]]
            assert sum(one["x"][one["y"].index(bar.key)] for one in bars) == pytest.approx(bar.battery_wh.likely)

    def test_low_and_high_stand_as_a_range_around_the_likely(self):
        ranges = trace(energy_bars(BARS), "likely, from low to high")
        assert ranges["x"] == [500.0, 200.0, 90.0]
        assert ranges["error_x"]["array"] == [200.0, 20.0, 0.0]
        assert ranges["error_x"]["arrayminus"] == [100.0, 20.0, 0.0]

    def test_rows_stay_in_the_order_given_whatever_the_traces(self):
        axis = energy_bars(BARS)["layout"]["yaxis"]
        assert axis["categoryarray"] == [bar.key for bar in BARS]
        assert axis["ticktext"] == ["Kettle &lt;b&gt;", "Lamp", "Inverter, being on"]

    def test_no_loss_no_trace_of_it(self):
        assert "lost on the way" not in [one["name"] for one in energy_bars(BARS[1:])["data"]]

    def test_ways_differ_in_more_than_colour(self):
        colours = [colour for _, colour, _ in GROUPS.values()]
        hatchings = [hatching for _, _, hatching in GROUPS.values()]
        assert set(colours) <= OKABE_ITO
        assert len(set(colours)) == len(set(hatchings)) == len(GROUPS)


class TestWayBars:
    def test_idle_draw_is_stacked_on_the_load(self):
        figure = FIGURES["ways"]
        assert trace(figure, "the load with its losses")["x"] == [100.0, 110.0]
        assert trace(figure, "the inverter, being on for it")["x"] == [0.0, 40.0]

    def test_without_idle_there_is_one_trace(self):
        assert len(way_bars([("Direct", 100.0, 0.0)])["data"]) == 1


class TestAutonomy:
    def test_the_rig_and_what_is_tried_are_named_points(self):
        data = FIGURES["what if"]["data"]
        assert [(one["text"], one["x"], one["y"]) for one in data if "text" in one] == [
            (["this rig"], [1000.0], [2.0]),
            (["what if"], [1500.0], [1.3]),
        ]

    def test_the_range_of_the_day_is_shaded_and_the_wanted_days_are_a_line(self):
        figure = by_use()
        assert [(one["x0"], one["x1"]) for one in figure["layout"]["shapes"]] == [(900.0, 1200.0)]
        assert trace(figure, "days wanted")["y"] == [1.5, 1.5]

    def test_a_day_known_exactly_has_no_range(self):
        figure = autonomy_by_use([500.0, 1000.0], [4.0, 2.0], HERE, (1000.0, 1000.0), None)
        assert figure["layout"]["shapes"] == []
        assert [one["name"] for one in figure["data"]] == ["days without charging", "this rig"]

    def test_outside_the_table_the_curve_is_dotted(self):
        figure = by_temperature()
        assert trace(figure, "outside the table")["line"]["dash"] == "dot"
        assert trace(figure, "days without charging")["y"] == [None, 1.6, 2.0]
        assert "outside the table" not in [one["name"] for one in by_temperature((False,) * 3)["data"]]

    def test_everything_marked_is_inside_the_axis(self):
        for name in ("use", "what if", "temperature"):
            low, high = FIGURES[name]["layout"]["yaxis"]["range"]
            marked = [y for one in FIGURES[name]["data"] if "text" in one for y in one["y"]]
            assert all(low <= y <= high for y in [*marked, 1.5])


def test_labels_are_cut_and_escaped():
    assert short("<b>" + "x" * 30) == "&lt;b&gt;" + "x" * 16 + "…"
