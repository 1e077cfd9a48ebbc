"""Reading and writing a rig file. Whatever comes in ends as a valid rig or one clear `InputError`."""

from __future__ import annotations

import json
from typing import Any, NoReturn

from pydantic import BaseModel, ValidationError

from rigcalc.errors import InputError
from rigcalc.model.messages import raise_first
from rigcalc.model.rig import Rig

LARGEST_FILE_CHARACTERS = 2_000_000
MOST_KEYS = 64
MOST_ENTRIES = 1000
_HEAD = {"format": "rigcalc-rig", "version": 1}
_SAVED = "the text of a saved rig file"


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
    data = _json(text)
    _no_long_list(data)
    return rig_from_data(data)


def rig_from_data(data: Any) -> Rig:
    """A rig from plain dicts and lists, as `json.loads` gives them; the same checks as a file."""
    if not isinstance(data, dict):
        raise InputError("Rig file", type(data).__name__, "a JSON object with the keys of a rig")
    for key, only in _HEAD.items():
        if data.get(key) != only or type(data[key]) is not type(only):
            raise InputError(key, data.get(key), repr(only))
    try:
        return Rig.model_validate_json(json.dumps(data, default=_as_data))
    except ValidationError as error:
        raise_first(error, data)
    except InputError:
        raise
    except RecursionError:
        raise InputError("Rig file", "nested too deep", _SAVED) from None
    except (TypeError, ValueError):  # a key that is no text, a whole number of thousands of digits, a ring of lists
        raise InputError("Rig", "made of values that no file can hold", "text, numbers, lists and objects") from None


def rig_data(rig: Rig) -> dict[str, Any]:
    """The rig as plain data, stated fields only; `rig_from_data` of it is the same rig."""
    return _HEAD | rig.model_dump(mode="json", exclude_unset=True)


def write_rig(rig: Rig) -> str:
    """The text of a rig file: stated fields only, what was typed last in each part, a newline at the end."""
    return json.dumps(_typed_last(rig_data(rig)), indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def schema() -> str:
    """JSON Schema of a rig file, written from the model; what one key says about another is checked on reading."""
    found = Rig.model_json_schema()
    found["required"] = [*_HEAD, *found["required"]]
    head = {"$schema": "https://json-schema.org/draft/2020-12/schema"}
    return json.dumps(head | found, indent=1, ensure_ascii=False) + "\n"


def _no_long_list(data: Any) -> None:
    waiting = [data]
    while waiting:
        one = waiting.pop()
        if isinstance(one, list) and len(one) > MOST_ENTRIES:
            raise InputError("List in the rig file", f"{len(one)} entries long", f"at most {MOST_ENTRIES} entries")
        waiting += one.values() if isinstance(one, dict) else one if isinstance(one, list) else []


def _typed_last(value: Any) -> Any:
    if isinstance(value, list):
        return [_typed_last(one) for one in value]
    if not isinstance(value, dict):
        return value
    return {key: _typed_last(value[key]) for key in sorted(value, key="typed".__eq__)}


def _as_data(value: object) -> Any:
    if isinstance(value, BaseModel):
        return value.model_dump(mode="json", exclude_unset=True)
    raise InputError("Value in the rig", value, "text, a number, true, false, a list or an object")


def _json(text: str) -> Any:
    def pairs(items: list[tuple[str, Any]]) -> dict[str, Any]:
        if len(items) > MOST_KEYS:
            raise InputError("Object in the rig file", f"{len(items)} keys long", f"at most {MOST_KEYS} keys")
        found: dict[str, Any] = {}
        for key, value in items:
            if key in found:
                raise InputError("Key", key, "each key once in an object")
            found[key] = value
        return found

    def constant(name: str) -> NoReturn:
        raise InputError("Number", name, "a finite number")

    try:
        return json.loads(text.removeprefix("\ufeff"), object_pairs_hook=pairs, parse_constant=constant)
    except json.JSONDecodeError as error:
        raise InputError("Rig file", f"not JSON at line {error.lineno}", _SAVED) from None
    except RecursionError:
        raise InputError("Rig file", "nested too deep", _SAVED) from None
    except InputError:
        raise
    except ValueError:
        raise InputError("Number", "thousands of digits long", "a number of usual length") from None
