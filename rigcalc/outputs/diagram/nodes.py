"""The rig as trees to draw: each node with what it feeds, and the rows they take."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from rigcalc.model import Rig, Run
from rigcalc.model.network import BANK

LOOSE = "loose"  # the root of all that no run reaches


@dataclass(slots=True, eq=False)
class Node:
    """A place in the drawing with the run into it; ``onward`` is the piece that goes on from here."""

    id: str
    kind: str  # "bank", "bus", "block", "inverter", "converter", "load", "loose", "more"
    run: Run | None = None
    children: list[Node] = field(default_factory=list)
    onward: Piece | None = None


@dataclass(slots=True, eq=False)
class Piece:
    """A tree drawn in one place; ``back`` is the piece it comes from."""

    root: Node
    back: Piece | None = None
    sheet: int = 0


def walk(root: Node) -> Iterator[tuple[Node, int]]:
    """Each node with its depth below the root, parents first, in the order of the rows."""
    waiting = [(root, 0)]
    while waiting:
        node, depth = waiting.pop()
        yield node, depth
        waiting.extend((child, depth + 1) for child in reversed(node.children))


def row_counts(root: Node) -> dict[Node, int]:
    """Rows that each node takes: those of its children, or one."""
    found: dict[Node, int] = {}
    for node, _ in reversed(list(walk(root))):
        found[node] = sum(found[child] for child in node.children) or 1
    return found


def forest(rig: Rig) -> list[Node]:
    """The tree of the bank, then trees that no run from the bank reaches, then single parts without a run."""
    nodes = {BANK: Node(BANK, "bank")}
    for kind in ("buses", "blocks", "inverters", "converters", "loads"):
        single = "bus" if kind == "buses" else kind[:-1]
        nodes.update((part.id, Node(part.id, single)) for part in getattr(rig, kind))
    fed = set()
    for run in rig.runs:
        nodes[run.to_id].run = run
        nodes[run.from_id].children.append(nodes[run.to_id])
        fed.add(run.to_id)
    for load in rig.loads:
        if load.fed_by is not None and load.id not in fed:
            nodes[load.fed_by].children.append(nodes[load.id])
            fed.add(load.id)
    apart = [node for node in nodes.values() if node.id not in fed and node.id != BANK]
    loose = Node("", LOOSE, children=[node for node in apart if not node.children])
    return [nodes[BANK], *(node for node in apart if node.children), *([loose] if loose.children else [])]
