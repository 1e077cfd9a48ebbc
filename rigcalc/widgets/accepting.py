"""Accepting a finding with a reason, a name and a date; a stop only gets a note and stays a stop."""

from __future__ import annotations

import datetime

from rigcalc.errors import InputError
from rigcalc.model.edit import accepting, no_longer_accepting
from rigcalc.rules.finding import Finding
from rigcalc.widgets.kit import Fields, FieldSpec, Sheet, column, h
from rigcalc.widgets.session import Session

_LABELS = {"reason": "Reason", "name": "Accepted by", "date": "Date"}


def key_of(one: Finding) -> str:
    """What a button says to name a finding."""
    return f"{one.rule}/{one.subject}"


class AcceptPanel:
    """A small form under the findings, there only while one is being accepted."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.one: Finding | None = None
        self.form = Fields(())
        self.buttons = Sheet()
        self.buttons.on_act(lambda act, _arg: self.keep() if act == "keep" else self.close())
        self.box = column()
        self._name = ""

    def acted(self, act: str, key: str) -> None:
        """A button of the findings was pressed."""
        one = next((found for found in self.session.findings if key_of(found) == key), None)
        if act == "accept" and one is not None:
            self.open(one)
        elif act == "unaccept" and one is not None:
            self.session.apply(no_longer_accepting(self.session.rig, one.rule, one.subject))

    def open(self, one: Finding) -> None:
        """Ask for reason, name and date."""
        self.one = one
        given = one.accepted
        texts = {
            "reason": given.reason if given else "",
            "name": given.name if given else self._name,
            "date": given.date if given else datetime.date.today().isoformat(),
        }
        title = f"{'Note on the stop' if one.stops else 'Accept'} {one.rule}, {one.subject}"
        specs = [FieldSpec(key=key, label=_LABELS[key], kind="text", text=text) for key, text in texts.items()]
        specs[2]["help"] = "such as 2026-05-01"
        self.form = Fields(specs, title, take_focus=True)
        stays = h("<p>A stop stays a stop: the note stands beside it.</p>") if one.stops else ""
        keep = h(
            '<button type="button" data-act="keep">{}</button>', "Keep the note" if one.stops else "Accept this finding"
        )
        self.buttons.show(h('{}{} <button type="button" data-act="close">Cancel</button>', stays, keep))
        self.box.children = (self.form, self.buttons)

    def keep(self) -> None:
        """Write it into the rig; what is missing is said under its field."""
        if self.one is None:
            return
        texts = {key: " ".join(str(self.form.text(key)).split()) for key in _LABELS}
        missing = [key for key, text in texts.items() if not text]
        self.form.update_many({key: {"error": "Needed." if key in missing else ""} for key in _LABELS})
        if missing:
            return
        try:
            self.session.apply(accepting(self.session.rig, self.one.rule, self.one.subject, **texts))
        except InputError as error:
            key = next((key for key in ("reason", "name") if error.what.startswith(key)), "date")
            self.form.update(key, error=str(InputError(_LABELS[key], error.given, error.allowed)))
            return
        self._name = texts["name"]
        self.close()

    def close(self) -> None:
        """Put the form away."""
        self.one = None
        self.box.children = ()
