"""What a person does on a page and reads there, without a browser."""

from __future__ import annotations

import re
from typing import Any, TypeVar

Page = TypeVar("Page")


def viewed(page: Page) -> Page:
    """The page once its parts stand, as a notebook shows it."""
    page.view()
    return page


def type_in(fields: Any, key: str, text: str | bool) -> None:
    """Type into a field, choose from its list, or tick it."""
    fields._handle({"type": "edit", "key": key, "text": text})


def type_in_cell(table: Any, row_id: str, key: str, text: str) -> None:
    table._handle({"type": "edit", "id": row_id, "key": key, "text": text})


def press(sheet: Any, act: str, arg: str = "") -> None:
    """Press the button of a sheet that does this."""
    sheet._handle({"type": "act", "act": act, "arg": arg})


def words(html: str) -> str:
    """The text a person reads, without markup."""
    return " ".join(re.sub(r"<[^>]+>", " ", html).split())
