"""Whatever is done to a rig file, it ends as a valid rig or as one `InputError`, never as another exception."""

from __future__ import annotations

import contextlib
import json

from hypothesis import given
from hypothesis import strategies as st

from rigcalc.errors import InputError
from rigcalc.model import read_rig, rig_from_data, write_rig
from tests.model.building import NAMES, THOROUGH, damaged, json_values
from tests.rigs import EXAMPLES

TEXTS = [(EXAMPLES / f"{name}.json").read_text(encoding="utf-8") for name in NAMES]


def ends_well(text: str) -> None:
    """Read; what is refused says why in one line, what is accepted can be written and read again."""
    refused = None
    try:
        rig = read_rig(text)
    except InputError as error:
        refused = error
    if refused is None:
        assert read_rig(write_rig(rig)) == rig
        return
    message = str(refused)
    assert refused.what
    assert refused.allowed
    assert message.encode()
    assert len(message) < 1000
    assert "\n" not in message


@given(damaged())
@THOROUGH
def test_a_damaged_rig(data):
    ends_well(json.dumps(data))
    with contextlib.suppress(InputError):  # the same, never written as a file
        rig_from_data(data)


@given(st.sampled_from(TEXTS), st.data())
@THOROUGH
def test_a_file_with_pieces_cut_out_and_put_in(text, data):
    for _ in range(data.draw(st.integers(1, 3))):
        at = data.draw(st.integers(0, len(text)))
        text = text[:at] + data.draw(st.text(max_size=4)) + text[at + data.draw(st.integers(0, 20)) :]
    ends_well(text)


@given(st.text(max_size=200))
@THOROUGH
def test_random_text(text):
    ends_well(text)


@given(st.binary(max_size=200), st.sampled_from(["utf-8", "latin-1", "utf-16"]), st.sampled_from(["replace", "ignore"]))
@THOROUGH
def test_random_bytes_as_text(raw, encoding, errors):
    ends_well(raw.decode(encoding, errors))
    ends_well(raw.decode("utf-8", "surrogateescape"))


@given(json_values)
@THOROUGH
def test_random_json(value):
    ends_well(json.dumps(value))
    ends_well(json.dumps({"format": "rigcalc-rig", "version": 1, "name": "x", "bank": value, "loads": value}))
