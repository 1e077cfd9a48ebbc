"""Published figures, each with its source, locator and status, and one strict loader.

Every table is a CSV file in ``data``; every row is a frozen dataclass derived from `Row`. `parse` checks a text
against its row class and names file and line of the first thing that is wrong; `load` reads a file once.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Hashable, Iterator
from dataclasses import dataclass, fields
from functools import cache
from importlib.resources import files
from typing import Any, ClassVar, TypeVar, cast, get_type_hints

STATUSES = ("primary", "secondary", "memory", "memory - doubtful", "computed")
"""Read in the document; in a reprint; recalled; recalled and uncertain; arithmetic from figures that were read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One published figure: where it comes from and how it is known.

    ``KEY`` names the fields that may not repeat within a table.
    """

    KEY: ClassVar[tuple[str, ...]] = ()
    source: str
    locator: str
    status: str

    @property
    def from_memory(self) -> bool:
        """Whether the figure was recalled and not read; such a figure never picks a size or a default."""
        return self.status.startswith("memory")


R = TypeVar("R", bound=Row)


def _text(cell: str) -> str:
    if not cell or cell != cell.strip():
        raise ValueError("text without spaces around it")
    return cell


def _float(cell: str) -> float:
    if not re.fullmatch(r"-?\d+(\.\d+)?", cell):
        raise ValueError("a plain decimal number")
    return float(cell)


def _int(cell: str) -> int:
    if not re.fullmatch(r"-?\d+", cell):
        raise ValueError("a whole number")
    return int(cell)


def _bool(cell: str) -> bool:
    if cell not in ("true", "false"):
        raise ValueError("true or false")
    return cell == "true"


_READERS: dict[Any, Callable[[str], Any]] = {str: _text, float: _float, int: _int, bool: _bool}
_OPTIONAL: dict[Any, Callable[[str], Any]] = {kind | None: read for kind, read in _READERS.items()}


def _value(kind: Any, cell: str) -> Any:
    if kind in _OPTIONAL:
        return None if cell == "" else _OPTIONAL[kind](cell)
    return _READERS[kind](cell)


def _values(kinds: dict[str, Any], cells: list[str], where: str) -> dict[str, Any]:
    if len(cells) != len(kinds):
        raise ValueError(f"{where}: {len(cells)} cells, need {len(kinds)}")
    values = {}
    for (name, kind), cell in zip(kinds.items(), cells, strict=True):
        try:
            values[name] = _value(kind, cell)
        except ValueError as error:
            raise ValueError(f"{where}: {name} is {cell!r}, need {error}") from None
    if values["status"] not in STATUSES:
        raise ValueError(f"{where}: status is {values['status']!r}, need one of {', '.join(STATUSES)}")
    return values


def _lines(name: str, text: str) -> Iterator[tuple[str, list[str]]]:
    reader = csv.reader(text.splitlines(), strict=True)
    try:
        for cells in reader:
            yield f"{name}.csv line {reader.line_num}", cells
    except csv.Error as error:
        raise ValueError(f"{name}.csv line {reader.line_num}: {error}") from None


def parse(name: str, text: str, row_type: type[R]) -> tuple[R, ...]:
    r"""Read the text of a table; the header must hold exactly the fields of ``row_type``, in any order.

    Raises
    ------
    ValueError
        Naming file and line: a wrong header, a missing or extra cell, an empty or misspelt value, an unknown
        status, a repeated key, no rows.

    Examples
    --------
    >>> parse("none", "source,locator,status\nISO 0000,1.2,seen\n", Row)
    Traceback (most recent call last):
    ...
    ValueError: none.csv line 2: status is 'seen', need one of primary, secondary, memory, memory - doubtful, computed
    """
    lines = _lines(name, text)
    (where, header), need = next(lines, (f"{name}.csv line 1", [])), [field.name for field in fields(row_type)]
    if sorted(header) != sorted(need):
        raise ValueError(f"{where}: header {header}, need {need}")
    hints, rows = get_type_hints(row_type), dict[Any, R]()
    kinds = {column: hints[column] for column in header}
    for where, cells in lines:
        row = row_type(**_values(kinds, cells, where))
        key = tuple(getattr(row, field) for field in row_type.KEY) or len(rows)
        if key in rows:
            raise ValueError(f"{where}: {key} appears twice")
        rows[key] = row
    if not rows:
        raise ValueError(f"{where}: no rows below the header")
    return tuple(rows.values())


@cache
def _load(name: str, row_type: type[Row]) -> tuple[Row, ...]:
    text = (files(__name__) / "data" / f"{name}.csv").read_text(encoding="utf-8")
    return parse(name, text, row_type)


def load(name: str, row_type: type[R]) -> tuple[R, ...]:
    """Rows of ``data/<name>.csv``, read and checked once.

    Examples
    --------
    >>> from rigcalc.tables.conductors import ConductorSize
    >>> load("conductor_sizes", ConductorSize)[0].name
    '18 AWG'
    """
    return cast("tuple[R, ...]", _load(name, cast("Hashable", row_type)))
