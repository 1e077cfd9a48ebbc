"""One sheet as SVG text, in millimetres, black on white."""

from __future__ import annotations

import re
from html import escape

from rigcalc.outputs.diagram.drawing import Box, Group, Line, Mark, Paper, Text
from rigcalc.outputs.diagram.symbols import Symbols, drawn

_WEIGHTS = {"thin": 0.3, "heavy": 0.9, "bar": 1.2, "dashed": 0.3, "frame": 0.25}
_FONT = "Helvetica, Arial, 'Liberation Sans', 'Nimbus Sans', sans-serif"
_NOT_XML = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")


def svg(groups: list[Group], title: str, description: str, paper: Paper, symbols: Symbols) -> str:
    """The sheet; each group carries its data, texts and symbols the box they take (left, top, right, bottom)."""
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{paper.width:g}mm" height="{paper.height:g}mm" '
        f'viewBox="0 0 {paper.width:g} {paper.height:g}" role="img" xml:lang="en">',
        f"<title>{_text(title)}</title>",
        f"<desc>{_text(description)}</desc>",
        f'<rect width="{paper.width:g}" height="{paper.height:g}" fill="#fff"/>',
        f'<g stroke="#000" stroke-width="0.3" fill="none" font-family="{_FONT}">',
        *(_group(group, symbols) for group in groups),
        "</g>",
        "</svg>",
    ]
    return "\n".join(parts) + "\n"


def _group(group: Group, symbols: Symbols) -> str:
    data = "".join(f' data-{key}="{_text(value)}"' for key, value in group.data.items())
    title = f"<title>{_text(group.title)}</title>" if group.title else ""
    dots = (f'<circle cx="{_mm(x)}" cy="{_mm(y)}" r="0.8" fill="#000"/>' for x, y in group.dots)
    inside = [
        *map(_line, group.lines),
        *dots,
        *(_mark(mark, symbols) for mark in group.marks),
        *map(_lettering, group.texts),
    ]
    return f"<g{data}>{title}{''.join(inside)}</g>"


def _line(line: Line) -> str:
    ends = f'x1="{_mm(line.x1_mm)}" y1="{_mm(line.y1_mm)}" x2="{_mm(line.x2_mm)}" y2="{_mm(line.y2_mm)}"'
    dash = ' stroke-dasharray="1.6 1"' if line.weight == "dashed" else ""
    weight = "" if line.weight == "thin" else f' stroke-width="{_WEIGHTS[line.weight]}"'
    return f'<line {ends} data-weight="{line.weight}"{weight}{dash}/>'


def _mark(mark: Mark, symbols: Symbols) -> str:
    at = f'transform="translate({_mm(mark.x_mm)} {_mm(mark.y_mm)})"'
    return f'<g data-symbol="{mark.kind}" data-box="{_box(mark.box)}" {at}>{drawn(mark.kind, symbols)}</g>'


def _lettering(text: Text) -> str:
    anchor = ' text-anchor="end"' if text.to_right else ""
    names = f' data-designation="{_text(text.designation)}"' if text.designation else ""
    base_mm = text.y_mm + text.size_mm * 0.8
    at = f'x="{_mm(text.x_mm)}" y="{_mm(base_mm)}" font-size="{text.size_mm:g}" data-box="{_box(text.box)}"'
    return f'<text {at}{anchor}{names} fill="#000" stroke="none">{_text(text.words)}</text>'


def _box(box: Box) -> str:
    return " ".join(map(_mm, box))


def _mm(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _text(text: str) -> str:
    return escape(_NOT_XML.sub("\ufffd", text))
