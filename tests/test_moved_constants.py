"""Each constant of the formulas, moved by 1 %, changes an answer that a notebook of its topic has stored.

A forked process moves one literal in place, runs the notebook's cells and compares their answers with the stored ones,
as nbval does; a constant that no notebook notices would be one that nobody checks.
"""

from __future__ import annotations

import ast
import contextlib
import copy
import io
import os
import types
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

import pytest

pytest.importorskip("IPython")
from IPython.lib.pretty import pretty

from tests.test_notebooks import FOLDER, cells, tags

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="moves constants in forked processes")

NOISE = 1e-9  # a tolerance for floats, no constant of a formula
TOPICS = {
    "energy": ("10-load-inventory", "20-daily-energy"),
    "inverter": ("20-daily-energy",),
    "coldbox": ("20-daily-energy",),
    "spread": ("20-daily-energy",),
    "autonomy": ("30-battery-autonomy",),
    "capacity": ("30-battery-autonomy",),
    "conductor": ("40-conductors",),
    "voltage_drop": ("40-conductors",),
    "ampacity": ("40-conductors", "50-overcurrent-protection"),
    "overcurrent": ("50-overcurrent-protection",),
    "fault": ("50-overcurrent-protection",),
}


def source_of(topic: str) -> str:
    return Path(import_module(f"rigcalc.formulas.{topic}").__file__).read_text(encoding="utf-8")


class _Refusals(ast.NodeTransformer):
    """Leaves out what only says which input is refused, and in which words."""

    def visit_Expr(self, node: ast.Expr) -> ast.AST | None:
        return None if isinstance(node.value, ast.Call) and getattr(node.value.func, "id", "") == "need" else node

    def visit_If(self, node: ast.If) -> ast.AST | None:
        return None if isinstance(node.body[-1], ast.Raise) else node

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST | None:
        return None if node.name == "__post_init__" else self.generic_visit(node)


def literals(tree: ast.AST) -> list[ast.Constant]:
    """Numbers that a module calculates with, 0 and 1 left out: they say "none" and "the whole"."""
    kept = _Refusals().visit(copy.deepcopy(tree))
    lines = {(node.lineno, node.col_offset) for node in ast.walk(kept) if isinstance(node, ast.Constant)}
    found = [node for node in ast.walk(tree) if isinstance(node, ast.Constant)]
    found = [node for node in found if (node.lineno, node.col_offset) in lines]
    return [node for node in found if type(node.value) in (int, float) and node.value not in (0, 1, NOISE)]


def places() -> Iterator[tuple[str, int, str]]:
    for topic in TOPICS:
        text = source_of(topic)
        for at, node in enumerate(literals(ast.parse(text))):
            line = text.splitlines()[node.lineno - 1].strip()
            yield topic, at, f"{topic}:{node.lineno} {node.value} in {line[:60]}"


def move(topic: str, at: int) -> None:
    """Put functions and constants of the module in place that were compiled with one literal 1 % larger."""
    module = import_module(f"rigcalc.formulas.{topic}")
    tree = ast.parse(source_of(topic))
    node = literals(tree)[at]
    node.value = node.value * 1.01
    fresh = types.ModuleType(module.__name__)
    exec(compile(tree, module.__name__, "exec"), fresh.__dict__)
    for name, value in vars(fresh).items():
        old = getattr(module, name, None)
        if isinstance(value, types.FunctionType):
            take_over(old, value)
        elif isinstance(value, type) and value.__module__ == module.__name__:
            for method, code in vars(value).items():
                if isinstance(code, types.FunctionType):
                    take_over(getattr(old, method), code)
        elif isinstance(value, (int, float)):
            setattr(module, name, value)


def take_over(old: types.FunctionType, new: types.FunctionType) -> None:
    """Change a function in place, for everyone who imported it."""
    old.__code__, old.__defaults__, old.__kwdefaults__ = new.__code__, new.__defaults__, new.__kwdefaults__


def answer(source: str, names: dict[str, object]) -> str:
    """What a cell prints, and its last value as a notebook shows it."""
    tree, printed = ast.parse(source), io.StringIO()
    last = ast.Expression(tree.body.pop().value) if isinstance(tree.body[-1], ast.Expr) else None
    with contextlib.redirect_stdout(printed):
        exec(compile(tree, "cell", "exec"), names)
        value = eval(compile(last, "cell", "eval"), names) if last else None
    return printed.getvalue() + ("" if value is None else pretty(value))


def stored(cell: dict) -> str:
    texts = [one.get("text") or one["data"]["text/plain"] for one in cell["outputs"]]
    return "".join("".join(text) for text in texts)


def notices(name: str) -> bool:
    """Whether any stored answer of a notebook differs from what its cell gives now."""
    names: dict[str, object] = {}
    for cell in cells(FOLDER / f"{name}.ipynb", "code"):
        source = "".join(cell["source"])
        if "view" in tags(cell):
            source = source[: source.rindex("\n")]  # the session; the page itself has tests of its own
        try:
            if answer(source, names).strip() != stored(cell).strip():
                return True
        except Exception:
            return True
    return False


def noticed(topic: str, at: int | None) -> bool:
    """The same in a process of its own, with a literal moved."""
    pid = os.fork()
    if pid == 0:
        try:
            if at is not None:
                move(topic, at)
            os._exit(int(any(notices(name) for name in TOPICS[topic])))
        finally:
            os._exit(9)
    code = os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1])
    assert code in (0, 1)
    return code == 1


@pytest.mark.parametrize("topic", TOPICS)
def test_with_nothing_moved_every_stored_answer_stands(topic):
    assert not noticed(topic, None)


@pytest.mark.parametrize(("topic", "at"), [one[:2] for one in places()], ids=[one[2] for one in places()])
def test_a_constant_moved_by_one_percent_is_noticed(topic, at):
    import_module("rigcalc.widgets")  # once, before the copies are made
    assert noticed(topic, at)
