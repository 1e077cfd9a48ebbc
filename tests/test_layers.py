"""Imports point downwards only, and importing the package costs nothing."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "rigcalc"
#: From the bottom up; a layer imports itself and what stands above it in this list.
ORDER = (
    ("errors",),
    ("units",),
    ("formulas", "tables"),
    ("solvers",),
    ("model",),
    ("readers",),
    ("study",),
    ("rules",),
    ("outputs",),
    ("widgets",),
    ("serve",),
    ("__main__",),
)
RANK = {layer: rank for rank, layers in enumerate(ORDER) for layer in layers}
NOT_ALLOWED = {("model", "solvers")}  # a rig is data: nothing in it is worked out
HEAVY = {"pandas", "numpy", "plotly", "pint", "numba", "pvlib", "typst", "scipy", "matplotlib", "openpyxl", "schemdraw"}
MODULES = sorted(PACKAGE.rglob("*.py"))


def layer_of(path: Path) -> str:
    return path.relative_to(PACKAGE).with_suffix("").parts[0]


def imported(path: Path, tree: ast.AST) -> Iterator[str]:
    """Every module of this package that a module imports, at any depth of its code."""
    package = ["rigcalc", *path.relative_to(PACKAGE).parent.parts]
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            whole = ".".join([*base, *([node.module] if node.module else [])])
            yield whole
            yield from (f"{whole}.{alias.name}" for alias in node.names if whole == "rigcalc")
        elif isinstance(node, ast.Call) and ast.unparse(node.func).endswith(("import_module", "__import__")):
            yield from (arg.value for arg in node.args if isinstance(arg, ast.Constant) and isinstance(arg.value, str))


def upward(path: Path, text: str) -> list[str]:
    """What a module imports from a layer it may not import from."""
    own, found = layer_of(path), []
    for name in imported(path, ast.parse(text)):
        other = name.split(".")[1] if name.startswith("rigcalc.") else None
        if other is None or other not in RANK or other == own:
            continue
        if own not in RANK or RANK[other] >= RANK[own] or (own, other) in NOT_ALLOWED:
            found.append(name)
    return found


def test_every_module_stands_in_a_named_layer():
    assert {layer_of(path) for path in MODULES} - {"__init__"} <= set(RANK)


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_imports_point_downwards_only(path):
    assert upward(path, path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    ("module", "text", "found"),
    [
        ("model/rig.py", "from rigcalc.study import study", ["rigcalc.study"]),
        ("model/rig.py", "def f():\n    import rigcalc.rules.finding", ["rigcalc.rules.finding"]),
        ("model/rig.py", "from ..widgets.page import page", ["rigcalc.widgets.page"]),
        ("model/rig.py", "from rigcalc import outputs", ["rigcalc.outputs"]),
        ("model/rig.py", "import importlib\nimportlib.import_module('rigcalc.serve')", ["rigcalc.serve"]),
        ("model/rig.py", "from rigcalc.solvers.radial import solve_radial", ["rigcalc.solvers.radial"]),
        ("formulas/energy.py", "from rigcalc.tables.battery import x", ["rigcalc.tables.battery"]),
        ("errors.py", "from rigcalc.units import parse", ["rigcalc.units"]),
        ("__init__.py", "from rigcalc.errors import InputError", ["rigcalc.errors"]),
        ("model/rig.py", "from rigcalc.model.bank import Bank\nfrom rigcalc.units import parse", []),
    ],
)
def test_the_check_itself_finds_what_it_must(module, text, found):
    assert upward(PACKAGE / module, text) == found


def at_import(tree: ast.Module) -> Iterator[ast.stmt]:
    """Statements that run when the module is imported."""
    waiting: list[ast.stmt] = list(tree.body)
    while waiting:
        node = waiting.pop()
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            continue
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test):
            waiting += node.orelse
            continue
        yield node
        waiting += [child for child in ast.walk(node) if isinstance(child, ast.stmt) and child is not node]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_heavy_libraries_are_imported_where_they_are_used(path):
    names = set()
    for node in at_import(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            names.add(node.module.split(".")[0])
    assert names & HEAVY == set()


def modules_after(statement: str) -> set[str]:
    """Modules a fresh interpreter has loaded after a statement and not before it."""
    code = f"import sys; before = set(sys.modules); {statement}; print(*set(sys.modules) - before)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=PACKAGE.parent)
    return set(done.stdout.split())


def test_importing_the_package_loads_nothing_else():
    assert modules_after("import rigcalc") == {"rigcalc"}


def test_reading_a_rig_loads_no_heavy_library():
    loaded = {name.split(".")[0] for name in modules_after("import rigcalc.model")}
    assert "pydantic" in loaded
    assert loaded & (HEAVY | {"IPython", "ipywidgets"}) == set()
