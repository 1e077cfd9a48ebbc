"""The workbook, read back with openpyxl and as plain XML."""

from __future__ import annotations

import io
import os
import subprocess
import sys
import zipfile
from functools import cache
from pathlib import Path

import pytest
from openpyxl import load_workbook
from openpyxl.workbook import Workbook

from rigcalc import CAUTION
from rigcalc.outputs.schedules import SCHEDULES
from rigcalc.outputs.workbook import xlsx
from tests.outputs.schedules.examples import MARKUP, RISKY, example, hostile, of
from tests.rigs import example_data

ROOT = Path(__file__).parents[2]
SHEETS = ["Rig", *(one.title for one in SCHEDULES.values())]


@cache
def book(name: str) -> Workbook:
    return load_workbook(io.BytesIO(xlsx(example(name))))


def test_a_sheet_a_schedule_and_every_row_of_it():
    assert book("canal-workboat").sheetnames == SHEETS
    for one in SCHEDULES.values():
        frame, sheet = one.function(example("canal-workboat")), book("canal-workboat")[one.title]
        assert [cell.value for cell in sheet[1]] == list(frame.columns)
        assert sheet.max_row == 1 + len(frame)


def test_the_first_sheet_says_what_the_rig_is():
    lines = {row[0].value: row[1].value for row in book("canal-workboat")["Rig"].iter_rows(min_row=2)}
    assert lines["Rig"] == "Canal workboat"
    assert lines["Revision"] == "D"
    assert lines["Date"] == "2025-02-20"
    assert lines["Rule set"] == example("canal-workboat").rule_set.title
    assert lines["Units"] == "US customary: ft, °F"
    assert lines["Caution"] == CAUTION


def test_every_sheet_is_set_up_for_paper_and_carries_rig_revision_and_caution():
    for sheet in book("canal-workboat"):
        assert sheet.freeze_panes == "A2"
        assert (sheet.print_title_rows, sheet.print_title_cols) == ("$1:$1", "$A:$A")
        assert sheet.page_setup.orientation == "landscape"
        assert sheet.page_setup.fitToHeight == 0  # as many pages down as there are rows
        assert sheet.sheet_properties.pageSetUpPr.fitToPage
        assert sheet.oddHeader.center.text == "Canal workboat"
        assert sheet.oddHeader.right.text == "Revision D"
        assert sheet.oddFooter.left.text == CAUTION
        assert all(dimension.width >= 8 for dimension in sheet.column_dimensions.values())


def test_a_page_across_holds_what_can_be_read():
    """Excel's 277 mm of a landscape A4 take 200 characters of 11 points, 1.9 mm each (from memory), at 73 %."""
    pages = {}
    for sheet in book("weaving-studio"):
        width = sum(dimension.width for dimension in sheet.column_dimensions.values())
        pages[sheet.title] = sheet.page_setup.fitToWidth
        assert 200 * (pages[sheet.title] - 1) < width <= 200 * pages[sheet.title]
    assert pages["Cut list"] == pages["Panel legend"] == 1 < pages["Wire schedule"]


@pytest.mark.parametrize(("name", "paper"), [("canal-workboat", 1), ("weaving-studio", 9)])  # ECMA-376: Letter, A4
def test_paper_follows_the_units(name, paper):
    assert {sheet.page_setup.paperSize for sheet in book(name)} == {paper}


def test_numbers_are_numbers_with_a_format():
    sheet = book("canal-workboat")["Energy budget"]
    at = [cell.value for cell in sheet[1]].index("At the battery [Wh]")
    cells = [row[at] for row in sheet.iter_rows(min_row=2)]
    assert {cell.data_type for cell in cells} == {"n"}
    assert {cell.number_format for cell in cells} == {"0"}
    assert sum(cell.value for cell in cells) == pytest.approx(example("canal-workboat").energy.daily_energy_wh)


def test_texts_that_look_like_formulas_survive_as_text():
    data = xlsx(hostile())
    cells = [cell for sheet in load_workbook(io.BytesIO(data)) for row in sheet.iter_rows() for cell in row]
    held = {cell.value: cell for cell in cells if isinstance(cell.value, str)}
    for text in (*RISKY, MARKUP, "\tx", "On @SUM(A1) (camp) [Wh]"):
        assert held[text].data_type == "s"
    assert all(held[text].quotePrefix for text in RISKY)
    assert [cell for cell in cells if cell.data_type == "f"] == []
    with zipfile.ZipFile(io.BytesIO(data)) as packed:
        sheets = [packed.read(name) for name in packed.namelist() if name.startswith("xl/worksheets/")]
    assert len(sheets) == len(SHEETS)
    assert not any(b"<f>" in sheet or b"<script" in sheet for sheet in sheets)


def test_a_name_cannot_write_codes_into_the_margin():
    with zipfile.ZipFile(io.BytesIO(xlsx(of(example_data("starter") | {"name": "A &P& B"})))) as packed:
        text = packed.read("xl/worksheets/sheet1.xml")
    assert b"A &amp;&amp;P&amp;&amp; B" in text


def test_the_same_rig_gives_the_same_bytes_whatever_the_hash_seed():
    code = (
        "import hashlib, json, sys; from rigcalc.model import read_rig; from rigcalc.study import study;"
        "from rigcalc.outputs.workbook import xlsx;"
        "print(hashlib.sha256(xlsx(study(read_rig(open('notebooks/rigs/book-van.json').read())))).hexdigest())"
    )
    answers = set()
    for seed in ("1", "2"):
        env = os.environ | {"PYTHONHASHSEED": seed, "TZ": f"UTC{seed}"}
        done = subprocess.run(
            [sys.executable, "-c", code], capture_output=True, text=True, check=True, env=env, cwd=ROOT
        )
        answers.add(done.stdout.strip())
    assert len(answers) == 1


def test_nothing_in_it_comes_from_the_clock():
    with zipfile.ZipFile(io.BytesIO(xlsx(example("starter")))) as packed:
        assert {entry.date_time for entry in packed.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        core = packed.read("docProps/core.xml").decode()
    assert core.count("2000-01-01T00:00:00Z") == 2
