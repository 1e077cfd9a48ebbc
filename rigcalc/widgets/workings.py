"""How a number came about, folded away under it: equation, numbers put in, result, source and how it is known."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from rigcalc.study.results import Working
from rigcalc.widgets.kit import Markup, h


def status_tag(status: str) -> Markup:
    """How a figure is known, as a tag; one from memory or not stated is marked as a warning.

    Examples
    --------
    >>> status_tag("secondary"), status_tag("memory")
    ('<span class="rig-tag">secondary</span>', '<span class="rig-tag rig-warn">▲ memory</span>')
    """
    if status.startswith(("memory", "not stated", "outside")):
        return h('<span class="rig-tag rig-warn">▲ {}</span>', status)
    return h('<span class="rig-tag">{}</span>', status)


def steps(workings: Iterable[Working], headed: bool = True) -> Markup:
    """Workings below each other, each with its name unless ``headed`` is false."""
    return h("{}", [_step(one, headed) for one in workings])


def working(one: Working, part: str = "") -> Markup:
    """One working, folded under its name; ``part`` keeps it apart from others of the same name on a page."""
    return folded(f"Working: {one.what[:1].lower()}{one.what[1:]}", [one], part, headed=False)


def folded(title: str, workings: Iterable[Working], part: str = "", headed: bool = True) -> Markup:
    """Several workings under one title; nothing where there are none."""
    body = steps(workings, headed)
    if not body:
        return Markup("")
    return h(
        '<details data-key="working {}"><summary>{}</summary><div class="rig-working">{}</div></details>',
        part or title,
        title,
        body,
    )


@lru_cache(maxsize=1024)
def _step(one: Working, headed: bool) -> Markup:
    where = " · ".join(text for text in (one.source, one.locator) if text)
    sum_line = h("= {} = <strong>{}</strong>", one.numbers, one.result) if one.equation else _plain(one)
    return h(
        '{}{}<p>{}</p><p class="rig-quiet">{} {}</p>',
        h("<p><strong>{}</strong></p>", one.what) if headed else "",
        h("<p>{}</p>", one.equation) if one.equation else "",
        sum_line,
        where,
        status_tag(one.status),
    )


def _plain(one: Working) -> Markup:
    return h("{}<strong>{}</strong>", f"{one.numbers}: " if one.numbers else "", one.result)
