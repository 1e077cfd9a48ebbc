"""Findings of a page in whole sentences, each with its reason, and a remedy that can be applied."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from rigcalc.model.rig import WHOLE_RIG
from rigcalc.rules import remedy
from rigcalc.rules.finding import Finding
from rigcalc.widgets.accepting import key_of
from rigcalc.widgets.kit import Markup, Sheet, h
from rigcalc.widgets.session import Session
from rigcalc.widgets.wiring import places
from rigcalc.widgets.workings import status_tag

MARKS = {"stop": ("■", "Stop"), "warning": ("▲", "Warning"), "advice": ("●", "Advice"), "info": ("○", "Note")}
NOTHING = "nothing"
CLASSES = {"stop": "rig-stop", "warning": "rig-warn", "advice": "", "info": "rig-quiet"}


def counts(findings: Iterable[Finding], rules: tuple[str, ...]) -> Markup:
    """How many stops, warnings and pieces of advice stand open under some rules."""
    mine = [one for one in findings if one.rule.startswith(rules) and one.state == "found"]
    found = []
    for severity in ("stop", "warning", "advice"):
        count = sum(one.severity == severity and (one.stops or one.accepted is None) for one in mine)
        mark, word = MARKS[severity]
        words = f"{mark} {count} {word.lower()}" + ("s" if count > 1 and severity != "advice" else "")
        found += [h('<span class="{}">{}</span> ', CLASSES[severity], words)] if count else []
    return h("{}", found or NOTHING)


class FindingsSheet(Sheet):
    """The findings whose rule starts with one of the page's topics; those of other pages are counted below, linked.

    Remedies are looked for when one is asked for: each is tried through the whole study.
    """

    def __init__(
        self, session: Session, topics: tuple[str, ...], others: Mapping[tuple[str, str], tuple[str, ...]]
    ) -> None:
        super().__init__()
        self.session, self.topics, self.others = session, topics, others
        self._remedies: dict[str, Markup] = {}
        self.on_act(self._acted)
        session.on_change(self._remedies.clear)

    def refresh(self) -> None:
        """Show the findings of the session's study."""
        mine = [one for one in self.session.findings if one.rule.startswith(self.topics)]
        found = [one for one in mine if one.state == "found"]
        not_stated = [one for one in mine if one.state != "found"]
        items = [self._item(one) for one in found] or [h("<li>Nothing found on this page.</li>")]
        self.show(
            h(
                '<section id="findings" aria-label="Findings"><h2>Findings on this page</h2>'
                '<ul class="rig-findings">{}</ul>{}{}</section>',
                items,
                self._open(not_stated),
                self._elsewhere(),
            )
        )

    def _elsewhere(self) -> Markup:
        """What other pages show, each by a link to it."""
        rest = [one for one in self.session.findings if not one.rule.startswith(self.topics)]
        told = [(title, page, counts(rest, rules)) for (page, title), rules in self.others.items()]
        parts = [
            h('<li><a href="{}.ipynb">{}</a>: {}</li>', page, title, text)
            for title, page, text in told
            if text != NOTHING
        ]
        return h("<p>On other pages:</p><ul>{}</ul>", parts) if parts else Markup("")

    def _item(self, one: Finding) -> Markup:
        mark, word = MARKS[one.severity]
        key = key_of(one)
        return h(
            '<li><span class="rig-mark {cls}">{mark} {word}</span> {subject}{sentence} {remedy}{accepted}{why}</li>',
            cls=CLASSES[one.severity],
            mark=mark,
            word=word,
            subject=self._subject(one),
            sentence=one.sentence,
            remedy=self._remedy(one, key),
            why=self._why(one, key),
            accepted=self._accepted(one, key),
        )

    def _subject(self, one: Finding) -> Markup:
        """The part's name and id before the sentence, unless that names it or it is about the whole rig."""
        name = places(self.session.rig).get(one.subject, "")
        if one.subject == WHOLE_RIG or one.subject in one.sentence or (name and name.lower() in one.sentence.lower()):
            return Markup("")
        return h("<strong>{}.</strong> ", name or one.subject)

    def _remedy(self, one: Finding, key: str) -> Markup:
        if key in self._remedies:
            return self._remedies[key]
        if not one.candidates:
            return Markup("")
        return h('<button type="button" data-act="remedy" data-arg="{}">Find a remedy</button>', key)

    def _accepted(self, one: Finding, key: str) -> Markup:
        """Who accepted it and why, or the button to do so; a stop has a note at most."""
        word = "Add a note" if one.stops else "Accept"
        if one.accepted is None:
            if one.severity == "info":
                return Markup("")
            return h(' <button type="button" data-act="accept" data-arg="{}">{}</button>', key, word)
        given = one.accepted
        return h(
            '<p>{} {}, {}: {} <button type="button" data-act="accept" data-arg="{}">Change</button> '
            '<button type="button" data-act="unaccept" data-arg="{}">Remove</button></p>',
            "Still a stop. Note by" if one.stops else "Accepted by", given.name, given.date, given.reason, key, key,
        )  # fmt: skip

    def _why(self, one: Finding, key: str) -> Markup:
        return h(
            '<details data-key="why {}"><summary>Why</summary><div class="rig-working"><p>Found: {}</p>'
            '<p>Allowed: {}</p><p class="rig-quiet">Rule {} · {} · {}</p></div></details>',
            key, one.measured, one.limit, one.rule, one.source, status_tag(one.status),
        )  # fmt: skip

    def _open(self, not_stated: list[Finding]) -> Markup:
        if not not_stated:
            return Markup("")
        items = [h("<li>{}{}</li>", self._subject(one), one.sentence) for one in not_stated]
        return h(
            '<details data-key="not stated"{}><summary>Not stated, so neither passed nor failed: {}</summary>'
            "<ul>{}</ul></details>",
            Markup(" open") if any(one.severity == "stop" for one in not_stated) else "",
            len(not_stated),
            items,
        )

    def _acted(self, act: str, key: str) -> None:
        one = next((f for f in self.session.findings if key_of(f) == key), None)
        if one is None or act not in ("remedy", "apply"):
            return
        cure = remedy(self.session.study, one)
        if act == "apply" and cure:
            self.session.apply(*cure.changes)
            return
        text = cure.sentence if cure else "No single change was found that cures this without a new stop."
        button = h(' <button type="button" data-act="apply" data-arg="{}">Apply</button>', key) if cure else ""
        self._remedies[key] = h("<p>{}{}</p>", text, button)
        self.refresh()
