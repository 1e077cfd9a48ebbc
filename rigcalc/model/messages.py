"""What pydantic finds wrong, said as one `InputError`: which field of which part, its value, what is allowed."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping
from typing import Any, NoReturn, get_args

from pydantic import BaseModel, ValidationError

from rigcalc.errors import InputError, shown
from rigcalc.model.base import PATTERN_WORDS
from rigcalc.model.rig import Rig

Loc = tuple[int | str, ...]
_PART = {
    "loads": "load", "runs": "run", "devices": "device", "inverters": "inverter", "converters": "converter",
    "buses": "bus", "blocks": "block", "day_types": "type of day",
}  # fmt: skip
_TYPES = {
    "float_type": "a number", "float_parsing": "a number", "finite_number": "a finite number",
    "int_type": "a whole number", "int_from_float": "a whole number", "int_parsing": "a whole number",
    "int_parsing_size": "a whole number of usual length", "string_type": "text", "bool_type": "true or false",
    "tuple_type": "a list", "model_type": "an object with keys", "model_attributes_type": "an object with keys",
    "dict_type": "an object with keys",
}  # fmt: skip
_BOUNDS = (("gt", "more than {:g}"), ("ge", "{:g} or more"), ("lt", "less than {:g}"), ("le", "{:g} or less"))


def raise_first(error: ValidationError, data: Mapping[str, Any]) -> NoReturn:
    """The first problem, in the person's terms; ``data`` is what was checked."""
    first = error.errors(include_url=False, include_input=False)[0]
    loc, kind = first["loc"], first["type"]
    given = _at(loc, data)
    inner = first.get("ctx", {}).get("error")
    if isinstance(inner, InputError):
        raise inner from None
    if kind == "json_invalid":
        _raise_unreadable(data)
    if kind == "extra_forbidden":
        raise InputError(f"Key in {_where(loc[:-1], data) or 'the rig'}", loc[-1], _nearest(loc)) from None
    where = _where(loc, data) or "Rig file"
    if kind == "missing":
        raise InputError(where, None, "a value; this key is needed") from None
    if kind == "too_long":
        raise InputError(where, f"{len(given)} entries long", f"at most {first['ctx']['max_length']} entries") from None
    raise InputError(where, given, _allowed(kind, first["msg"], first.get("ctx", {}))) from None


def _at(loc: Loc, data: Any) -> Any:
    for part in loc:
        known = part in data if isinstance(data, dict) else isinstance(data, list | tuple) and isinstance(part, int)
        data = data[part] if known else None
    return data


def _raise_unreadable(data: Mapping[str, Any]) -> NoReturn:
    """JSON that Python writes and nobody reads: half a character, or lists in lists without end."""
    waiting: list[Any] = [data]
    while waiting:
        one = waiting.pop()
        if isinstance(one, str) and re.search("[\ud800-\udfff]", one):
            raise InputError("Text in the rig file", one, "whole characters, not half of a pair") from None
        waiting += [*one.keys(), *one.values()] if isinstance(one, dict) else one if isinstance(one, list) else []
    raise InputError("Rig file", "nested too deep", "the text of a saved rig file") from None


def _where(loc: Loc, data: Any) -> str:
    """ "power_w of load fridge"; a part without a usable id goes by its row."""
    if len(loc) < 2 or not isinstance(loc[1], int):
        return ".".join(_plain(part) for part in loc)
    kind, row = str(loc[0]), loc[1]
    part = data[kind][row]
    part_id = part.get("id") if isinstance(part, dict) else None
    usable = kind in _PART and isinstance(part_id, str) and re.fullmatch(r"[\w.+-]{1,32}", part_id, re.ASCII)
    whole = f"{_PART[kind]} {part_id}" if usable else f"row {row + 1} of {kind}"
    field = ".".join(_plain(one) for one in loc[2:])
    return f"{field} of {whole}" if field else whole


def _plain(part: int | str) -> str:
    return part if isinstance(part, str) and part.isidentifier() else shown(part)


def _allowed(kind: str, message: str, context: Mapping[str, Any]) -> str:
    if kind in _TYPES:
        return _TYPES[kind]
    if kind == "string_pattern_mismatch":
        return PATTERN_WORDS.get(str(context["pattern"]), message)
    for bound, words in _BOUNDS:
        if bound in context:
            return words.format(context[bound])
    if kind == "string_too_long":
        return f"at most {context['max_length']} characters"
    if kind == "string_too_short":
        return "text"
    return message.removeprefix("Input should be ")


def _nearest(loc: Loc) -> str:
    """The known keys at this place, nearest first."""
    model: type[BaseModel] = Rig
    for part in loc[:-1]:
        if isinstance(part, str) and part in model.model_fields:
            model = _model_in(model.model_fields[part].annotation) or model
    known = list(model.model_fields)
    near = difflib.get_close_matches(str(loc[-1]), known, n=1, cutoff=0.5)
    return f"{near[0]!r}, the nearest known key" if near else f"one of {', '.join(known)}"


def _model_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in get_args(annotation):
        found = _model_in(inner)
        if found:
            return found
    return None
