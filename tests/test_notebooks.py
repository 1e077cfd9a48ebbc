"""What every notebook must be: a lesson in short cells, its outputs stored, and one view."""

from __future__ import annotations

import ast
import json
from pathlib import Path

import pytest

from rigcalc.widgets.page import PAGES

FOLDER = Path(__file__).parents[1] / "notebooks"
NOTEBOOKS = sorted(FOLDER.glob("*.ipynb"))
FORBIDDEN = (
    ast.FunctionDef,
    ast.AsyncFunctionDef,
    ast.Lambda,
    ast.ClassDef,
    ast.If,
    ast.For,
    ast.While,
    ast.Try,
    ast.With,
)


def cells(path: Path, kind: str) -> list[dict]:
    return [cell for cell in json.loads(path.read_text(encoding="utf-8"))["cells"] if cell["cell_type"] == kind]


def tags(cell: dict) -> list[str]:
    return cell["metadata"].get("tags", [])


@pytest.fixture(params=NOTEBOOKS, ids=lambda path: path.stem)
def notebook(request) -> Path:
    return request.param


def test_the_notebooks_are_the_pages():
    assert [path.stem for path in NOTEBOOKS] == [name for _, pages in PAGES for name, _ in pages]


def test_code_cells_are_short_and_hide_no_logic(notebook):
    for cell in cells(notebook, "code"):
        source = "".join(cell["source"])
        assert 1 <= len(source.splitlines()) <= 3, source
        assert not any(isinstance(node, FORBIDDEN) for node in ast.walk(ast.parse(source))), source


def test_every_cell_but_the_view_is_checked_and_stored_executed(notebook):
    views = [cell for cell in cells(notebook, "code") if "view" in tags(cell)]
    assert len(views) == 1
    assert views[0]["outputs"] == []
    assert "open_rig()" in "".join(views[0]["source"])
    for cell in cells(notebook, "code"):
        if cell not in views:
            assert "nbval-check-output" in tags(cell)
            assert cell["outputs"], "".join(cell["source"])


def test_it_opens_with_its_question(notebook):
    first = json.loads(notebook.read_text(encoding="utf-8"))["cells"][0]
    heading = "".join(first["source"]).splitlines()[0]
    assert first["cell_type"] == "markdown"
    assert heading.startswith("# ")
    assert heading.endswith("?")


def test_stored_outputs_carry_no_noise(notebook):
    for cell in cells(notebook, "code"):
        assert "execution" not in cell["metadata"]
        assert all(output["output_type"] in ("stream", "execute_result") for output in cell["outputs"])
    assert len(notebook.read_text(encoding="utf-8")) < 200_000
