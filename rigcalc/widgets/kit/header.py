"""The head of a page: the stages of the work, the pages of the present one, the rig and its findings."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import traitlets

from rigcalc.widgets.kit.markup import Markup, h
from rigcalc.widgets.kit.sheet import Sheet

STAGES = ("Loads", "Battery and charging", "Wiring", "Proof", "Paper")
_MARKS = {"stop": ("■", "stop", "stops"), "warn": ("▲", "warning", "warnings"), "advice": ("●", "advice", "advice")}


@dataclass(frozen=True, slots=True)
class Page:
    """One page; `href` is relative, as ``10-loads.ipynb``."""

    title: str
    href: str
    current: bool = False


@dataclass(frozen=True, slots=True)
class Stage:
    """One of the stages; without pages it is shown as coming later."""

    title: str
    pages: Sequence[Page] = field(default=())

    @property
    def current(self) -> bool:
        """Whether one of its pages is the one shown."""
        return any(page.current for page in self.pages)


class Header(Sheet):
    """Stages as one row, pages of the present stage as another; on a phone one control for both.

    Examples
    --------
    >>> header = Header([Stage("Loads", [Page("Load inventory", "10-loads.ipynb", current=True)]), Stage("Paper")])
    >>> header.show_rig("Ringing trailer", facts="12 V", stops=1, warnings=3)
    >>> "■ 1 stop" in header.html, "▲ 3 warnings" in header.html, "later" in header.html
    (True, True, True)
    """

    kind = traitlets.Unicode("header").tag(sync=True)

    def __init__(self, stages: Sequence[Stage], findings_href: str = "") -> None:
        self._stages, self._findings_href = tuple(stages), findings_href
        super().__init__(self._whole(Markup("")))

    def show_rig(self, name: str, facts: str = "", stops: int = 0, warnings: int = 0, advice: int = 0) -> None:
        """Say which rig is open and how many findings it has."""
        counts = [
            self._count(kind, number)
            for kind, number in (("stop", stops), ("warn", warnings), ("advice", advice))
            if number
        ]
        self.show(self._whole(h('<strong>{}</strong> <span class="rig-quiet">{}</span>', name, facts), counts))

    def _count(self, kind: str, number: int) -> Markup:
        mark, one, many = _MARKS[kind]
        words = f"{mark} {number} {one if number == 1 else many}"
        if not self._findings_href:
            return h('<span class="rig-count rig-{}">{}</span> ', kind, words)
        return h('<a class="rig-count rig-{}" href="{}">{}</a> ', kind, self._findings_href, words)

    def _whole(self, rig: Markup, counts: Sequence[Markup] = ()) -> Markup:
        return h(
            '<div class="rig-head">{rows}{steps}<p class="rig-id">{rig} '
            '<span class="rig-quiet" data-rig-saved data-own role="status"></span> {counts}</p></div>',
            rows=self._rows(),
            steps=self._steps(),
            rig=rig,
            counts=list(counts),
        )

    def _rows(self) -> Markup:
        pages = [_item(page) for stage in self._stages if stage.current for page in stage.pages]
        return h(
            '<nav class="rig-rows" aria-label="Steps"><ol>{}</ol>{}</nav>',
            [_stage_item(stage) for stage in self._stages],
            h('<ol class="rig-pages">{}</ol>', pages) if pages else Markup(""),
        )

    def _steps(self) -> Markup:
        at = next((i for i, stage in enumerate(self._stages) if stage.current), None)
        title = "All steps" if at is None else f"Step {at + 1} of {len(self._stages)}: {self._stages[at].title}"
        lists = [
            h("<li>{}<ol>{}</ol></li>", stage.title + ("" if stage.pages else ", later"), map(_item, stage.pages))
            for stage in self._stages
        ]
        return h(
            '<nav class="rig-steps" aria-label="Steps, short"><details data-key="steps"><summary>{}</summary>'
            "<ol>{}</ol></details></nav>",
            title,
            lists,
        )


def _item(page: Page) -> Markup:
    current = Markup(' aria-current="page"') if page.current else Markup("")
    return h('<li{}><a href="{}">{}</a></li>', current, page.href, page.title)


def _stage_item(stage: Stage) -> Markup:
    if not stage.pages:
        return h("<li>{} <small>later</small></li>", stage.title)
    current = Markup(' aria-current="step"') if stage.current else Markup("")
    return h('<li{}><a href="{}">{}</a></li>', current, stage.pages[0].href, stage.title)
