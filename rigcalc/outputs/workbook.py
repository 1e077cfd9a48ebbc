"""All schedules in one workbook (XLSX), a sheet each, ready to print; the same rig gives the same bytes."""

from __future__ import annotations

import datetime
import io
import math
import re
import zipfile
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from rigcalc import CAUTION
from rigcalc.outputs.cells import is_risky, plain
from rigcalc.outputs.schedules import SCHEDULES
from rigcalc.outputs.schedules.frame import DOES_NOT_APPLY, NOT_STATED, system_of
from rigcalc.study import Study

if TYPE_CHECKING:
    import pandas as pd
    from openpyxl import Workbook

_WRITTEN = datetime.datetime(2000, 1, 1)  # a rig's own date is printed; a file's would differ each time
_ENTRY_DATE = (1980, 1, 1, 0, 0, 0)
_PAPER = {"metric": 9, "us": 1}  # A4, Letter
_FORMATS = {
    "V": "0.00", "A": "0.0", "m": "0.00", "ft": "0.0", "°C": "0", "°F": "0", "Wh": "0", "Ah": "0.0", "W": "0.0",
    "%": "0.0", "h": "0.00", "min": "0.0", "s": "0.0", "mΩ": "0.00",
}  # fmt: skip
_UNIT = re.compile(r" \[([^\[\]]+)\]$")
_NARROW, _WIDE = 6, 48
_PAGE = 200  # characters across a landscape page that can still be read, about 8 points high


def xlsx(study: Study, units: str | None = None) -> bytes:
    """The workbook of a study.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]

    Returns
    -------
    bytes
        A first sheet that says what the rig is, then a sheet for each of `rigcalc.outputs.schedules.SCHEDULES`. Text
        stays text, also where it looks like a formula. Nothing in it comes from the clock.

    References
    ----------
    ECMA-376 (Office Open XML), SpreadsheetML.
    """
    from openpyxl import Workbook

    book = Workbook(write_only=True)
    book.properties.created = book.properties.modified = _WRITTEN
    book.properties.creator, book.properties.title = "rigcalc", study.rig.name
    system = system_of(study, units)
    _add(book, study, "Rig", ("What", "Value"), _first(study, system), system)
    for one in SCHEDULES.values():
        frame = one.function(study, units)
        _add(book, study, one.title, list(frame.columns), _rows(frame), system)
    return _packed(book)


def _first(study: Study, system: str) -> list[list[object]]:
    """What the rig is, by which rules and in which units."""
    rig = study.rig
    lines: list[list[object]] = [
        ["Rig", rig.name],
        ["Revision", rig.revision or NOT_STATED],
        ["Date", rig.date or NOT_STATED],
        ["System", f"{rig.system_v} V DC"],
        ["Rule set", study.rule_set.title],
        ["Units", {"metric": "metric: m, °C", "us": "US customary: ft, °F"}[system]],
        ["Conductor sizes", "names of their own series, never converted"],
        ["Empty cell", "to be written in by hand"],
        [NOT_STATED, "a fact nobody gave: neither passed nor failed"],
        ["not known", "a result that could not be worked out from what is stated and was read"],
        [DOES_NOT_APPLY, "a fact that does not apply here"],
        ["Caution", CAUTION],
    ]
    lines += [["Assumption", text] for text in study.assumptions]
    return lines + [["Sheet", one.title] for one in SCHEDULES.values()]


def _rows(frame: pd.DataFrame) -> list[tuple[object, ...]]:
    return list(zip(*(frame[head].tolist() for head in frame.columns), strict=True))


def _add(
    book: Workbook, study: Study, title: str, heads: Sequence[str], rows: Sequence[Sequence[object]], system: str
) -> None:
    """One sheet: a frozen head, typed cells, columns as wide as they need, and its print set-up."""
    sheet = book.create_sheet(title)
    cells = [[plain(value) for value in row] for row in rows]
    widths = _widths(heads, cells)
    _set_up(sheet, study, title, system, math.ceil(sum(width for _, width in widths) / _PAGE))
    formats = [_FORMATS.get(found[1], "General") if (found := _UNIT.search(head)) else "General" for head in heads]
    styles = _styles(sheet)
    for letter, width in widths:
        sheet.column_dimensions[letter].width = width
    sheet.append([_cell(sheet, head, "General", styles, head=True) for head in heads])
    for row in cells:
        sheet.append([_cell(sheet, value, form, styles) for value, form in zip(row, formats, strict=True)])


@dataclass(frozen=True)
class _Styles:
    """A finished cell of each kind, whose look the others share."""

    text: Any
    risky: Any
    head: Any
    numbers: dict[str, Any]


def _styles(sheet: Any) -> _Styles:
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Alignment, Font

    def looking(**look: object) -> Any:
        cell = WriteOnlyCell(sheet, "")
        for name, value in look.items():
            setattr(cell, name, value)
        return cell

    wrapped = Alignment(wrap_text=True, vertical="top")
    top = Alignment(vertical="top")
    return _Styles(
        text=looking(alignment=wrapped),
        risky=looking(alignment=wrapped, quotePrefix=True),
        head=looking(alignment=wrapped, font=Font(bold=True)),
        numbers={form: looking(alignment=top, number_format=form) for form in {"General", *_FORMATS.values()}},
    )


def _cell(sheet: Any, value: str | int | float | None, form: str, styles: _Styles, head: bool = False) -> Any:
    """A cell; a text is an inline string, marked as text where a program could take it for a formula."""
    from openpyxl.cell import WriteOnlyCell

    if value is None:
        return None
    cell = WriteOnlyCell(sheet, value)
    if isinstance(value, str):
        cell.data_type = "s"  # never "f", whatever it begins with
        cell._style = (styles.head if head else styles.risky if is_risky(value) else styles.text)._style
    else:
        cell._style = styles.numbers[form]._style
    return cell


def _widths(heads: Sequence[str], cells: Sequence[Sequence[object]]) -> list[tuple[str, float]]:
    from openpyxl.utils import get_column_letter

    found = []
    for at, head in enumerate(heads):
        longest = max((len(_digits(row[at])) for row in cells), default=0)
        word = max(map(len, head.split()))
        found.append((get_column_letter(at + 1), min(_WIDE, max(_NARROW, longest, word, len(head) / 3) + 2)))
    return found


def _digits(value: object) -> str:
    return f"{value:.5g}" if isinstance(value, float) else str(value or "")


def _set_up(sheet: Any, study: Study, title: str, system: str, pages: int) -> None:
    """Landscape, fitted to as few pages across as can be read; head and first column on each, the rig in the margins.

    A sheet of 500 characters on one page across would be printed 1 mm high.
    """
    rig = study.rig
    sheet.freeze_panes = "A2"
    sheet.print_title_rows, sheet.print_title_cols = "1:1", "A:A"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.paperSize = _PAPER[system]
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = pages, 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    margin = {"left": title, "center": rig.name, "right": f"Revision {rig.revision or NOT_STATED}"}
    for place, text in margin.items():
        getattr(sheet.oddHeader, place).text = text.replace("&", "&&")
    sheet.oddFooter.left.text = CAUTION
    sheet.oddFooter.right.text = f"Date {rig.date or NOT_STATED}, page &P of &N"


def _packed(book: Workbook) -> bytes:
    """The file with every entry's date fixed, in the order of the entries."""
    from openpyxl.writer.excel import ExcelWriter

    first, last = io.BytesIO(), io.BytesIO()
    ExcelWriter(book, zipfile.ZipFile(first, "w", zipfile.ZIP_STORED)).save()
    with zipfile.ZipFile(first) as found, zipfile.ZipFile(last, "w", zipfile.ZIP_DEFLATED) as packed:
        for name in found.namelist():
            entry = zipfile.ZipInfo(name, _ENTRY_DATE)
            entry.compress_type = zipfile.ZIP_DEFLATED
            packed.writestr(entry, found.read(name))
    return last.getvalue()
