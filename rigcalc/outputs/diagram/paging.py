"""Which part of the rig goes on which sheet: at most sixteen rows and four runs in line in one piece."""

from __future__ import annotations

from collections import deque

from rigcalc.outputs.diagram.nodes import Node, Piece, row_counts, walk

MOST_ROWS = 16  # rows of one piece
SHEET_ROWS = 17  # with the empty rows between pieces
MOST_DEPTH = 4
BANK_ROWS = 3  # what is written below the bank needs them


def sheets(roots: list[Node]) -> list[list[Piece]]:
    """Pieces by sheet, each with the number of its sheet, in the order they are met from the bank.

    The loads of an inverter are always a piece of their own. What does not fit is cut off at the smallest branch that
    makes the rest fit, else at the largest.
    """
    waiting = deque(Piece(root) for root in roots)
    done: list[Piece] = []
    while waiting:
        piece = waiting.popleft()
        waiting.extend(_cut(piece))
        done.append(piece)
    return _packed(done)


def piece_rows(piece: Piece) -> int:
    """Rows a piece takes on its sheet."""
    rows = row_counts(piece.root)[piece.root]
    return max(rows, BANK_ROWS) if piece.root.kind == "bank" else rows


def _packed(pieces: list[Piece]) -> list[list[Piece]]:
    found: list[list[Piece]] = []
    free: list[int] = []
    for piece in pieces:
        rows = piece_rows(piece)
        at = next((n for n, room in enumerate(free) if rows + 1 <= room), None)
        if at is None:
            at = len(found)
            found.append([])
            free.append(SHEET_ROWS + 1)
        found[at].append(piece)
        free[at] -= rows + 1
        piece.sheet = at + 1
    return found


def _cut(piece: Piece) -> list[Piece]:
    """Pieces cut off so that this one fits."""
    cut = [
        _off(piece, node)
        for node, depth in list(walk(piece.root))
        if depth and node.children and node.kind == "inverter"
    ]
    deep = [node for node, depth in walk(piece.root) if depth == MOST_DEPTH and node.children]
    cut += [_off(piece, node) for node in deep]
    while (rows := row_counts(piece.root))[piece.root] > MOST_ROWS:
        cut.append(_smaller(piece, rows))
    return cut


def _smaller(piece: Piece, rows: dict[Node, int]) -> Piece:
    """Cut one branch off, or a part of one that is too long for any sheet."""
    over = rows[piece.root] - MOST_ROWS
    whole = [node for node in rows if node is not piece.root and 2 <= rows[node] <= MOST_ROWS]
    enough = [node for node in whole if rows[node] - 1 >= over]
    order = {node: n for n, (node, _) in enumerate(walk(piece.root))}
    if enough:
        return _off(piece, min(enough, key=lambda node: (rows[node], order[node])))
    if whole:
        return _off(piece, max(whole, key=lambda node: (rows[node], order[node])))
    long = max((node for node in rows if rows[node] > MOST_ROWS), key=lambda node: order[node])
    keep = max(1, rows[long] - over - 1)
    return _split(piece, long, keep)


def _off(piece: Piece, node: Node) -> Piece:
    """The children of a node as a piece of their own."""
    node.onward = Piece(Node(node.id, node.kind, children=node.children), back=piece)
    node.children = []
    return node.onward


def _split(piece: Piece, node: Node, keep: int) -> Piece:
    """The later children of a node as a piece of their own."""
    rest = Piece(Node(node.id, node.kind, children=node.children[keep:]), back=piece)
    node.children = [*node.children[:keep], Node(node.id, "more", onward=rest)]
    return rest
