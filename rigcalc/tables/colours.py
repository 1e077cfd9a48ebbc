"""Colours of wires by scheme: one scheme a rig, its legend printed with it; schemes are never mixed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from rigcalc.errors import InputError
from rigcalc.tables import Row, load

SCHEMES = {
    "abyc": "ABYC, boats",
    "iso": "ISO, small craft",
    "iec": "IEC 60445",
    "na_vehicle": "North American trailers, as in house wiring",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class WireColour(Row):
    """Colour of one kind of wire: positive, negative, bond, or the positive of a use that has its own."""

    KEY: ClassVar[tuple[str, ...]] = ("scheme", "wire")
    scheme: str
    wire: str
    colour: str


def legend(scheme: str) -> tuple[WireColour, ...]:
    """All colours of a scheme, in the order of the table.

    Examples
    --------
    >>> [row.colour for row in legend("iso")]
    ['red', 'black', 'green/yellow']
    """
    if scheme not in SCHEMES:
        raise InputError("Colour scheme", scheme, f"one of {', '.join(SCHEMES)}")
    return tuple(row for row in load("wire_colours", WireColour) if row.scheme == scheme)


def wire_colour(scheme: str, wire: str) -> WireColour:
    """Colour of a kind of wire; a use without a colour of its own has that of the positive.

    Examples
    --------
    >>> wire_colour("abyc", "pump").colour, wire_colour("abyc", "other").colour
    ('brown', 'red')
    """
    rows = {row.wire: row for row in legend(scheme)}
    return rows.get(wire, rows["positive"])
