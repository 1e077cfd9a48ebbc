"""All figures of the pages as plain dicts, which cost nothing to make; `as_figure` turns one into a plotly figure.

Colours are the Okabe-Ito set. No meaning hangs on colour alone: bars are hatched, lines dashed, points labelled.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape, unescape
from typing import Any

from rigcalc.study.results import Spread

BLUE, ORANGE, GREEN, RED, SKY, PURPLE = "#0072B2", "#E69F00", "#009E73", "#D55E00", "#56B4E9", "#CC79A7"
INK, QUIET = "#1c2430", "#55606e"
ROW_PX, TWO_LINES_PX, LEGEND_PX, AXIS_PX, LETTER_PX = 30, 40, 70, 60, 8
LONGEST_LABEL = 20
Figure = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Bar:
    """One row of `energy_bars`: what reaches the appliance, what is lost on the way, and its range at the battery."""

    key: str
    label: str
    group: str  # one of `GROUPS`
    useful_wh: float
    lost_wh: float
    battery_wh: Spread


#: Ways of feeding, with title, colour and hatching.
GROUPS: dict[str, tuple[str, str, str]] = {
    "direct": ("direct", BLUE, ""),
    "converter": ("by converter", GREEN, "."),
    "inverter": ("by inverter", ORANGE, "/"),
    "inverter_adapter": ("by inverter and adapter", SKY, "x"),
    "inverter_idle": ("inverter, being on", PURPLE, "-"),
}


@dataclass(frozen=True, slots=True)
class Point:
    """A marked place in a plot."""

    label: str
    x: float
    y: float


def as_figure(figure: Figure) -> Any:
    """The figure as ``plotly.graph_objects.Figure``, for notebooks; plotly checks every key of it."""
    import plotly.graph_objects as go

    return go.Figure(figure)  # type: ignore[attr-defined, no-untyped-call]


def short(text: str, longest: int = LONGEST_LABEL) -> str:
    """A label cut to fit and escaped, as plotly reads tags in texts.

    Examples
    --------
    >>> short("Lamp <rear>"), short("Refrigerator in the kitchen block")
    ('Lamp &lt;rear&gt;', 'Refrigerator in the…')
    """
    return escape(text if len(text) <= longest else text[: longest - 1].rstrip() + "…", quote=False)


def energy_bars(bars: Sequence[Bar]) -> Figure:
    """A day's energy at the battery by load and way of feeding, in the order given, each range drawn over its bar."""
    found = [_group_trace(bars, group) for group in GROUPS if any(bar.group == group for bar in bars)]
    if any(bar.lost_wh > 0 for bar in bars):
        lost = [bar for bar in bars if bar.lost_wh > 0]
        found.append(_bars(lost, [bar.lost_wh for bar in lost], "lost on the way", "#c3c9d2", "+"))
    found.append(_ranges(bars))
    layout = _bar_layout([bar.key for bar in bars], [short(bar.label) for bar in bars], "Wh a day")
    return {"data": found, "layout": {**layout, "barmode": "stack"}}


def _group_trace(bars: Sequence[Bar], group: str) -> Figure:
    rows = [bar for bar in bars if bar.group == group]
    return _bars(rows, [bar.useful_wh for bar in rows], *GROUPS[group])


def _bars(bars: Sequence[Bar], energies_wh: Sequence[float], name: str, colour: str, hatching: str) -> Figure:
    return {
        "type": "bar",
        "orientation": "h",
        "name": name,
        "y": [bar.key for bar in bars],
        "x": list(energies_wh),
        "marker": _hatched(colour, hatching),
        "text": [short(bar.label) for bar in bars],
        "textposition": "none",
        "hovertemplate": "%{text}: %{x:.0f} Wh",
    }


def _hatched(colour: str, hatching: str) -> Figure:
    pattern = {"shape": hatching, "solidity": 0.25, "fgcolor": INK, "fgopacity": 0.55, "bgcolor": colour}
    return {"color": colour, "line": {"color": INK, "width": 0.5}} | ({"pattern": pattern} if hatching else {})


def _ranges(bars: Sequence[Bar]) -> Figure:
    spreads = [bar.battery_wh for bar in bars]
    return {
        "type": "scatter",
        "mode": "markers",
        "name": "likely, from low to high",
        "y": [bar.key for bar in bars],
        "x": [spread.likely for spread in spreads],
        "error_x": {
            "symmetric": False,
            "array": [spread.high - spread.likely for spread in spreads],
            "arrayminus": [spread.likely - spread.low for spread in spreads],
            **{"type": "data", "color": INK, "thickness": 1.5, "width": 5},
        },
        "marker": {"color": INK, "size": 7, "symbol": "diamond"},
        "customdata": [[spread.low, spread.high] for spread in spreads],
        "hovertemplate": "low %{customdata[0]:.0f}, likely %{x:.0f}, high %{customdata[1]:.0f} Wh<extra></extra>",
    }


def way_bars(ways: Sequence[tuple[str, float, float]]) -> Figure:
    """One load by each way of feeding it.

    Parameters
    ----------
    ways : sequence of (label, energy_wh, idle_wh)
        Energy a day at the battery without the idle draw charged to it, and that idle draw. [Wh]
    """
    keys = [str(at) for at in range(len(ways))]
    data = [
        {
            "type": "bar",
            "orientation": "h",
            "name": name,
            "y": keys,
            "x": values,
            "marker": _hatched(colour, hatching),
            "hovertemplate": "%{x:.0f} Wh",
        }
        for name, values, colour, hatching in (
            ("the load with its losses", [way[1] for way in ways], BLUE, ""),
            ("the inverter, being on for it", [way[2] for way in ways], PURPLE, "-"),
        )
        if any(values)
    ]
    labels = ["<br>".join(map(short, way[0].split(", ", 1))) for way in ways]
    layout = _bar_layout(keys, labels, "Wh a day", TWO_LINES_PX)
    return {"data": data, "layout": {**layout, "barmode": "stack"}}


def _bar_layout(keys: Sequence[str], labels: Sequence[str], x_title: str, row_px: int = ROW_PX) -> Figure:
    """Margins are worked out here: letting plotly find them takes it several rounds a drawing."""
    height = row_px * max(len(keys), 1) + AXIS_PX + LEGEND_PX
    longest = max((len(unescape(line)) for label in labels for line in label.split("<br>")), default=0)
    return {
        "height": height,
        "margin": {"l": 16 + LETTER_PX * longest, "r": 16, "t": 8, "b": AXIS_PX},
        "bargap": 0.3,
        "xaxis": {"title": title(x_title), "rangemode": "tozero", "automargin": False},
        "yaxis": {
            "type": "category",
            "automargin": False,
            "categoryorder": "array",
            "categoryarray": list(keys),
            "tickvals": list(keys),
            "ticktext": list(labels),
            "autorange": "reversed",
            "ticklabelstandoff": 6,
        },
        "legend": _legend(height),
    }


def title(text: str) -> Figure:
    """What an axis measures."""
    return {"text": text, "standoff": 6, "font": {"size": 13}}


def _legend(height: int) -> Figure:
    inner = max(height - AXIS_PX - LEGEND_PX, 40)
    below = -AXIS_PX / inner
    return {"orientation": "h", "traceorder": "normal", "x": 0, "xanchor": "left", "y": below, "yanchor": "top"}


def autonomy_by_use(
    use_wh: Sequence[float],
    days: Sequence[float],
    here: Point,
    range_wh: tuple[float, float],
    wanted_d: float | None,
    what_if: Point | None = None,
) -> Figure:
    """Days the bank lasts against the energy a day, with this rig's place on the curve.

    Parameters
    ----------
    use_wh, days : sequences of float
        The curve. [Wh, d]
    here, what_if : Point
        This rig, and another use a day that is only tried. [Wh, d]
    range_wh, wanted_d : (low, high), float or None
        Its 10 and 90 % energy a day, shaded, and the days wanted as a line. [Wh, d]
    """
    shapes = [_shaded(*range_wh)] if range_wh[0] < range_wh[1] else []
    return _curve_figure(use_wh, days, [here, *([what_if] if what_if else [])], wanted_d, "Wh a day", shapes)


def autonomy_by_temperature(
    temperatures: Sequence[float],
    days: Sequence[float],
    outside: Sequence[bool],
    here: Point,
    wanted_d: float | None,
    unit: str,
) -> Figure:
    """Days the bank lasts against its temperature; dotted where the table has no figures.

    Parameters
    ----------
    temperatures, days, outside : sequences
        The curve, temperatures in ``unit``, and whether each lies outside the table. [°C or °F, d, -]
    here, wanted_d : Point, float or None
        This rig, and the days wanted as a line. [°C or °F, d]
    unit : str
        "°C" or "°F".
    """
    inside = [None if out else day for day, out in zip(days, outside, strict=True)]
    figure = _curve_figure(temperatures, inside, [here], wanted_d, f"temperature of the bank, {unit}", [])
    if any(outside):
        beyond = _line(temperatures, days, "outside the table", QUIET, "dot")
        figure["data"].insert(0, beyond)
    return figure


def _curve_figure(
    x: Sequence[float], y: Sequence[float | None], points: Sequence[Point], wanted_d: float | None, x_title: str,
    shapes: list[Figure],
) -> Figure:  # fmt: skip
    data = [_line(x, y, "days without charging", BLUE, "solid")]
    if wanted_d is not None:
        data.append(_line([x[0], x[-1]], [wanted_d, wanted_d], "days wanted", RED, "dash"))
    data += [_place(point, symbol) for point, symbol in zip(points, ("circle", "diamond-open"), strict=False)]
    height = 340
    return {
        "data": data,
        "layout": {
            "height": height,
            "margin": {"l": 50, "r": 16, "t": 12, "b": AXIS_PX},
            "xaxis": {"title": title(x_title), "range": [x[0], x[-1]]},
            "yaxis": {"title": title("days"), "range": [0, _top(y, points, wanted_d)]},
            "shapes": shapes,
            "legend": _legend(height),
        },
    }


def _line(x: Sequence[float], y: Sequence[float | None], name: str, colour: str, dash: str) -> Figure:
    return {
        "type": "scatter",
        "mode": "lines",
        "name": name,
        "x": list(x),
        "y": list(y),
        "line": {"color": colour, "width": 2.5 if dash == "solid" else 2, "dash": dash},
        "hovertemplate": "%{x:.4~g}: %{y:.2f} d",
    }


def _place(point: Point, symbol: str) -> Figure:
    return {
        "type": "scatter",
        "mode": "markers+text",
        "name": short(point.label),
        "x": [point.x],
        "y": [point.y],
        "text": [short(point.label)],
        "textposition": "top right",
        "cliponaxis": False,
        "marker": {"color": INK, "size": 11, "symbol": symbol, "line": {"color": INK, "width": 2}},
        "showlegend": False,
        "hovertemplate": "%{x:.4~g}: %{y:.2f} d<extra></extra>",
    }


def _shaded(low: float, high: float) -> Figure:
    place = {"xref": "x", "yref": "paper", "x0": low, "x1": high, "y0": 0, "y1": 1}
    return {"type": "rect", **place, "fillcolor": SKY, "opacity": 0.25, "line": {"width": 0}, "layer": "below"}


def _top(y: Sequence[float | None], points: Sequence[Point], wanted_d: float | None) -> float:
    """Upper end of the axis: room for the rig and what is wanted, without the far end of a steep curve."""
    marked = [point.y for point in points] + ([wanted_d] if wanted_d is not None else [])
    known = [value for value in y if value is not None]
    return 1.15 * max(min(max(known, default=1.0), 2.5 * max(marked, default=1.0)), *marked, 0.1)
