"""Calls of the functions in style.typ, made of strings and numbers only."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from rigcalc.outputs.report.escape import quoted, text
from rigcalc.study.results import Working

MEMORY = "†"
_SIDES = {"l": "left", "r": "right"}
_VIEW_BOX = re.compile(r'viewBox="[^"]*?([0-9.]+)[ ,]+([0-9.]+)"')


def array(items: Iterable[str]) -> str:
    """A typst array of what is already typst."""
    return f"({''.join(f'{item}, ' for item in items)})"


def strings(items: Iterable[str]) -> str:
    """A typst array of texts."""
    return array(map(text, items))


def call(name: str, *words: str) -> str:
    """A call of a function of style.typ on texts."""
    return f"#{name}({', '.join(map(text, words))})\n"


def points(items: Iterable[str]) -> str:
    """A list of sentences."""
    return call("points", *items)


def facts(pairs: Iterable[tuple[str, str]]) -> str:
    """Names with their values beside them."""
    return f"#facts({', '.join(map(strings, pairs))})\n"


def told(mark: str, words: str, under: str = "", heavy: bool = False) -> str:
    """A finding: its mark, its sentence, what stands under it."""
    return f"#told({text(mark)}, {text(words)}, {text(under)}, heavy: {'true' if heavy else 'false'})\n"


def sheet(columns: Sequence[tuple[str, str, str]], rows: Iterable[Sequence[str]], size: float = 0.85) -> str:
    """A table.

    Parameters
    ----------
    columns : sequence of (str, str, str)
        Heading, "l" or "r" for the side its cells keep to, and the width as typst writes it ("auto", "1fr"). [-]
    rows : iterable of sequence of str
        Cells, one a column. [-]
    size : float
        Size of the lettering, of that around it. [em]

    Examples
    --------
    >>> print(sheet([("Run", "l", "auto")], [["W1"]]), end="")
    #sheet((auto, ), (left, ), ("Run", ), ("W1", ), size: 0.85em)
    """
    widths, sides = array(width for _, _, width in columns), array(_SIDES[side] for _, side, _ in columns)
    parts = [widths, sides, strings(head for head, _, _ in columns), *map(strings, rows), f"size: {size:g}em"]
    return f"#sheet({', '.join(parts)})\n"


def worked(name: str, rows: Iterable[tuple[str, str, str, str]]) -> str:
    """Workings under the name of what they are of."""
    return f"#worked({', '.join([text(name), *map(strings, rows)])})\n"


def drawing(name: str, svg: str) -> str:
    """A drawing on a page of its own, on its side where it is wider than high."""
    found = _VIEW_BOX.search(svg)
    wide = found is None or float(found.group(1)) > float(found.group(2))
    return f"#drawing({'true' if wide else 'false'}, {text(name)}, {quoted(svg)})\n"


def one_page(parts: Iterable[str]) -> str:
    """Parts on one page, their lettering made smaller until they fit."""
    return f"#one_page[\n{''.join(parts)}]\n"


def marked(words: str, status: str) -> str:
    """Words with a dagger where what they rest on is only remembered.

    Examples
    --------
    >>> marked("30 A", "memory"), marked("30 A", "primary")
    ('30 A †', '30 A')
    """
    return f"{words} {MEMORY}" if status.startswith("memory") else words


def known_by(status: str) -> str:
    """A status in words that stand alone, marked where it is from memory."""
    return marked({"memory": "from memory", "memory - doubtful": "from memory, doubtful"}.get(status, status), status)


class Sources:
    """Sources numbered in the order they are first used."""

    def __init__(self) -> None:
        self._numbers: dict[tuple[str, str, str], int] = {}

    def number(self, one: Working) -> str:
        """The number of a working's source, with the mark of what is from memory."""
        key = (one.source, one.locator, one.status)
        return marked(f"[{self._numbers.setdefault(key, len(self._numbers) + 1)}]", one.status)

    def rows(self) -> list[tuple[str, str, str, str]]:
        """Number, source, clause and status of each."""
        return [
            (f"[{number}]", source, locator or "-", known_by(status))
            for (source, locator, status), number in self._numbers.items()
        ]
