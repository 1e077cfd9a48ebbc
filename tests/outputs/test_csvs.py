"""CSV as RFC 4180 has it, read back by Python's own reader."""

from __future__ import annotations

import csv
import io

import pytest

from rigcalc.outputs.csvs import csv_text
from rigcalc.outputs.schedules import SCHEDULES
from tests.outputs.schedules.examples import MARKUP, NAMES, RISKY, example, hostile

STARTS = tuple("=+-@\t\r\n")


def rows(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text, newline=""), strict=True))


def is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True


@pytest.mark.parametrize("name", NAMES)
def test_every_row_has_as_many_cells_as_the_head_and_lines_end_as_the_standard_says(name):
    for schedule_id, one in SCHEDULES.items():
        text = csv_text(example(name), schedule_id)
        assert text.endswith("\r\n")
        assert text.replace("\r\n", "").count("\r") == 0
        found = rows(text)
        assert len(found) == 1 + len(one.function(example(name)))
        assert {len(row) for row in found} == {len(found[0])}
        text.encode("utf-8")


def test_texts_that_look_like_formulas_survive_as_text():
    cells = [cell for one in SCHEDULES for row in rows(csv_text(hostile(), one)) for cell in row]
    assert {f"'{text}" for text in RISKY} | {"'\tx", MARKUP} <= set(cells)
    assert [cell for cell in cells if cell.startswith(STARTS) and not is_number(cell)] == []


def test_figures_are_the_frame_s():
    frame = SCHEDULES["energy_budget"].function(example("starter"))
    head, *body = rows(csv_text(example("starter"), "energy_budget"))
    at = head.index("At the battery [Wh]")
    assert [float(row[at]) for row in body] == pytest.approx(list(frame["At the battery [Wh]"]), rel=5e-9)


def test_units_can_be_asked_for():
    assert "Length out [ft]" in csv_text(example("starter"), "wire_schedule", "us")
    assert "Length out [m]" in csv_text(example("starter"), "wire_schedule")
