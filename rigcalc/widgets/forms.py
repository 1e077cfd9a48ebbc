"""Fields of a rig's parts: how a value is shown, and what an edit of it changes.

A box stands for one field of the model. Its text is what was typed, kept beside the value in the rig; a bare
number gets the unit the box shows, at once and in sight. An empty box unstates the field.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Literal

from rigcalc.errors import InputError, need
from rigcalc.model import Rig
from rigcalc.model.edit import Change
from rigcalc.units import SUFFIXES, customary, number, parse, show, suffix_of
from rigcalc.widgets.kit import FieldSpec

Slider = tuple[float, float, float]
NOT_STATED = "not stated"
LONGEST_TYPED = 40
_BARE = re.compile(r"[-+−]?[\d.,  \u202f]*\d[.,]?")
_BOUND = re.compile(r"((?:more|less) than )?(-?[\d.]+)( or more| or less)?")


@dataclass(frozen=True, slots=True)
class Box:
    """One field of a form.

    Attributes
    ----------
    field : str
        The model's field; for kind ``quantity`` its name ends with the unit.
    label : str
        Its name for people.
    kind : str
        ``quantity`` (float with a unit), ``percent`` (a fraction, typed in %), ``count`` (a whole number),
        ``number`` (a float counted in ``unit``, as days), ``text``, ``note`` (text of several lines), ``choice``,
        ``check``.
    unit : str
        What a ``number`` counts, in the plural: "days".
    choices : tuple of (value, label)
        For kind ``choice``; the empty value unstates.
    read : function
        Turns a choice's value into the model's.
    slider, slider_us : (least, most, step)
        Travel in the field's own unit (percent: in %), and in feet or °F; without ``slider_us`` it is converted.
    """

    field: str
    label: str
    kind: Literal["quantity", "percent", "count", "number", "text", "note", "choice", "check"] = "quantity"
    unit: str = ""
    help: str = ""
    placeholder: str = NOT_STATED
    choices: tuple[tuple[str, str], ...] = ()
    read: Callable[[str], Any] = str
    slider: Slider | None = None
    slider_us: Slider | None = None

    @property
    def suffix(self) -> str:
        """Key of `SUFFIXES` for a quantity."""
        return suffix_of(self.field) or "percent"


def part_of(rig: Rig, kind: str, part_id: str = "") -> Any:
    """The part of a rig that a `Change` of that kind and id is about.

    Raises
    ------
    InputError
        Where the rig has no such part.
    """
    if kind in ("rig", "bank"):
        return rig if kind == "rig" else rig.bank
    found = next((part for part in getattr(rig, kind) if part.id == part_id), None)
    if found is None:
        raise InputError(f"Id in {kind}", part_id, "the id of a part of this rig")
    return found


def text_of(part: Any, box: Box, system: str) -> str | bool:
    """What stands in the box: the text as typed, else the value in the person's system; empty where not stated."""
    value = getattr(part, box.field, None)
    if box.kind == "check":
        return value is True
    if value is None:
        return ""
    if box.kind == "quantity":
        return quantity_text(value, box.suffix, system, part.typed.get(box.field))
    if box.kind == "percent":
        return f"{100 * value:.10g} %"
    if box.kind == "number":
        return f"{value:.10g} {_counted(box.unit, value)}"
    return str(value)


def quantity_text(value: float, suffix: str, system: str, typed: str | None = None) -> str:
    """A quantity as a box shows it.

    Examples
    --------
    >>> quantity_text(1.8288, "m", "metric", "6 ft"), quantity_text(1.5, "m", "metric"), quantity_text(20, "c", "us")
    ('6 ft', '1.5 m', '68 °F')
    """
    if typed is not None:
        return _with_unit(typed, SUFFIXES[suffix][0])
    digits = 6 if _unit(suffix, system) == SUFFIXES[suffix][0] else 4  # a converted value says no more than was typed
    shown, _, unit = show(value, suffix, system, digits).partition(" ")
    return f"{float(shown):.10g} {_unit(suffix, system) if unit == 'Ω' else unit}"


def other_of(part: Any, box: Box, system: str) -> str:
    """The value in the other system of units, or in the plain unit where another was typed; empty where the same."""
    value = getattr(part, box.field, None)
    if box.kind != "quantity" or value is None:
        return ""
    suffix, typed = box.suffix, part.typed.get(box.field)
    metric, us = show(value, suffix), show(value, suffix, "us")
    if metric == us:
        return metric if typed is not None and not _same_unit(typed, suffix) else ""
    text = quantity_text(value, suffix, system, typed)
    return metric if re.search(r"ft|feet|foot|in|yd|['\"′″]|f", text, re.IGNORECASE) else us


def spec_of(part: Any, box: Box, system: str, **more: Any) -> FieldSpec:
    """The `FieldSpec` of a box; ``more`` says what else is known, as an error."""
    text = text_of(part, box, system)
    kind: Any = box.kind if box.kind in ("text", "note", "choice", "check") else "quantity"
    spec = FieldSpec(key=box.field, label=box.label, kind=kind, text=text, other=other_of(part, box, system))
    spec |= FieldSpec(help=box.help, error="")
    if box.kind not in ("choice", "check"):
        spec["placeholder"] = box.placeholder
    if box.choices:
        spec["choices"] = box.choices
    if box.slider is not None:
        spec["slider"] = _slider(part, box, box.slider, system)
    spec |= more  # type: ignore[typeddict-item]
    return spec


def _slider(part: Any, box: Box, travel: Slider, system: str) -> Any:
    value = getattr(part, box.field, None)
    unit, to_shown = "%" if box.kind == "percent" else box.unit, 100.0 if box.kind == "percent" else 1.0
    least, most, step = travel
    if box.kind == "quantity":
        unit = _unit(box.suffix, system)
        if unit != SUFFIXES[box.suffix][0]:
            least, most, step = box.slider_us or _travel_us(travel, box.suffix)
            value = None if value is None else round(customary(value, box.suffix, system), 6)
    shown = least if value is None else value * to_shown
    return {"min": least, "max": most, "step": step, "value": shown, "unit": unit}


def _travel_us(travel: Slider, suffix: str) -> Slider:
    least, most, step = travel
    if suffix == "c":
        return round(least * 1.8 + 32), round(most * 1.8 + 32), max(1.0, step)
    return round(least / 0.3048), round(most / 0.3048), max(0.1, round(step / 0.3048, 1))


def value_of(box: Box, text: str | bool, system: str) -> tuple[Any, str | None]:
    """The model's value of an edited text, and the text to keep beside it; (None, None) unstates.

    Examples
    --------
    >>> value_of(Box("length_out_m", "Length out"), "6 ft", "metric")
    (1.8288000000000002, '6 ft')
    >>> value_of(Box("length_out_m", "Length out"), "20", "us")[1], value_of(Box("power_w", "Power"), "45 W", "us")
    ('20 ft', (45.0, None))
    """
    if isinstance(text, bool):
        return text, None
    text = text.strip() if box.kind == "note" else " ".join(text.split())
    if not text:
        return None, None
    if box.kind == "quantity":
        return _quantity(box, text, system)
    if box.kind == "percent":
        return percent(text, box.label), None
    if box.kind == "count":
        return count(text, box.label), None
    if box.kind == "number":
        return counted(text, box.label, box.unit), None
    return box.read(text) if box.kind == "choice" else text, None


def _quantity(box: Box, text: str, system: str) -> tuple[float, str | None]:
    need(len(text) <= LONGEST_TYPED, box.label, text, f"at most {LONGEST_TYPED} characters")
    text = _with_unit(text, _unit(box.suffix, system))
    value = parse(text, box.suffix, box.label)
    plain = quantity_text(value, box.suffix, "metric") == text == quantity_text(value, box.suffix, system)
    return value, None if plain else text


def with_unit(text: str, suffix: str, system: str) -> str:
    """A bare number gets the unit that the person's boxes show; anything else stays as typed.

    Examples
    --------
    >>> with_unit("20", "m", "us"), with_unit("1,5", "m", "metric"), with_unit("6 ft", "m", "metric")
    ('20 ft', '1,5 m', '6 ft')
    """
    return _with_unit(text, _unit(suffix, system))


def _with_unit(text: str, unit: str) -> str:
    return f"{text} {unit}" if _BARE.fullmatch(text) else text


def _unit(suffix: str, system: str) -> str:
    return SUFFIXES[suffix][1 if system == "us" else 0]


def _same_unit(typed: str, suffix: str) -> bool:
    return re.sub(r"[-+−\d.,\s]", "", typed) in ("", SUFFIXES[suffix][0])


def percent(text: str, what: str) -> float:
    """A fraction typed in percent. A bare number up to 1 can mean both, so it is refused.

    Examples
    --------
    >>> percent("35 %", "Duty cycle"), percent("80", "Depth of discharge")
    (0.35, 0.8)
    """
    bare = text.strip().removesuffix("%").strip()
    value = parse(text, "percent", what)
    if bare == text.strip() and 0 < value <= 1:
        raise InputError(what, text, f"{100 * value:g} % or {value:g} %; without the sign it can mean both")
    need(0 < value <= 100, what, text, "more than 0 % and at most 100 %")
    return value / 100


def count(text: str, what: str) -> int:
    """A whole number."""
    value = number(text, what)
    need(value == int(value), what, text, "a whole number")
    return int(value)


def counted(text: str, what: str, unit: str) -> float:
    """A number with or without the word it counts.

    Examples
    --------
    >>> counted("1,5 days", "Days wanted", "days"), counted("2", "Days wanted", "days")
    (1.5, 2.0)
    """
    words = {unit, unit.removesuffix("s"), unit[:1]}
    found = re.fullmatch(r"(.*?)\s*([^\W\d]*)", text.strip())
    if found is None or found[2] not in words | {""}:
        raise InputError(what, text, f"a number of {unit}")
    return number(found[1], what)


def _counted(unit: str, value: float) -> str:
    return unit.removesuffix("s") if value == 1 else unit


def change_of(kind: str, part_id: str, box: Box, text: str | bool, system: str) -> Change:
    """What an edited box changes.

    Examples
    --------
    >>> change_of("runs", "W1", Box("length_out_m", "Length out"), "6 ft", "metric").fields
    (('length_out_m', 1.8288000000000002), ('typed', {'length_out_m': '6 ft'}))
    """
    value, typed = value_of(box, text, system)
    fields: tuple[tuple[str, Any], ...] = ((box.field, value),)
    return Change(kind, part_id, (*fields, ("typed", {box.field: typed})) if typed else fields)


def in_words(error: InputError, box: Box, text: object) -> InputError:
    """The model's word on this field, with the label people see, the text they typed, and the unit."""
    if box.field not in re.split(r"[ .]", error.what):
        return error
    unit = SUFFIXES[box.suffix][0] if box.kind == "quantity" else ""
    bound = _BOUND.fullmatch(error.allowed)
    allowed = f"{bound[1] or ''}{bound[2]} {unit}{bound[3] or ''}" if bound and unit else error.allowed
    if allowed.startswith("a value;"):
        allowed = "a value; the rig cannot be without it"
    return InputError(box.label, text, allowed)
