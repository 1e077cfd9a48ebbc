"""Current-carrying capacity of conductors and the factors that lower it.

A look-up never interpolates between sizes or insulation temperatures. With ``read_only`` (the default) a figure
that was not read is withheld.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import ClassVar, TypeVar

from rigcalc.errors import InputError, need
from rigcalc.tables import Row, load
from rigcalc.tables.conductors import conductor

AMPACITY_TABLES = (
    "ampacity_33cfr183425",
    "ampacity_nec_310_16",
    "ampacity_bs7671_4d1a",
    "ampacity_bs7671_4e1a",
    "ampacity_iso_annex_a",
)
INSTALLATIONS = ("insulated_wall", "enclosed", "clipped", "free_air")
"""Ways of laying a cable in the BS 7671 tables: reference methods A, B, C and F."""
BUNDLING_METHODS = ("cfr_abyc", "nec", "bs_4c1")


@dataclass(frozen=True, slots=True, kw_only=True)
class AmpacityRow(Row):
    """Capacity of one size at one insulation temperature; ``any`` where a table does not ask how it is laid."""

    KEY: ClassVar[tuple[str, ...]] = ("size", "insulation_c", "installation")
    size: str
    insulation_c: float
    installation: str
    ampacity_a: float


@dataclass(frozen=True, slots=True, kw_only=True)
class EngineSpaceFactor(Row):
    """Factor on ampacity within an engine space; the values fit 50 °C."""

    KEY: ClassVar[tuple[str, ...]] = ("insulation_c",)
    insulation_c: float
    factor: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BundlingFactor(Row):
    """Factor on ampacity for conductors, or circuits where ``counts`` says so, laid together."""

    KEY: ClassVar[tuple[str, ...]] = ("method", "from_count")
    method: str
    from_count: int
    to_count: int | None
    counts: str
    factor: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AmbientFactor(Row):
    """Factor on a 30 °C ampacity for an ambient up to ``upper_bound_c``."""

    KEY: ClassVar[tuple[str, ...]] = ("upper_bound_c", "insulation_c")
    upper_bound_c: float
    insulation_c: float
    factor: float


R = TypeVar("R", AmpacityRow, EngineSpaceFactor, AmbientFactor)


def _highest_column(rows: list[R], insulation_c: float, read_only: bool) -> R | None:
    """The row of the highest insulation temperature not above the conductor's own."""
    row = max((r for r in rows if r.insulation_c <= insulation_c), key=lambda r: r.insulation_c, default=None)
    return None if row is None or (read_only and row.from_memory) else row


@cache
def ampacity_a(
    table: str, size_name: str, insulation_c: float, installation: str | None = None, read_only: bool = True
) -> AmpacityRow | None:
    """Capacity of a size in one published table, with its source.

    Parameters
    ----------
    table : str
        One of `AMPACITY_TABLES`.
    size_name : str
        A named size, such as ``10 AWG`` or ``6 mm2``.
    insulation_c : float
        Temperature rating of the insulation; the highest column not above it is taken. [°C]
    installation : str, optional
        One of `INSTALLATIONS`; needed by the BS 7671 tables, not asked by the others.
    read_only : bool
        Withhold figures that come from memory.

    Returns
    -------
    AmpacityRow or None
        None where the table has no such cell, or only from memory.

    Examples
    --------
    >>> ampacity_a("ampacity_33cfr183425", "10 AWG", 105).ampacity_a
    60.0
    >>> ampacity_a("ampacity_bs7671_4d1a", "6 mm2", 70, "clipped").ampacity_a
    47.0
    """
    if table not in AMPACITY_TABLES:
        raise InputError("Ampacity table", table, f"one of {', '.join(AMPACITY_TABLES)}")
    if installation is not None or "bs7671" in table:
        need(installation in INSTALLATIONS, "Installation", installation, f"one of {', '.join(INSTALLATIONS)}")
    name = conductor(size_name).name
    rows = load(table, AmpacityRow)
    found = [row for row in rows if row.size == name and row.installation in ("any", installation)]
    return _highest_column(found, insulation_c, read_only)


@cache
def engine_space_factor(insulation_c: float) -> EngineSpaceFactor | None:
    """Engine-space factor of the highest insulation temperature not above the conductor's own.

    Examples
    --------
    >>> engine_space_factor(105).factor
    0.85
    """
    return _highest_column(list(load("engine_space_factors", EngineSpaceFactor)), insulation_c, read_only=True)


@cache
def ambient_factor_nec(ambient_c: float, insulation_c: float, read_only: bool = True) -> AmbientFactor | None:
    """Factor for an ambient other than 30 °C; the row whose upper bound is the next one not below ``ambient_c``.

    None where the table prints no factor (too hot for that insulation) or only from memory.

    Examples
    --------
    >>> ambient_factor_nec(50, 75).factor, ambient_factor_nec(60, 60)
    (0.75, None)
    """
    rows = load("ambient_factors_nec", AmbientFactor)
    bound_c = min((row.upper_bound_c for row in rows if row.upper_bound_c >= ambient_c), default=None)
    columns = {row.insulation_c for row in rows if row.insulation_c <= insulation_c}
    found = [row for row in rows if row.upper_bound_c == bound_c and row.insulation_c == max(columns, default=None)]
    return _highest_column(found, insulation_c, read_only)


@cache
def bundling_factor(method: str, count: int, read_only: bool = True) -> BundlingFactor | None:
    """Factor for ``count`` conductors (or circuits, see ``counts``) laid together.

    None where the method prints no factor for that count, or only from memory.

    Examples
    --------
    >>> bundling_factor("cfr_abyc", 3).factor, bundling_factor("nec", 3).factor
    (0.7, 1.0)
    """
    if method not in BUNDLING_METHODS:
        raise InputError("Bundling method", method, f"one of {', '.join(BUNDLING_METHODS)}")
    need(count >= 1, "Conductors laid together", count, "1 or more")
    for row in load("bundling_factors", BundlingFactor):
        if row.method == method and row.from_count <= count and (row.to_count is None or count <= row.to_count):
            return None if read_only and row.from_memory else row
    return None
