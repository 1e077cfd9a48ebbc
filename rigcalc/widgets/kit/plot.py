"""A plotly figure sent as JSON, with its meaning in words and, if wanted, as a table."""

from __future__ import annotations

import json
import math
from collections.abc import Mapping, Sequence
from typing import Any, Protocol

import traitlets

from rigcalc.widgets.kit.base import Piece


class Figure(Protocol):
    """What a plotly figure offers here; plotly itself is not imported."""

    def to_plotly_json(self) -> dict[str, Any]:
        """The figure as a dict."""


class Plot(Piece):
    """Draws what `show` is given. A plain dict with ``data`` and ``layout`` needs no plotly in Python.

    The kit adds quiet defaults (ink, grid, colour order, legend above); what the figure says wins, but the
    template plotly puts into every figure is left out.

    Examples
    --------
    >>> plot = Plot()
    >>> plot.show({"data": [{"y": [1, float("nan")]}]}, alt="One point.", columns=["y"], rows=[[1]])
    >>> plot.figure
    '{"data":[{"y":[1,null]}]}'
    """

    kind = traitlets.Unicode("plot").tag(sync=True)
    figure = traitlets.Unicode("").tag(sync=True)
    alt = traitlets.Unicode("").tag(sync=True)
    table = traitlets.Dict().tag(sync=True)

    def __init__(self) -> None:
        super().__init__()

    def show(
        self,
        figure: Figure | Mapping[str, Any],
        alt: str,
        columns: Sequence[str] = (),
        rows: Sequence[Sequence[object]] = (),
    ) -> None:
        """Draw a figure.

        Parameters
        ----------
        figure : plotly.graph_objects.Figure or dict
            The figure; a dict holds ``data`` and ``layout``.
        alt : str
            What it shows, as a sentence; stands above the drawing.
        columns, rows : sequences
            The same data as a table, folded away under the drawing.
        """
        parts = figure if isinstance(figure, Mapping) else _without_template(figure.to_plotly_json())
        with self.hold_sync():
            self.figure = json.dumps(plain(parts), separators=(",", ":"), allow_nan=False)
            self.alt = alt
            self.table = {"columns": list(columns), "rows": plain(rows)} if rows else {}

    def _handle(self, content: Mapping[str, Any], buffers: Sequence[bytes] = ()) -> None:
        """A plot sends nothing but the wish for the library, which every piece answers."""


def _without_template(figure: dict[str, Any]) -> dict[str, Any]:
    layout = {name: value for name, value in figure.get("layout", {}).items() if name != "template"}
    return {**figure, "layout": layout}


def plain(value: Any) -> Any:
    """A value as JSON can carry it: arrays become lists, NaN and infinities become null.

    Examples
    --------
    >>> plain({"x": (1, float("inf")), "name": "bank"})
    {'x': [1, None], 'name': 'bank'}
    """
    if value is None or isinstance(value, (str, bool, int)):
        return value
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if isinstance(value, Mapping):
        return {str(key): plain(item) for key, item in value.items()}
    if hasattr(value, "tolist"):
        return plain(value.tolist())
    if isinstance(value, (list, tuple)):
        return [plain(item) for item in value]
    return value.isoformat() if hasattr(value, "isoformat") else str(value)
