"""A rig with one value out of place, and the message that refuses it."""

from __future__ import annotations

from typing import Any

import pytest

from rigcalc.errors import InputError
from rigcalc.model import read_rig, rig_from_data


def put(data: dict[str, Any], path: str, value: Any) -> dict[str, Any]:
    """The data with the value at "loads.0.name"."""
    *way, last = [int(key) if key.isdigit() else key for key in path.split(".")]
    at: Any = data
    for key in way:
        at = at[key]
    at[last] = value
    return data


def refusal(data: dict[str, Any]) -> str:
    with pytest.raises(InputError) as caught:
        rig_from_data(data)
    return str(caught.value)


def text_refusal(text: str) -> str:
    with pytest.raises(InputError) as caught:
        read_rig(text)
    return str(caught.value)
