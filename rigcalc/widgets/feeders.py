"""Forms of the rig's inverters and converters: one form each, a button that takes it out, a draft that adds one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from ipywidgets.widgets.widget_box import Box as Container

from rigcalc.errors import InputError
from rigcalc.model import Rig
from rigcalc.model.edit import Change
from rigcalc.model.rows import cut_off, free_id
from rigcalc.widgets.forms import NOT_STATED, Box, in_words, part_of, value_of
from rigcalc.widgets.kit import Fields, FieldSpec, Markup, Sheet, column, h
from rigcalc.widgets.partform import PartForm
from rigcalc.widgets.session import Session

THREE, ONE = "three", "one"
_IDLE = "Power it takes with nothing plugged in, from its sheet or a meter."
_COMMON = (
    Box("name", "Name", kind="text"),
    Box("rated_w", "Rated power"),
    Box("idle_w", "Idle draw", help=_IDLE, slider=(0, 50, 0.5)),
    Box("on_h", "Hours on a day", slider=(0, 24, 0.5)),
)
_FORM = Box(
    "efficiencies",
    "Efficiency is known",
    kind="choice",
    choices=((THREE, "at 10, 50 and 100 % of rated power"), (ONE, "as one figure, idle included")),
)
_POINTS = tuple(Box(f"efficiency_{at}", f"Efficiency at {at} %", kind="percent") for at in (10, 50, 100))
_SINGLE = (Box("efficiency", "Efficiency", kind="percent"),)
_LOWEST = Box("lowest_input_v", "Lowest input voltage", help="Below it, it switches off.")
CONVERTER = (
    Box("name", "Name", kind="text"),
    Box("output_v", "Output voltage"),
    Box("efficiency", "Efficiency", kind="percent"),
    Box("rated_w", "Rated power"),
    _LOWEST,
)
_NEEDED = {"inverters": ("name", "rated_w", "on_h"), "converters": ("name", "output_v", "efficiency")}
_WORD = {"inverters": "inverter", "converters": "converter"}


def _efficiency_boxes(form: str) -> tuple[Box, ...]:
    return _POINTS if form == THREE else _SINGLE


def _inverter_boxes(form: str) -> tuple[Box, ...]:
    return (*_COMMON, _FORM, *_efficiency_boxes(form), _LOWEST)


class InverterForm(PartForm):
    """An inverter's form. Its losses are three efficiencies or one; those stated hold until all others are typed."""

    def __init__(self, session: Session, part_id: str) -> None:
        self._shown = _stated_form(session.rig, part_id)
        self._restating = False
        super().__init__(session, "inverters", _inverter_boxes(self._shown), "Inverter", part_id)

    def edit(self, key: str, text: str | bool) -> None:
        """A box as in any form; efficiencies of the other form are collected until all are there."""
        if key == _FORM.field:
            self._forget_efficiencies()
            self._restating = text != _stated_form(self.session.rig, self.part_id)
            self._show(str(text))
        elif self._restating and key.startswith("efficiency"):
            self._collect(key, str(text))
        else:
            super().edit(key, text)

    def refresh(self, more: Mapping[str, Mapping[str, Any]] | None = None) -> None:
        """Show the inverter as it is now; what is half typed stays."""
        stated = _stated_form(self.session.rig, self.part_id)
        if not self._restating and self._shown != stated:
            self._show(stated)
        super().refresh(more)

    def specs(self) -> list[Any]:
        """The fields as stated, with the form that is shown."""
        note = "What was stated holds until the new figures are complete." if self._restating else ""
        specs = super().specs()
        for spec in specs:
            if spec["key"] == _FORM.field:
                spec |= {"text": self._shown, "help": note}
        return specs

    def _show(self, form: str) -> None:
        self._shown = form
        self.point_at(self.part_id, _inverter_boxes(form))

    def _forget_efficiencies(self) -> None:
        for box in (*_POINTS, *_SINGLE):
            self._waiting.pop((self.part_id, box.field), None)

    def _collect(self, key: str, text: str) -> None:
        at, boxes, system = (self.part_id, key), _efficiency_boxes(self._shown), self.session.rig.units
        self._waiting[at] = (text, "")
        texts = {box: str(self._waiting.get((self.part_id, box.field), ("", ""))[0]) for box in boxes}
        try:
            value_of(self.boxes[key], text, system)
            values = {box.field: value_of(box, typed, system)[0] for box, typed in texts.items()}
            if None not in values.values():
                self._restate(values)
        except InputError as error:
            said = in_words(error, self.boxes[key], text)
            self._waiting[at] = (text, str(said))
            raise said from None
        self.refresh()

    def _restate(self, values: Mapping[str, Any]) -> None:
        cleared: dict[str, Any] = {box.field: None for box in (*_POINTS, *_SINGLE)}
        self._restating = False
        try:
            self.session.apply(Change("inverters", self.part_id, tuple((cleared | dict(values)).items())))
        except InputError:
            self._restating = True
            raise
        self._forget_efficiencies()


def _stated_form(rig: Rig, part_id: str) -> str:
    return ONE if part_of(rig, "inverters", part_id).efficiency is not None else THREE


class FeederForms:
    """All inverters or all converters of a rig, one form each, with buttons to add one and to take one out."""

    def __init__(self, session: Session, kind: str) -> None:
        self.session, self.kind, self.word = session, kind, _WORD[kind]
        self.forms: dict[str, PartForm] = {}
        self.buttons: dict[str, Sheet] = {}
        self.draft: Draft | None = None
        self.add = Sheet()
        self.add.on_act(self._acted)
        self.box: Container = column()
        self.refresh()

    def refresh(self) -> None:
        """Show the parts as they are now."""
        ids = [part.id for part in getattr(self.session.rig, self.kind)]
        if ids != list(self.forms):
            self.forms = {part_id: self.forms.get(part_id) or self._form(part_id) for part_id in ids}
            self.buttons = {part_id: self.buttons.get(part_id) or self._button() for part_id in ids}
            self._arrange()
        for part_id, form in self.forms.items():
            form.refresh()
            self.buttons[part_id].show(self._removal(part_id))
        self._show_add()

    def _form(self, part_id: str) -> PartForm:
        if self.kind == "inverters":
            return InverterForm(self.session, part_id)
        return PartForm(self.session, self.kind, CONVERTER, "Converter", part_id)

    def _button(self) -> Sheet:
        made = Sheet()
        made.on_act(self._acted)
        return made

    def _arrange(self) -> None:
        pieces = [piece for part_id, form in self.forms.items() for piece in (form.fields, self.buttons[part_id])]
        self.box.children = (*pieces, *([self.draft.fields] if self.draft else []), self.add)

    def _removal(self, part_id: str) -> Markup:
        """A button that takes the part out with the runs to it, or the loads that it feeds and that keep it."""
        rig, name = self.session.rig, part_of(self.session.rig, self.kind, part_id).name
        fed = [load.name for load in rig.loads if load.fed_by == part_id]
        fed += [f"run {run.id}" for run in rig.runs if run.from_id == part_id]
        if fed:
            return h('<p class="rig-quiet">{} cannot be taken out: it feeds {}.</p>', name, ", ".join(fed))
        gone = cut_off(rig, part_id).also
        also = f" with {', '.join(gone)}" if gone else ""
        return h('<button type="button" data-act="remove" data-arg="{}">Remove {}{}</button>', part_id, name, also)

    def _show_add(self, trouble: str = "") -> None:
        if self.draft is None:
            label = f"Add {'an' if self.word[0] in 'aeiou' else 'a'} {self.word}"
            self.add.show(h('<button type="button" data-act="draft">{}</button>', label))
            return
        self.add.show(
            h(
                '<p class="rig-error">{}</p><button type="button" data-act="add">Add this {}</button> '
                '<button type="button" data-act="drop">Drop it</button>',
                f"■ {trouble}" if trouble else "", self.word, self.word,
            )
        )  # fmt: skip

    def _acted(self, act: str, part_id: str) -> None:
        if act == "remove":
            gone = cut_off(self.session.rig, part_id).changes
            self.session.apply(*gone, Change(self.kind, part_id, gone=True))
        elif act == "add" and self.draft is not None:
            self._add(self.draft)
        else:
            self.draft = Draft(self.session, self.kind) if act == "draft" else None
            self._arrange()
            self._show_add()

    def _add(self, draft: Draft) -> None:
        try:
            change = draft.change()
            self.draft = None
            self.session.apply(change)
        except InputError as error:
            self.draft = draft
            self._show_add(str(error))
            return
        self._arrange()
        self._show_add()


class Draft:
    """An inverter or converter that is being entered and is not in the rig yet."""

    def __init__(self, session: Session, kind: str) -> None:
        self.session, self.kind = session, kind
        single = replace(_SINGLE[0], help="In place of the three, where only one figure is known.")
        boxes = (*_COMMON, *_POINTS, single, _LOWEST) if kind == "inverters" else CONVERTER
        self.boxes = {box.field: replace(box, slider=None) for box in boxes}
        self.fields = Fields([self._spec(box) for box in self.boxes.values()], f"New {_WORD[kind]}")
        self.fields.on_edit(self._edit)

    def _spec(self, box: Box) -> FieldSpec:
        word = "needed" if box.field in _NEEDED[self.kind] else NOT_STATED
        kind: Any = "text" if box.kind == "text" else "quantity"
        return FieldSpec(key=box.field, label=box.label, kind=kind, text="", placeholder=word, help=box.help)

    def _edit(self, key: str, text: str) -> None:
        self.fields.update(key, error="")
        value_of(self.boxes[key], text, self.session.rig.units)

    def change(self) -> Change:
        """The part as a change of the rig.

        Raises
        ------
        InputError
            Where something needed is not typed, or cannot be used.
        """
        fields: dict[str, Any] = {}
        typed: dict[str, str] = {}
        for box in self.boxes.values():
            value, text = value_of(box, self.fields.text(box.field), self.session.rig.units)
            fields |= {} if value is None else {box.field: value}
            typed |= {box.field: text} if text else {}
        missing = [self.boxes[key].label.lower() for key in _NEEDED[self.kind] if key not in fields]
        if missing:
            raise InputError(f"New {_WORD[self.kind]}", f"without {', '.join(missing)}", "a value for each")
        fields |= {"typed": typed} if typed else {}
        return Change(self.kind, free_id(self.session.rig, fields["name"]), tuple(fields.items()), new=True)
