"""Reading what was written gives the same rig."""

from __future__ import annotations

import json

import pytest
from hypothesis import given

from rigcalc.model import Rig, read_rig, rig_from_data, write_rig
from tests.model.building import BUILT, NAMES, rigs
from tests.rigs import EXAMPLES, example_data, small


@pytest.mark.parametrize("name", NAMES)
def test_an_example_file_is_what_writing_it_again_gives(name):
    text = (EXAMPLES / f"{name}.json").read_text(encoding="utf-8")
    assert write_rig(read_rig(text)) == text


@given(rigs())
@BUILT
def test_a_built_rig_reads_back_the_same(data):
    rig = rig_from_data(data)
    again = read_rig(write_rig(rig))
    assert again == rig
    assert again.model_dump(exclude_unset=True) == rig.model_dump(exclude_unset=True)
    assert json.loads(write_rig(rig)) == data


def test_a_rig_made_in_python_is_written_with_format_and_version():
    plain = small().model_dump(mode="json", exclude_unset=True, exclude={"format", "version"})
    rig = Rig.model_validate_json(json.dumps(plain))
    assert read_rig(write_rig(rig)) == rig


def test_what_was_typed_stays_beside_its_value():
    data = example_data("book-van")
    run = next(run for run in data["runs"] if "typed" in run)
    assert run["typed"]["length_out_m"] == "2 ft"
    assert run["length_out_m"] == pytest.approx(0.6096, rel=1e-9)  # NIST SP 811, B.8: foot 0.3048 m exactly
    assert '"length_out_m": "2 ft"' in write_rig(read_rig(json.dumps(data)))


def test_a_file_with_a_byte_order_mark_reads_the_same():
    assert read_rig("\ufeff" + write_rig(small())) == small()


def test_a_rig_does_not_change_after_reading():
    with pytest.raises(ValueError, match="frozen"):
        small().name = "Another"


def test_text_of_every_kind_survives():
    for text in ("<script>alert(1)</script>", "&amp; \"quoted\" 'too'", "Ωµ²°−", "😀 人", "a\u200db", "\\ud800"):
        rig = small(name=text)
        assert read_rig(write_rig(rig)).name == text
