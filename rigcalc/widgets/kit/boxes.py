"""Laying pieces out: one column, or inputs at the left and results at the right (one column on a phone)."""

from __future__ import annotations

from ipywidgets.widgets.widget import Widget
from ipywidgets.widgets.widget_box import Box

from rigcalc.widgets.kit.base import shared_layout


def column(*children: Widget) -> Box:
    """Pieces below each other."""
    return Box(children, layout=shared_layout(), _dom_classes=["rig-column"])  # type: ignore[no-untyped-call]


def line(*children: Widget) -> Box:
    """Small pieces beside each other."""
    return Box(children, layout=shared_layout(), _dom_classes=["rig-line"])  # type: ignore[no-untyped-call]


def two_columns(inputs: Widget, results: Widget) -> Box:
    """Inputs at the left, results at the right."""
    return Box([inputs, results], layout=shared_layout(), _dom_classes=["rig-two"])  # type: ignore[no-untyped-call]
