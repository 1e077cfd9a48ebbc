"""Page 00: which rig is worked on, by which rules, and how far it is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ipywidgets.widgets.widget import Widget
from ipywidgets.widgets.widget_box import Box as Container

from rigcalc.errors import InputError, need
from rigcalc.model import Rig
from rigcalc.model.edit import Change
from rigcalc.model.file import rig_data
from rigcalc.model.new import at_voltage, new_rig
from rigcalc.tables.battery import chemistries
from rigcalc.tables.rule_sets import RuleSet, rule_set, rule_set_for
from rigcalc.widgets import start_results
from rigcalc.widgets.forms import Box, in_words, spec_of, value_of
from rigcalc.widgets.kit import Fields, FieldSpec, Markup, Sheet, column, h, two_columns
from rigcalc.widgets.page import PageView
from rigcalc.widgets.partform import PartForm
from rigcalc.widgets.session import Session, open_rig

KINDS = (("vehicle", "vehicle or trailer"), ("boat", "boat"), ("cabin", "cabin"))
STRICTEST = "strictest_of_all"
ANY = ("any", "any: the strictest of all rule sets")
COUNTRIES = (("north_america", "North America"), ("iec", "elsewhere"))
EVERYWHERE = (("any", "any"),)
_VOLTAGES = (("12", "12 V"), ("24", "24 V"), ("48", "48 V"))
_KIND = Box("kind", "Kind of rig", "choice", choices=(*KINDS, ANY))
_COUNTRY = Box("region", "Where", "choice", choices=COUNTRIES)
_VOLTAGE = Box("system_v", "System voltage", "choice", read=int, choices=_VOLTAGES)
_FACTS = (
    Box("name", "Name", "text"),
    Box("revision", "Revision", "text", help="Printed with the design; any word or letter."),
    Box("date", "Date", "text", placeholder="2026-05-30"),
    Box("note", "Note", "note"),
    Box("units", "Units", "choice", choices=(("metric", "metres, °C"), ("us", "feet, °F"))),
    Box("ambient_usual_c", "Air around the rig, usual", slider=(-10, 45, 1)),
    Box("ambient_hot_c", "Air, hottest designed for", help="Conductors are sized in it.", slider=(0, 60, 1)),
)
_CHEMISTRY = Box(
    "chemistry", "Battery chemistry", "choice", choices=tuple((row.id, row.title) for row in reversed(chemistries()))
)
_CAPACITY = Box("capacity_ah", "Capacity of the bank")
_NAME = Box("name", "Name", "text")


def rules_of(kind: str, region: str) -> RuleSet:
    """The rule set of a kind of rig and a country, or the strictest of all where that was chosen."""
    return rule_set(STRICTEST) if kind == "any" else rule_set_for(kind, region)


class RigForm(PartForm):
    """Facts of the opened rig; kind and country together choose the rule set."""

    def __init__(self, session: Session) -> None:
        super().__init__(session, "rig", (_KIND, _COUNTRY, _VOLTAGE, *_FACTS), "This rig")

    def specs(self) -> list[Any]:
        """Kind and country of the rule set first, then the rig's own fields."""
        rig = self.session.rig
        rules = rule_set(rig.rule_set)
        first = [spec_of(rules, box, rig.units) for box in (_KIND, _COUNTRY)]
        first[0]["help"] = rules.title
        first[1]["choices"] = EVERYWHERE if rules.kind == "any" else COUNTRIES
        return [*first, *(spec_of(rig, box, rig.units) for box in (_VOLTAGE, *_FACTS))]

    def changes(self, key: str, text: str | bool) -> tuple[Change, ...]:
        """Another rule set, another voltage with its bank, or one field."""
        if key == _VOLTAGE.field:
            return at_voltage(self.session.rig, int(text))
        if key not in (_KIND.field, _COUNTRY.field):
            return super().changes(key, text)
        rules = rule_set(self.session.rig.rule_set)
        kind, region = (str(text), rules.region) if key == _KIND.field else (rules.kind, str(text))
        region = COUNTRIES[0][0] if region == "any" and kind != "any" else region
        return (Change("rig", "", (("rule_set", rules_of(kind, region).id),)),)


class NewRig:
    """Questions for a rig of one's own; nothing happens to the opened rig until it is started."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.answers = {"kind": "vehicle", "region": "north_america", "system_v": "12", "chemistry": "lifepo4"}
        self.answers |= {"capacity_ah": "100 Ah", "name": _new_name("vehicle")}
        self.fields = Fields([self._spec(box) for box in self._boxes()], "Start a rig of your own")
        self.fields.on_edit(self._edited)
        self.button = Sheet(self._words())

    @property
    def rules(self) -> RuleSet:
        """The rule set that the answers choose."""
        return rules_of(self.answers["kind"], self.answers["region"])

    def _boxes(self) -> tuple[Box, ...]:
        return _KIND, _COUNTRY, _VOLTAGE, _CHEMISTRY, _CAPACITY, _NAME

    def _spec(self, box: Box) -> FieldSpec:
        kind: Any = "quantity" if box.kind == "quantity" else box.kind
        spec = FieldSpec(key=box.field, label=box.label, kind=kind, text=self.answers[box.field], error="")
        if box.kind == "choice":
            spec["choices"] = EVERYWHERE if box is _COUNTRY and self.answers["kind"] == "any" else box.choices
        return spec

    def _edited(self, key: str, text: str) -> None:
        named = self.answers["name"] == _new_name(self.answers["kind"])
        self.answers[key] = text
        if key == "kind":
            self.answers["region"] = "any" if text == "any" else self._country()
            self.answers["name"] = _new_name(text) if named else self.answers["name"]
        self.fields.update_many({box.field: self._parts(box) for box in self._boxes()})
        self.button.show(self._words())
        if key == "capacity_ah":
            value_of(_CAPACITY, text, self.session.rig.units)

    def _country(self) -> str:
        return COUNTRIES[0][0] if self.answers["region"] == "any" else self.answers["region"]

    def _parts(self, box: Box) -> dict[str, Any]:
        return {name: value for name, value in self._spec(box).items() if name not in ("key", "kind")}

    def _words(self, trouble: str = "") -> Markup:
        return h(
            '<p>Rules: {}.</p>{}{}<p><button type="button" data-act="start">Start this rig</button></p>',
            self.rules.title,
            start_results.not_available(self.rules),
            h('<p class="rig-error">■ {}</p>', trouble) if trouble else "",
        )

    def start(self) -> bool:
        """Open the new rig; what stands in its way is said above the button."""
        try:
            rig = self._rig()
        except InputError as error:
            self.button.show(self._words(str(self._said(error))))
            return False
        self.button.show(self._words())
        self.session.replace(rig)
        return True

    def _rig(self) -> Rig:
        capacity_ah, _ = value_of(_CAPACITY, self.answers["capacity_ah"], "metric")
        need(capacity_ah is not None, _CAPACITY.label, capacity_ah, "a charge such as 100 Ah")
        name, _ = value_of(_NAME, self.answers["name"], "metric")
        voltage = int(self.answers["system_v"])
        return new_rig(name or "", self.rules.id, voltage, self.answers["chemistry"], capacity_ah)

    def _said(self, error: InputError) -> InputError:
        told = in_words(error, Box("unit_capacity_ah", _CAPACITY.label), self.answers["capacity_ah"])
        return in_words(told, _NAME, self.answers["name"])


def _new_name(kind: str) -> str:
    return "New rig" if kind == "any" else f"New {kind}"


class StartPage(PageView):
    """Choose or start a rig; its facts at the left, steps and rules at the right."""

    page_id = "00-start"
    question = "Which rig are you working on?"
    topics = ("D07",)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.new, self.form = NewRig(session), RigForm(session)
        self.notice, self.examples = Sheet(live=True), Sheet()
        self.steps, self.rules, self.figures = Sheet(), Sheet(), Sheet()
        for sheet in (self.notice, self.examples, self.new.button):
            sheet.on_act(self._acted)

    def wide(self) -> Sequence[Widget]:
        """Where the rig stands, then a rig of one's own or an example."""
        return self.notice, self.steps, two_columns(column(self.new.fields, self.new.button), column(self.examples))

    def inputs(self) -> Sequence[Widget]:
        """Facts of the rig."""
        return (self.form.fields,)

    def results(self) -> Sequence[Widget]:
        """Starting figures where there are some, and the rules."""
        return self.figures, self.rules

    def answer_html(self) -> Markup:
        """The rig and its state in one sentence."""
        return start_results.answer(self.session.study, self.session.findings)

    def refresh(self) -> None:
        """Bring all pieces up to the session's study."""
        study = self.session.study
        self.notice.show(Markup(""))
        self.form.refresh()
        self.steps.show(start_results.steps(study, self.session.findings))
        self.examples.show(start_results.examples(self.session.rig.name))
        self.figures.show(start_results.starting(self.session.rig))
        self.rules.show(start_results.rules(study.rule_set))

    def _acted(self, act: str, arg: str) -> None:
        before = self.session.rig.name
        own = act in ("open", "start") and rig_data(self.session.rig) not in start_results.example_data().values()
        if act == "open":
            self.session.replace(open_rig(arg).rig)
        elif act != "start":
            super()._acted(act, arg)
        elif not self.new.start():
            return
        if act in ("open", "start"):
            self._tell(before, own)

    def _tell(self, before: str, own: bool) -> None:
        """What is open now, and how to get back what was."""
        back = f"Undo brings {before} back" if before != self.session.rig.name else "Undo goes back to how it was"
        if own:
            back = (
                f"{before} was a rig of your own: Undo brings it back, but only while this page stays open. "
                "To keep it, undo and save its rig file first"
            )
        text = f"{self.session.rig.name} is open. {back}."
        loads = "" if self.session.rig.loads else h(' <a href="10-load-inventory.ipynb">Next: list its loads</a>')
        self.notice.show(h('<p>{} <button type="button" data-act="undo">Undo</button>{}</p>', text, loads))


def start_page(session: Session) -> Container:
    """The first page, ready to be shown."""
    return StartPage(session).view()
