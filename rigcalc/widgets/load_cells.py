"""Cells of the load inventory: how a load's power, use and feeding are typed in one cell each, and shown again."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from rigcalc.errors import InputError, need
from rigcalc.model import Load, Reading, Rig
from rigcalc.model.edit import Change, changed
from rigcalc.model.rows import Removal, cut_off
from rigcalc.units import number, show
from rigcalc.widgets.forms import Box, in_words, quantity_text, value_of
from rigcalc.widgets.kit import ColumnSpec

Fields = dict[str, Any]
Choices = Sequence[tuple[str, str]]
PROVENANCE: Choices = (("", "not stated"), ("measured", "measured"), ("label", "label"), ("guess", "guess"))
NAME = Box("name", "Load", "text")
QUANTITY = Box("quantity", "How many", "count")
DUTY = Box("duty_cycle", "Runs for", "percent")
STANDBY = Box("standby_w", "Standby")
COLUMNS: tuple[ColumnSpec, ...] = (
    {"key": "name", "label": "Load", "kind": "text"},
    {"key": "quantity", "label": "How many", "kind": "quantity", "help": "How many of it; all figures are of one."},
    {"key": "power", "label": "Power", "kind": "quantity", "placeholder": "45 W",
     "help": "While it runs: 45 W, or 3.5 A at 12 V."},
    {"key": "use", "label": "Use a day", "kind": "quantity", "placeholder": "5 h",
     "help": "5 h, 20 min, or 6 × 3 min."},
    {"key": "duty", "label": "Runs for", "kind": "quantity", "placeholder": "35 %",
     "help": "Share of the time in use that it runs: 35 %."},
    {"key": "standby", "label": "Standby", "kind": "quantity", "placeholder": "0 W",
     "help": "Power while it does not run."},
    {"key": "provenance", "label": "Known by", "kind": "choice", "choices": PROVENANCE},
    {"key": "feed", "label": "Fed by", "kind": "choice"},
    {"key": "day", "label": "A day", "kind": "read", "help": "Energy from the battery."},
)  # fmt: skip
LABELS = {column["key"]: column["label"] for column in COLUMNS}
_PLAIN = {"name": NAME, "quantity": QUANTITY, "duty": DUTY, "standby": STANDBY}
_BEHIND = {
    "power": ("power_w", "current_a", "voltage_v"),
    "use": ("daily_use_h", "events_per_day", "event_min"),
    "feed": ("feed", "fed_by", "adapter_efficiency"),
    "provenance": ("provenance",),
}
READ_FIELDS = ("energy_wh", "charge_ah", "voltage_v")
_AT = re.compile(r"(?:^|(?<=[\sA]))(?:at|@)\s*", re.IGNORECASE)
_EVENTS = re.compile(r"(.*?\d)\s*[x×*]\s*(.+)", re.IGNORECASE)
_POWER = "45 W, or a current at its voltage: 3.5 A at 12 V"
_USE = "5 h, 20 min or 6 × 3 min"
_CHARGE = "an energy such as 0.98 kWh, or a charge at its mean voltage: 42 Ah at 12.8 V"


def texts(load: Load, system: str) -> dict[str, str]:
    """What stands in a load's cells."""
    return {
        "name": load.name,
        "quantity": str(load.quantity),
        "power": power_text(load, system),
        "use": _use_text(load, system),
        "duty": "" if load.duty_cycle is None else f"{100 * load.duty_cycle:.10g} %",
        "standby": _text(load, "standby_w", system),
        "provenance": load.provenance or "",
        "feed": load.feed if load.fed_by is None else f"{load.feed}:{load.fed_by}",
    }


def _text(part: Load | Reading, field: str, system: str) -> str:
    value = getattr(part, field)
    suffix = field.rsplit("_", 1)[-1]
    return "" if value is None else quantity_text(value, suffix, system, part.typed.get(field))


def power_text(load: Load, system: str) -> str:
    """Power, or current at its voltage."""
    if load.current_a is not None:
        return f"{_text(load, 'current_a', system)} at {_text(load, 'voltage_v', system)}"
    return _text(load, "power_w", system)


def read_text(reading: Reading, system: str) -> str:
    """What was read: energy, or charge at its mean voltage."""
    if reading.charge_ah is not None:
        return f"{_text(reading, 'charge_ah', system)} at {_text(reading, 'voltage_v', system)}"
    return _text(reading, "energy_wh", system)


def _use_text(load: Load, system: str) -> str:
    if load.events_per_day is not None:
        return f"{load.events_per_day:.10g} × {_text(load, 'event_min', system)}"
    return _text(load, "daily_use_h", system)


def beside(load: Load, system: str, days: Mapping[str, str]) -> dict[str, str]:
    """Quiet words under the cells: watts of a current, hours of events, hours by type of day."""
    watts = show(load.current_a * load.voltage_v, "w") if load.current_a is not None and load.voltage_v else ""
    hours = ""
    if load.events_per_day is not None and load.event_min is not None:
        hours = show(load.events_per_day * load.event_min / 60, "h")
    by_day = ", ".join(f"{days[use.day_type]} {use.daily_use_h:.3g} h".replace(" ", "\u00a0") for use in load.day_use)
    read = "day as read" if load.reading is not None else ""
    return {"power": watts, "use": by_day or read or hours}


def feed_choices(rig: Rig) -> Choices:
    """Ways of feeding that the rig has: direct, its converters, its inverters with and without an adapter."""
    found = [("direct", "direct")]
    found += [(f"converter:{one.id}", one.name) for one in rig.converters]
    for one in rig.inverters:
        found += [(f"inverter:{one.id}", one.name), (f"inverter_adapter:{one.id}", f"{one.name} and a mains adapter")]
    return found


def edited(rig: Rig, load: Load, key: str, text: str) -> Fields:
    """Fields of the load that an edited cell sets.

    Raises
    ------
    InputError
        Named by the column, where the text cannot be used.
    """
    text = " ".join(text.split())
    if key in _PLAIN:
        return one_field(_PLAIN[key], text, rig.units)
    if key == "provenance":
        return {"provenance": _chosen(LABELS[key], text, PROVENANCE) or None}
    if key == "feed":
        return _fed(load, _chosen(LABELS[key], text, feed_choices(rig)))
    return power(text, rig.units) if key == "power" else use(text, rig.units)


def one_field(box: Box, text: str, system: str) -> Fields:
    """One field of a box, with the text to keep beside it."""
    value, typed = value_of(box, text, system)
    return {box.field: value} | ({"typed": {box.field: typed}} if typed else {})


def merged(*parts: Fields) -> Fields:
    """Several fields as one set, texts typed for them together."""
    typed = {key: text for part in parts for key, text in part.get("typed", {}).items()}
    fields = {key: value for part in parts for key, value in part.items() if key != "typed"}
    return fields | ({"typed": typed} if typed else {})


def power(text: str, system: str) -> Fields:
    """Power typed as such, or as a current at a voltage.

    Examples
    --------
    >>> power("45 W", "metric")
    {'power_w': 45.0, 'current_a': None, 'voltage_v': None}
    >>> power("3,5 A at 12 V", "metric")["typed"]
    {'current_a': '3,5 A'}
    """
    fields: Fields = dict.fromkeys(_BEHIND["power"])
    if not text:
        return fields
    pair = _AT.split(text)
    if len(pair) == 2:
        current, voltage = (Box("current_a", LABELS["power"]), Box("voltage_v", LABELS["power"]))
        return fields | _pair(current, voltage, pair, text, _POWER, system)
    alone = re.fullmatch(r"[\d.,\s]+(?:m?A|amps?)", text, re.IGNORECASE)
    allowed = f"its voltage too: {text} at 12 V" if alone else _POWER
    return fields | _read_as(Box("power_w", LABELS["power"]), text, allowed, system)


def _pair(first: Box, second: Box, pair: Sequence[str], text: str, allowed: str, system: str) -> Fields:
    need(all(part.strip() for part in pair), first.label, text, allowed)
    try:
        return merged(*(one_field(box, part.strip(), system) for box, part in zip((first, second), pair, strict=True)))
    except InputError:
        raise InputError(first.label, text, allowed) from None


def _read_as(box: Box, text: str, allowed: str, system: str) -> Fields:
    try:
        return one_field(box, text, system)
    except InputError as error:
        both = "can mean both" in error.allowed
        raise InputError(box.label, text, error.allowed if both else allowed) from None


def use(text: str, system: str) -> Fields:
    """Use a day typed as a time, or as events of some minutes.

    Examples
    --------
    >>> use("5 h", "metric")["daily_use_h"], use("20 min", "metric")["typed"]
    (5.0, {'daily_use_h': '20 min'})
    >>> use("6 × 3 min", "metric")
    {'daily_use_h': None, 'events_per_day': 6.0, 'event_min': 3.0}
    """
    fields: Fields = dict.fromkeys(_BEHIND["use"])
    if not text:
        return fields
    found = _EVENTS.fullmatch(text)
    if not found:
        return fields | _read_as(Box("daily_use_h", LABELS["use"]), text, _USE, system)
    need(not found[2][-1:].isdigit(), LABELS["use"], text, "a unit behind the second number: 6 × 3 min")
    event = _read_as(Box("event_min", LABELS["use"]), found[2], _USE, system)
    try:
        return fields | {"events_per_day": number(found[1], LABELS["use"])} | event
    except InputError:
        raise InputError(LABELS["use"], text, _USE) from None


def reading(text: str, system: str) -> Fields:
    """What a meter showed: an energy, or a charge at its mean voltage.

    Examples
    --------
    >>> reading("0.98 kWh", "metric")["energy_wh"], reading("42 Ah at 12.8 V", "metric")["charge_ah"]
    (980.0, 42.0)
    """
    label, pair = "Read", _AT.split(text)
    need(not text[-1:].isdigit(), label, text, _CHARGE)
    if len(pair) == 2:
        return _pair(Box("charge_ah", label), Box("voltage_v", label), pair, text, _CHARGE, system)
    return _read_as(Box("energy_wh", label), text, _CHARGE, system)


def _chosen(what: str, text: str, choices: Choices) -> str:
    """The value of a choice, given by value or by its words."""
    found = next((value for value, words in choices if text.casefold() in (value.casefold(), words.casefold())), None)
    if found is None:
        raise InputError(what, text, " or ".join(words for _, words in choices))
    return found


def _fed(load: Load, value: str) -> Fields:
    feed, _, fed_by = value.partition(":")
    if feed == "inverter_adapter" and load.adapter_efficiency is None:
        raise InputError("Adapter efficiency", None, "a share, typed in the details below")
    kept = load.adapter_efficiency if feed == "inverter_adapter" else None
    return {"feed": feed, "fed_by": fed_by or None, "adapter_efficiency": kept}


def fed_another_way(rig: Rig, load_id: str, fields: Fields) -> Removal:
    """A load fed another way; where the run to it leads from the wrong side, run and devices go with it."""
    wish = Change("loads", load_id, tuple(fields.items()))
    try:
        changed(rig, wish)
    except InputError:
        out = cut_off(rig, load_id)
        if not out.changes:
            raise
        return Removal((*out.changes, wish), out.also)
    return Removal((wish,), ())


def said(error: InputError, key: str, text: str) -> InputError:
    """The model's word on a cell, with the column's label and the text as typed."""
    if key in _PLAIN:
        return in_words(error, _PLAIN[key], text)
    for field in _BEHIND.get(key, ()):
        told = in_words(error, Box(field, LABELS[key]), text)
        if told is not error:
            return told
    return error
