"""What all schedules share: heads with units, the rig's system of units, and how an absent fact reads."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, TypeVar

from rigcalc.errors import InputError
from rigcalc.study import Study
from rigcalc.units import SUFFIXES, customary

if TYPE_CHECKING:
    import pandas as pd

NOT_STATED = "not stated"  # a fact the rig can hold and nobody gave
NOT_KNOWN = "not known"  # a result that could not be worked out from what is stated and read
BY_HAND = None  # an empty cell, written in on site
DOES_NOT_APPLY = "–"
BUILDERS = "builder's value"
_UNIT = re.compile(r" \[([^\[\]]+)\]$")
_SUFFIX = {unit: suffix for suffix, (unit, other, _) in SUFFIXES.items() if unit != other}
T = TypeVar("T")


def frame(study: Study, units: str | None, heads: Sequence[str], rows: Iterable[Sequence[object]]) -> pd.DataFrame:
    """Rows in SI units as a table in the person's units.

    Parameters
    ----------
    study : Study
        Its rig's units count where ``units`` is None.
    units : str or None
        "metric" or "us". [-]
    heads : sequence of str
        Each with its unit where it has one: "Length out [m]". [-]
    rows : iterable of sequences
        A value a head; numbers in metres and °C, as everywhere inside.

    Returns
    -------
    pandas.DataFrame
        Metres and °C, and their heads, in feet and °F for "us"; everything else as it is.
    """
    import pandas as pd

    system = system_of(study, units)
    suffixes = [_suffix(head) for head in heads]
    cells = [[_shown(value, to, system) for value, to in zip(row, suffixes, strict=True)] for row in rows]
    return pd.DataFrame(cells, columns=[_head(*one, system) for one in zip(heads, suffixes, strict=True)])


def system_of(study: Study, units: str | None) -> str:
    """The system of units asked for, else the rig's own."""
    if units not in (None, "metric", "us"):
        raise InputError("Units", units, "metric or us")
    return units or study.rig.units


def _suffix(head: str) -> str | None:
    found = _UNIT.search(head)
    return _SUFFIX.get(found[1]) if found else None


def _head(head: str, suffix: str | None, system: str) -> str:
    return head if suffix is None or system == "metric" else _UNIT.sub(f" [{SUFFIXES[suffix][1]}]", head)


def _shown(value: object, suffix: str | None, system: str) -> object:
    return customary(value, suffix, system) if suffix and isinstance(value, int | float) else value


def stated(value: T | None) -> T | str:
    """The value, or "not stated".

    Examples
    --------
    >>> stated(4.0), stated(None)
    (4.0, 'not stated')
    """
    return NOT_STATED if value is None else value


def known(value: T | None) -> T | str:
    """The value, or "not known"."""
    return NOT_KNOWN if value is None else value


def natural(text: str) -> tuple[object, ...]:
    """Key that sorts W2 before W10.

    Examples
    --------
    >>> sorted(["W10", "W2", "W1b"], key=natural)
    ['W1b', 'W2', 'W10']
    """
    return tuple(int(part) if part.isdigit() else part for part in re.split(r"([0-9]+)", text))


def in_order(rows: Iterable[T], order: str, keys: Mapping[str, Callable[[T], object]]) -> list[T]:
    """Rows sorted by one of the keys, by number where that leaves them equal."""
    if order not in keys:
        raise InputError("Order", order, f"one of {', '.join(keys)}")
    by_number: list[T] = sorted(rows, key=keys["number"])  # type: ignore[arg-type]
    return sorted(by_number, key=keys[order])  # type: ignore[arg-type]
