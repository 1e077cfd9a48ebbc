"""Forms of one load: how it runs and starts, what a meter showed, its hours by type of day and what it keeps cold."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from rigcalc.errors import InputError, need
from rigcalc.model import Load
from rigcalc.model.base import Entry
from rigcalc.model.edit import Change
from rigcalc.model.rows import Removal
from rigcalc.widgets.forms import NOT_STATED, Box, in_words, spec_of, value_of
from rigcalc.widgets.kit import FieldSpec
from rigcalc.widgets.load_cells import READ_FIELDS, Fields, fed_another_way, merged, one_field, read_text, reading
from rigcalc.widgets.partform import PartForm
from rigcalc.widgets.session import Session

_ADAPTER = "adapter_efficiency"
RUNNING = (
    Box("cycles", "Switches on and off by itself", "check", help="As a refrigerator does."),
    Box("duty_ambient_c", "Air around it then", help="The air at which it ran the share that stands in the table."),
    Box("starting_power_w", "Power while it starts", help="A motor or compressor takes several times its power."),
    Box("starting_s", "Starting takes"),
    Box("lowest_working_v", "Lowest voltage it works at", help="At its own terminals."),
    Box("max_fuse_a", "Largest fuse its maker allows"),
    Box(
        "circuit_use",
        "Kind of circuit",
        "choice",
        help="Rules limit the voltage drop by it.",
        choices=(
            ("other", "other"),
            ("lighting", "lighting"),
            ("navigation_light", "navigation light"),
            ("pump", "pump"),
            ("electronics", "electronics"),
        ),
    ),
    Box(
        "priority",
        "When the bank is low",
        "choice",
        choices=(
            ("", NOT_STATED),
            ("must", "must go on"),
            ("comfort", "comfort"),
            ("first_to_shed", "first to be switched off"),
        ),
    ),
    Box("alternates_with", "Never runs together with", "text", help="Loads with the same word here take turns."),
    Box("daily_low_wh", "Low day", help="Of the whole row, at the appliance; in place of the usual range."),
    Box("daily_high_wh", "High day"),
    Box(_ADAPTER, "Efficiency of its mains adapter", "percent", help="Only behind an inverter."),
    Box("note", "Note", "note"),
)
_INSIDE = Box("inside_c", "It keeps its inside at", help="A refrigerator or freezer; empty for anything else.")
_FREEZER = Box("as_freezer", "It is a freezer", "check")
_OVER = Box("over_h", "Over", help="The clock time between the two readings, such as 31.28 h or 3 days.")
_AT = Box(
    "at",
    "Read",
    "choice",
    choices=(
        ("", "where: not stated"),
        ("wall_plug", "at a wall plug"),
        ("ac_behind_inverter", "on the AC side of the inverter"),
        ("dc_at_appliance", "on the DC side, at the appliance"),
        ("at_battery", "at the battery"),
    ),
)
_READING = (
    _OVER,
    _AT,
    Box("ambient_c", "Air at the time"),
    Box("meter", "Meter", "text"),
    Box("date", "Date", "text", placeholder="2026-05-30"),
)
_READ, _NEEDED = "read", ("over_h", "at")
_AS_READ = tuple(Box(field, "Read on the meter") for field in READ_FIELDS)
_COUNTS = "Counts once it says what was read, over how long and where."


class RunningForm(PartForm):
    """The load's own fields; an adapter's efficiency says that it is fed through an adapter."""

    def __init__(self, session: Session, part_id: str, tell: Callable[[str, Removal], None]) -> None:
        self._tell, self._rerouted = tell, Removal((), ())
        self.wanted: dict[str, str] = {}  # load id -> inverter chosen with an adapter whose efficiency is awaited
        super().__init__(session, "loads", RUNNING, "How it runs and starts", part_id)

    def changes(self, key: str, text: str | bool) -> tuple[Change, ...]:
        """An adapter's efficiency comes with the way of feeding; anything else is one field."""
        if key != _ADAPTER:
            return super().changes(key, text)
        load: Load = self.part
        inverter = self.wanted.get(load.id) or (load.fed_by if load.feed.startswith("inverter") else None)
        value, _ = value_of(self.boxes[key], text, self.session.rig.units)
        need(value is None or inverter is not None, self.boxes[key].label, text, "nothing, unless an inverter feeds it")
        if inverter is None:
            return ()
        feed = "inverter" if value is None else "inverter_adapter"
        fields = {"feed": feed, "fed_by": inverter, _ADAPTER: value}
        self._rerouted = fed_another_way(self.session.rig, load.id, fields)
        return self._rerouted.changes

    def edit(self, key: str, text: str | bool) -> None:
        """As in any form; what went with the old way of feeding is told."""
        self._rerouted = Removal((), ())
        super().edit(key, text)
        if key == _ADAPTER:
            self.wanted.pop(self.part_id, None)
            self._tell(self.part.name, self._rerouted)


class DayForm(PartForm):
    """Hours on each type of day, and the temperature of a cold box."""

    def __init__(self, session: Session, part_id: str) -> None:
        super().__init__(session, "loads", (_INSIDE, _FREEZER), "Through the day", part_id)

    def specs(self) -> list[Any]:
        """A field for each type of day, then the cold box."""
        load, system = self.part, self.session.rig.units
        uses = {use.day_type: use for use in load.day_use}
        hours = [
            {**spec_of(uses.get(day.id), _hours(day.name), system), "key": f"day {day.id}"}
            for day in self.session.rig.day_types
        ]
        return [*hours, *(spec_of(load.cold_box, box, system) for box in (_INSIDE, _FREEZER))]

    def changes(self, key: str, text: str | bool) -> tuple[Change, ...]:
        """The whole list of hours, or the whole cold box."""
        load, system = self.part, self.session.rig.units
        if key.startswith("day "):
            return (Change("loads", load.id, (("day_use", self._uses(load, key[4:], str(text))),)),)
        box = self.boxes[key]
        if load.cold_box is None and box is _FREEZER:
            raise InputError(_FREEZER.label, text, "the temperature of its inside, stated first")
        if box is _INSIDE and not str(text).strip():
            return (Change("loads", load.id, (("cold_box", None),)),)
        return (Change("loads", load.id, (("cold_box", _over(load.cold_box, _fields(box, text, system))),)),)

    def said(self, error: InputError, key: str, text: str | bool) -> InputError:
        """The model's word on hours or the cold box."""
        return in_words(error, self.boxes.get(key, _hours()), text)

    def _uses(self, load: Load, day_id: str, text: str) -> list[Fields] | None:
        fields = _fields(_hours(), text, self.session.rig.units)
        uses = [_over(use, {}) for use in load.day_use if use.day_type != day_id]
        if fields["daily_use_h"] is not None:
            uses.append({"day_type": day_id, **fields})
        order = [day.id for day in self.session.rig.day_types]
        return sorted(uses, key=lambda use: order.index(use["day_type"])) or None


class ReadingForm(PartForm):
    """A meter reading. What is typed stays in the form until there is enough of it to count."""

    def __init__(self, session: Session, part_id: str) -> None:
        self._drafts: dict[str, dict[str, str]] = {}  # load id -> texts of a reading that is not complete
        super().__init__(session, "loads", _READING, "A meter reading", part_id)

    def specs(self) -> list[Any]:
        """Texts of the reading, or of what there is of it yet."""
        load, system = self.part, self.session.rig.units
        draft = self._drafts.get(load.id, {}) if load.reading is None else {}
        help_text = "" if load.reading is not None else _COUNTS
        first = FieldSpec(key=_READ, label="Read on the meter", kind="text", placeholder="0.98 kWh, or 42 Ah at 12.8 V")
        first |= FieldSpec(text=draft.get(_READ, ""), other="", help=help_text, error="")
        if load.reading is not None:
            first["text"] = read_text(load.reading, system)
        rest = [spec_of(load.reading, box, system) for box in _READING]
        return [first, *({**spec, "text": draft.get(spec["key"], spec.get("text", ""))} for spec in rest)]

    def changes(self, key: str, text: str | bool) -> tuple[Change, ...]:
        """One field of a reading that counts, or the whole of one that now does; its load then is "measured"."""
        load: Load = self.part
        edited = self._one(key, str(text))
        if load.reading is None:
            return self._added(load, key, str(text))
        if not str(text).strip() and key == _READ:
            self._drafts[load.id] = {spec["key"]: spec.get("text", "") for spec in self.specs()} | {_READ: ""}
            return (Change("loads", load.id, (("reading", None),)),)
        if not str(text).strip() and key in _NEEDED:
            label = self.boxes[key].label
            raise InputError(label, text, "a value; empty what was read to drop the whole reading")
        return (Change("loads", load.id, (("reading", _over(load.reading, edited)),)),)

    def said(self, error: InputError, key: str, text: str | bool) -> InputError:
        """The model's word on what was read or on one box."""
        if key != _READ:
            return in_words(error, self.boxes[key], text)
        return next((one for one in (in_words(error, box, text) for box in _AS_READ) if one is not error), error)

    def edit(self, key: str, text: str | bool) -> None:
        """As in any form; a reading that counts is no draft any more."""
        super().edit(key, text)
        if self.part.reading is not None:
            self._drafts.pop(self.part_id, None)

    def _added(self, load: Load, key: str, text: str) -> tuple[Change, ...]:
        draft = {**self._drafts.get(load.id, {}), key: text}
        if not all(draft.get(name, "").strip() for name in (_READ, *_NEEDED)):
            self._drafts[load.id] = draft
            return ()
        whole: Fields = {}
        for name, typed in draft.items():
            whole = merged(whole, self._one(name, typed))
        return (Change("loads", load.id, (("reading", _over(None, whole)), ("provenance", "measured"))),)

    def _one(self, key: str, text: str) -> Fields:
        """What one box says, checked on its own."""
        if key == _READ:
            return dict.fromkeys(READ_FIELDS) | (
                reading(" ".join(text.split()), self.session.rig.units) if text.strip() else {}
            )
        return _fields(self.boxes[key], text, self.session.rig.units)


def _hours(day: str = "") -> Box:
    label = f"Use on a day of type {day}" if day else "Use"
    return Box("daily_use_h", label, help="Empty: as on every day." if day else "")


def _fields(box: Box, text: str | bool, system: str) -> Fields:
    return {box.field: text} if isinstance(text, bool) else one_field(box, text, system)


def _over(part: Entry | None, edited: Fields) -> Fields:
    """A nested part's data with fields set; None unstates, and the text typed for an old value goes with it."""
    data = {} if part is None else part.model_dump(mode="json", exclude_unset=True)
    typed = {key: text for key, text in data.pop("typed", {}).items() if key not in edited} | edited.get("typed", {})
    stated = {key: value for key, value in (data | edited).items() if value is not None and key != "typed"}
    return stated | ({"typed": typed} if typed else {})
