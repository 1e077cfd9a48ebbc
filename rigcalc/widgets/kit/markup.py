"""Escaping: text that people typed becomes HTML in one place."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape


class Markup(str):
    """HTML that is already safe: `h` passes it on as it is."""

    __slots__ = ()


def h(template: str, /, *values: object, **named: object) -> Markup:
    """An HTML fragment with every value escaped, unless it is itself `Markup`.

    A list or tuple of values is joined. The template is the page's own text and is not escaped.

    Examples
    --------
    >>> h("<p>{}</p>", "6 < 10 & up")
    '<p>6 &lt; 10 &amp; up</p>'
    >>> h("<ul>{items}</ul>", items=[h("<li>{}</li>", name) for name in ("bus", "<panel>")])
    '<ul><li>bus</li><li>&lt;panel&gt;</li></ul>'
    """
    return Markup(template.format(*map(_safe, values), **{name: _safe(value) for name, value in named.items()}))


def _safe(value: object) -> str:
    if isinstance(value, Markup):
        return value
    if isinstance(value, Iterable) and not isinstance(value, str):
        return "".join(map(_safe, value))
    return escape("" if value is None else str(value))
