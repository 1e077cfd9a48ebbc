"""What is written to a file, by the ending of its name: report, workbook, diagram sheets or one schedule."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from rigcalc.errors import need
from rigcalc.rules.finding import Finding
from rigcalc.study import Study


@dataclass(frozen=True, slots=True)
class Wish:
    """How a file is wanted; ``paper`` and ``symbols`` left out follow the rig's units and rule set."""

    paper: Literal["a4", "letter"] | None = None
    symbols: Literal["iec", "ansi"] | None = None
    edition: Literal["full", "owner"] = "full"
    schedule: str = "wire_schedule"


def write_files(study: Study, findings: tuple[Finding, ...], path: Path, wish: Wish) -> tuple[Path, ...]:
    """Write what the ending asks for: .pdf, .xlsx, .svg (a file a sheet) or .csv.

    Raises
    ------
    InputError
        Where the ending is none of these.
    """
    made: dict[str, Callable[[], dict[str, bytes]]] = {
        ".pdf": lambda: {"": _pdf(study, findings, wish)},
        ".xlsx": lambda: {"": _xlsx(study)},
        ".svg": lambda: _svg(study, wish),
        ".csv": lambda: {"": _csv(study, wish)},
    }
    need(path.suffix.lower() in made, "Ending of the file", path.suffix or "none", ", ".join(made))
    written = []
    for part, content in made[path.suffix.lower()]().items():
        target = path.with_name(f"{path.stem}{part}{path.suffix}")
        target.write_bytes(content)
        written.append(target)
    return tuple(written)


def _paper(study: Study, wish: Wish) -> Literal["a4", "letter"]:
    return wish.paper or ("letter" if study.rig.units == "us" else "a4")


def _sheets(study: Study, wish: Wish) -> tuple[str, ...]:
    from rigcalc.outputs.diagram import diagram

    own: Literal["iec", "ansi"] = "ansi" if study.rule_set.region == "north_america" else "iec"
    return diagram(study, wish.symbols or own, _paper(study, wish))


def _pdf(study: Study, findings: tuple[Finding, ...], wish: Wish) -> bytes:
    from rigcalc.outputs.report import pdf

    return pdf(study, findings, _paper(study, wish), wish.edition, _sheets(study, wish))


def _xlsx(study: Study) -> bytes:
    from rigcalc.outputs.workbook import xlsx

    return xlsx(study)


def _svg(study: Study, wish: Wish) -> dict[str, bytes]:
    sheets = _sheets(study, wish)
    parts = [""] if len(sheets) == 1 else [f"-{number}" for number in range(1, len(sheets) + 1)]
    return {part: sheet.encode() for part, sheet in zip(parts, sheets, strict=True)}


def _csv(study: Study, wish: Wish) -> bytes:
    from rigcalc.outputs.csvs import csv_text

    return csv_text(study, wish.schedule).encode()
