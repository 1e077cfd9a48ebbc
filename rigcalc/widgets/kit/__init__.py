"""The pieces pages are made of: forms, tables, sheets, plots, the browser's store, files, the head.

Each is a small widget whose Python side holds the truth and whose browser side keeps what is typed.
All work without a browser: ``piece._handle({"type": "edit", ...})`` is what the browser would send.
"""

from rigcalc.widgets.kit.base import Piece
from rigcalc.widgets.kit.boxes import column, line, two_columns
from rigcalc.widgets.kit.fields import Fields, FieldSpec, SliderSpec
from rigcalc.widgets.kit.header import Header, Page, Stage
from rigcalc.widgets.kit.markup import Markup, h
from rigcalc.widgets.kit.plot import Plot
from rigcalc.widgets.kit.saveopen import Download, SaveOpen
from rigcalc.widgets.kit.sheet import Sheet
from rigcalc.widgets.kit.store import Store
from rigcalc.widgets.kit.table import ColumnSpec, RowSpec, Table

__all__ = [
    "ColumnSpec",
    "Download",
    "FieldSpec",
    "Fields",
    "Header",
    "Markup",
    "Page",
    "Piece",
    "Plot",
    "RowSpec",
    "SaveOpen",
    "Sheet",
    "SliderSpec",
    "Stage",
    "Store",
    "Table",
    "column",
    "h",
    "line",
    "two_columns",
]
