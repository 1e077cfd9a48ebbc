"""The frame every page stands in: head, question, answer, inputs left, results right, findings, cautions."""

from __future__ import annotations

import sys
from collections.abc import Sequence

from ipywidgets.widgets.widget import Widget
from ipywidgets.widgets.widget_box import Box

from rigcalc import CAUTION
from rigcalc.errors import InputError
from rigcalc.model import read_rig
from rigcalc.rules.finding import Finding
from rigcalc.widgets.accepting import AcceptPanel
from rigcalc.widgets.findings import FindingsSheet
from rigcalc.widgets.kit import Download, Header, Page, SaveOpen, Sheet, Stage, Store, column, h, line, two_columns
from rigcalc.widgets.session import Session

#: Stage, then (page id, title, notebook) of its pages.
PAGES: tuple[tuple[str, tuple[tuple[str, str], ...]], ...] = (
    ("Loads", (("00-start", "Start"), ("10-load-inventory", "Load inventory"), ("20-daily-energy", "Daily energy"))),
    ("Battery and charging", (("30-battery-autonomy", "Battery autonomy"),)),
    ("Wiring", (("40-conductors", "Conductors"), ("50-overcurrent-protection", "Overcurrent protection"))),
    ("Proof", ()),
    ("Paper", ()),
)
CAUTIONS = (
    CAUTION,
    "Batteries feed short circuits with thousands of amperes: disconnect them before you touch a conductor.",
    "How a figure is known: primary, read in the document or stated by you; secondary, read in a reprint or quotation; "
    "memory, recalled and to be confirmed; computed, worked out here.",
)
#: First letters or ids of the rules that belong to each page.
RULES_OF = {
    "10-load-inventory": ("L01", "L03", "L04", "L05"),
    "20-daily-energy": ("L06", "L07", "L08", "A01", "A05"),
    "30-battery-autonomy": ("B", "D01", "D02"),
    "40-conductors": ("W", "A02", "D04"),
    "50-overcurrent-protection": ("P",),
}
STORE_KEY = "rigcalc.rig"
SWITCH_S = 0.0005  # the thread that talks to the browser gets its turn while the rest of a page is worked out


def _others(page_id: str) -> dict[tuple[str, str], tuple[str, ...]]:
    """Id and title of every other page, with its rules."""
    titles = {page: title for _, pages in PAGES for page, title in pages}
    return {(page, titles[page]): rules for page, rules in RULES_OF.items() if page != page_id}


def stages(page_id: str) -> list[Stage]:
    """The header's stages with this page as the current one."""
    return [
        Stage(title, [Page(name, f"{notebook}.ipynb", notebook == page_id) for notebook, name in pages])
        for title, pages in PAGES
    ]


class PageView:
    """A page over a session. A subclass gives `page_id`, `question`, `topics`, its pieces, and `refresh`.

    ``topics`` are the first letters or ids of the rules whose findings this page shows.
    """

    page_id = ""
    question = ""
    topics: tuple[str, ...] = ()

    def __init__(self, session: Session) -> None:
        self.session = session
        sys.setswitchinterval(SWITCH_S)
        self.header = Header(stages(self.page_id), findings_href="#findings")
        self.store = Store(STORE_KEY)
        self.files = SaveOpen({"Save rig file": self._saved}, open_label="Open rig file")
        self.bar = Sheet()
        self.answer = Sheet(live=True)
        self.findings = FindingsSheet(session, self.topics, _others(self.page_id))
        self.accepting = AcceptPanel(session)
        self.findings.on_act(self.accepting.acted)
        self.store.on_restored(self._restored)
        self.files.on_open(self._opened)
        self.bar.on_act(self._acted)
        session.on_change(self._changed)

    def inputs(self) -> Sequence[Widget]:
        """Pieces at the left."""
        return ()

    def results(self) -> Sequence[Widget]:
        """Pieces at the right."""
        return ()

    def wide(self) -> Sequence[Widget]:
        """Pieces over the whole width, between the answer and the columns."""
        return ()

    def refresh(self) -> None:
        """Bring all pieces up to the session's study."""

    def answer_html(self) -> str:
        """The answer to the page's question as one sentence of Markup, its deciding number in bold."""
        return ""

    def view(self) -> Box:
        """The page as one widget, ready to be shown."""
        self._show()
        parts: list[Widget] = [self.header, self.store, self.answer, line(self.files, self.bar), *self.wide()]
        if self.inputs() or self.results():
            parts.append(two_columns(column(*self.inputs()), column(*self.results())))
        cautions = Sheet(h('<div class="rig-caution">{}</div>', [h("<p>{}</p>", text) for text in CAUTIONS]))
        return column(*parts, self.findings, self.accepting.box, cautions)

    def _show(self) -> None:
        """Figures first: they are what a slider's hand waits for."""
        self.refresh()
        self.answer.show(h('<p class="rig-answer">{}</p>', self.answer_html()))
        self._show_head()
        self.findings.refresh()

    def _show_head(self) -> None:
        rig, found = self.session.rig, [one for one in self.session.findings if one.state == "found"]
        facts = f"{rig.system_v} V" + (f", revision {rig.revision}" if rig.revision else "")
        self.header.show_rig(rig.name, facts, *(_count(found, kind) for kind in ("stop", "warning", "advice")))
        metric = rig.units == "metric"
        switch = h(
            '<button type="button" data-act="units">{}</button>', "Show feet and °F" if metric else "Show metres and °C"
        )
        undo = h('<button type="button" data-act="undo">Undo last change</button>') if self.session.can_undo else ""
        self.bar.show(h('<div class="rig-bar">{}{}</div>', switch, undo))

    def _changed(self) -> None:
        self._show()
        self.store.keep(self.session.text())

    def _restored(self, text: str) -> None:
        if not text:
            return
        try:
            self.session.restore(read_rig(text))
        except InputError as error:
            self.files.error = (
                f"What this browser kept cannot be opened. {error} It is kept until you change something."
            )

    def _saved(self) -> Download:
        name = "".join(c if c.isalnum() else "-" for c in self.session.rig.name.lower()).strip("-") or "rig"
        return Download(f"{name}.json", "application/json", self.session.text().encode())

    def _opened(self, name: str, text: str) -> None:
        self.session.replace(read_rig(text))

    def _acted(self, act: str, _arg: str) -> None:
        from rigcalc.model.edit import change

        if act == "undo":
            self.session.undo()
        elif act == "units":
            units = "us" if self.session.rig.units == "metric" else "metric"
            self.session.apply(change("rig", units=units))


def _count(found: Sequence[Finding], severity: str) -> int:
    return sum(one.severity == severity and (one.stops or one.accepted is None) for one in found)
