"""Figures of the pages on wiring, as plain dicts: volts along the way, and the window of a fuse."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rigcalc.units import significant
from rigcalc.widgets.figures import BLUE, GREEN, INK, ORANGE, QUIET, RED, SKY, Figure, short, title

_MARGIN = {"l": 10, "r": 16, "t": 12, "b": 40}


@dataclass(frozen=True, slots=True)
class Level:
    """A voltage drawn across the whole way."""

    name: str
    volts: float


def volts_along_way(
    places: Sequence[str],
    present_v: Sequence[float],
    smaller: tuple[str, Sequence[float]] | None,
    lowest: Level | None,
    limit: Level | None,
) -> Figure:
    """Volts at each place from the source to the end of a run, as steps.

    Parameters
    ----------
    places : sequence of str
        Names from the source on.
    present_v : sequence of float
        Volts at each with the present conductors. [V]
    smaller : (size, volts) or None
        The same with the next smaller size in the last run. [V]
    lowest, limit : Level or None
        The device's lowest working voltage, and the source's voltage less the drop allowed. [V]

    Returns
    -------
    dict
        ``data`` and ``layout`` of a plotly figure.
    """
    data = [_steps("as it is", present_v, BLUE, "solid", 3)]
    if smaller is not None:
        data.append(_steps(f"with {smaller[0]}", smaller[1], ORANGE, "dash", 2))
    levels = [(lowest, RED, "dot"), (limit, QUIET, "dashdot")]
    data += [_level(level, len(places), colour, dash) for level, colour, dash in levels if level is not None]
    volts = [*present_v, *(smaller[1] if smaller else ()), *(level.volts for level, _, _ in levels if level)]
    least, most = min(volts), max(volts)
    room = max(0.12 * (most - least), 0.02)
    return {
        "data": data,
        "layout": {
            "height": 370,
            "margin": _MARGIN,
            "xaxis": {
                "tickvals": [at + 0.5 for at in range(len(places))],
                "ticktext": [lines_of(name, 14 if len(places) < 4 else 9) for name in places],
                "tickangle": 0,
                "tickfont": {"size": 11},
                "range": [0, len(places)],
                "showgrid": False,
            },
            "yaxis": {"title": title("volts"), "range": [least - room, most + 2 * room]},
            "annotations": [_label(at, one) for at, one in enumerate(present_v)],
        },
    }


def lines_of(name: str, longest: int = 9, most: int = 3) -> str:
    """A name broken between words into lines that fit under a narrow step.

    Examples
    --------
    >>> lines_of("Fuse block behind the counter"), lines_of("Bank")
    ('Fuse<br>block<br>behind t…', 'Bank')
    """
    lines = [""]
    for word in name.split():
        if lines[-1] and len(f"{lines[-1]} {word}") > longest and len(lines) < most:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}".strip()
    return "<br>".join(short(line, longest) for line in lines)


def _steps(name: str, volts: Sequence[float], colour: str, dash: str, width: float) -> Figure:
    return {
        "type": "scatter",
        "mode": "lines",
        "name": name,
        "x": list(range(len(volts) + 1)),
        "y": [*volts, volts[-1]],
        "line": {"shape": "hv", "color": colour, "dash": dash, "width": width},
        "hovertemplate": "%{y:.2f} V",
    }


def _level(level: Level, count: int, colour: str, dash: str) -> Figure:
    return {
        "type": "scatter",
        "mode": "lines",
        "name": f"{level.name}, {significant(level.volts)} V",
        "x": [0, count],
        "y": [level.volts, level.volts],
        "line": {"color": colour, "dash": dash, "width": 2},
        "hovertemplate": "%{y:.2f} V",
    }


def _label(at: int, volts: float) -> Figure:
    """The volts over a step, on paper so that no line runs through them."""
    return {
        "x": at + 0.5,
        "y": volts,
        "text": f"{significant(volts, 4)} V",
        "showarrow": False,
        "yshift": 13,
        "bgcolor": "rgba(255,255,255,0.85)",
        "font": {"color": INK},
    }


@dataclass(frozen=True, slots=True)
class Edge:
    """A current that bounds or fills the window of a fuse."""

    name: str
    current_a: float


def fuse_window(
    load: Edge, least: Edge, most: Edge | None, ratings_a: Sequence[float], chosen_a: float | None
) -> Figure:
    """What a fuse must hold and may not pass, the ratings made, and the one chosen.

    Parameters
    ----------
    load : Edge
        The continuous current. [A]
    least, most : Edge
        Both edges of the window; ``most`` None where not known. [A]
    ratings_a : sequence of float
        Ratings that the class is made in. [A]
    chosen_a : float or None
        The rating stated or chosen. [A]
    """
    edges = [(load, GREEN, "triangle-right"), (least, BLUE, "triangle-right-open")]
    edges += [(most, RED, "triangle-left")] if most is not None else []
    span = _span_a([edge.current_a for edge, _, _ in edges] + ([chosen_a] if chosen_a is not None else []), ratings_a)
    made = [rating for rating in ratings_a if rating <= span]
    rows = [edge.name for edge, _, _ in edges] + ["ratings made", "this one"]
    data = [_mark(edge.name, edge.current_a, colour, symbol, 14) for edge, colour, symbol in edges]
    data.append(_ticks(made))
    if chosen_a is not None:
        inside = chosen_a >= least.current_a * (1 - 1e-9) and (most is None or chosen_a <= most.current_a * (1 + 1e-9))
        data.append(_mark("this one", chosen_a, INK, "diamond" if inside else "x", 16))
    return {
        "data": data,
        "layout": {
            "height": 250,
            "margin": _MARGIN,
            "showlegend": False,
            "shapes": _window(least.current_a, most.current_a if most else span),
            "xaxis": {"title": title("amperes"), "range": [0, span]},
            "yaxis": {"categoryorder": "array", "categoryarray": rows, "autorange": "reversed", "ticklabelstandoff": 6},
        },
    }


def _span_a(currents_a: Sequence[float], ratings_a: Sequence[float]) -> float:
    """Right end of the axis: everything that counts, and the next rating above it."""
    top = max(currents_a, default=1.0)
    above = min((rating for rating in ratings_a if rating > top), default=top)
    return max(1.12 * top, min(above, 1.5 * top) * 1.04, 1.0)


def _mark(row: str, current_a: float, colour: str, symbol: str, size: float) -> Figure:
    return {
        "type": "scatter",
        "mode": "markers+text",
        "name": row,
        "y": [row],
        "x": [current_a],
        "text": [f"{significant(current_a)} A"],
        "textposition": "top center",
        "cliponaxis": False,
        "marker": {"color": colour, "symbol": symbol, "size": size, "line": {"color": colour, "width": 2}},
        "hovertemplate": "%{x:.3~g} A",
    }


def _ticks(ratings_a: Sequence[float]) -> Figure:
    return {
        "type": "scatter",
        "mode": "markers",
        "name": "ratings made",
        "y": ["ratings made"] * len(ratings_a),
        "x": list(ratings_a),
        "marker": {"color": QUIET, "symbol": "line-ns-open", "size": 14, "line": {"width": 2, "color": QUIET}},
        "hovertemplate": "%{x:.3~g} A",
    }


def _window(least_a: float, most_a: float) -> list[Figure]:
    if most_a < least_a:
        return []
    return [
        {
            "type": "rect", "xref": "x", "yref": "paper", "x0": least_a, "x1": most_a, "y0": 0, "y1": 1,
            "fillcolor": SKY, "opacity": 0.25, "line": {"width": 0}, "layer": "below",
        }
    ]  # fmt: skip
