"""Reading and writing a rig file. Whatever comes in ends as a valid rig or one clear `InputError`."""

from __future__ import annotations

import difflib
import json
from typing import Any, NoReturn, get_args

from pydantic import BaseModel, ValidationError

from rigcalc.errors import InputError
from rigcalc.model.rig import Rig

LARGEST_FILE_CHARACTERS = 2_000_000


def read_rig(text: str) -> Rig:
    """A rig from the text of a rig file.

    Parameters
    ----------
    text : str
        JSON of at most 2,000,000 characters. [-]

    Returns
    -------
    Rig
        The rig; `write_rig` of it reads back the same.

    Raises
    ------
    InputError
        Naming the field, its value and what is allowed.

    Examples
    --------
    >>> read_rig('{"format": "rigcalc-rig", "version": 7}')
    Traceback (most recent call last):
    ...
    rigcalc.errors.InputError: version is 7; expected 1.
    """
    if len(text) > LARGEST_FILE_CHARACTERS:
        raise InputError("Rig file", f"{len(text)} characters long", f"at most {LARGEST_FILE_CHARACTERS}")
    return rig_from_data(_json(text))


def rig_from_data(data: Any) -> Rig:
    """A rig from plain dicts and lists, as `json.loads` gives them; the same checks as a file."""
    if not isinstance(data, dict):
        raise InputError("Rig file", type(data).__name__, "a JSON object with the keys of a rig")
    if data.get("format") != "rigcalc-rig":
        raise InputError("format", data.get("format"), "'rigcalc-rig'")
    if data.get("version") != 1 or isinstance(data.get("version"), bool):
        raise InputError("version", data.get("version"), "1")
    try:
        return Rig.model_validate_json(json.dumps(data))
    except ValidationError as error:
        _raise_first(error)


def write_rig(rig: Rig) -> str:
    """The text of a rig file: stated fields only, two-space indent, a newline at the end."""
    return (
        json.dumps(rig.model_dump(mode="json", exclude_unset=True), indent=2, ensure_ascii=False, allow_nan=False)
        + "\n"
    )


def schema() -> str:
    """JSON Schema of a rig file, written from the model."""
    return json.dumps(Rig.model_json_schema(), indent=1, ensure_ascii=False) + "\n"


def _json(text: str) -> Any:
    def pairs(items: list[tuple[str, Any]]) -> dict[str, Any]:
        keys = [k for k, _ in items]
        for key in keys:
            if keys.count(key) > 1:
                raise InputError("Key", key, "each key once in an object")
        return dict(items)

    def constant(name: str) -> NoReturn:
        raise InputError("Number", name, "a finite number")

    try:
        return json.loads(text.removeprefix("\ufeff"), object_pairs_hook=pairs, parse_constant=constant)
    except json.JSONDecodeError as error:
        raise InputError("Rig file", f"not JSON at line {error.lineno}", "the text of a saved rig file") from None
    except RecursionError:
        raise InputError("Rig file", "nested too deep", "the text of a saved rig file") from None
    except ValueError as error:
        if isinstance(error, InputError):
            raise
        raise InputError("Number", "thousands of digits long", "a number of usual length") from None


def _raise_first(error: ValidationError) -> NoReturn:
    """The first problem, in the person's terms."""
    first = error.errors(include_url=False)[0]
    inner = first.get("ctx", {}).get("error")
    if isinstance(inner, InputError):
        raise inner from None
    where = ".".join(str(part) for part in first["loc"]) or "Rig file"
    if first["type"] == "extra_forbidden":
        raise InputError("Key", where, _nearest(first["loc"])) from None
    if first["type"] == "missing":
        raise InputError(where, None, "a value; this key is needed") from None
    raise InputError(where, first["input"], _allowed(first["msg"])) from None


def _allowed(message: str) -> str:
    text = message.removeprefix("Input should be ").removeprefix("a valid ").rstrip(".")
    return text[:1].lower() + text[1:] if text[:6] in ("String", "Value ") else text


def _nearest(loc: tuple[int | str, ...]) -> str:
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
