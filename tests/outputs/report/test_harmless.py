"""Text from a rig is printed as it is and does nothing; the same rig gives the same bytes."""

from __future__ import annotations

import os
import subprocess
import sys
from hashlib import sha256

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rigcalc.outputs.report import pdf
from rigcalc.outputs.report.escape import text
from rigcalc.outputs.report.markup import drawing
from tests.outputs.report.papers import example, heard, pages, squeezed
from tests.rigs import EXAMPLES, small, small_data

STRINGS = [
    '#panic("x")', '#read("/etc/passwd")', "$x$", "@ref", "<label>", "*bold*", "=1+1", "= head", "_em_ `raw`",
    "<script>alert(1)</script>", '"); #panic("y") //', "a\\", "\\u{41}", "[x](y)", "/* off", "- point", "https://x.test",
    "~ -- ... 'q'", "{{1}}", "#set page(width: 1pt)", '#import "@preview/x:1.0.0"', "+ one", "/ term: it", "\\",
]  # fmt: skip


@pytest.mark.parametrize("edition", ["full", "owner"])
def test_every_text_of_a_rig_is_printed_as_it_is(edition):
    for string in STRINGS:
        data = small_data() | {"name": f"N {string}", "revision": string, "note": f"Note {string}\n{string} more"}
        for part in ("loads", "runs", "blocks"):
            data[part][0]["name"] = string
        data["runs"][1]["name"] = f"Way {string}"
        data["accepted"] = [{"rule": "W01", "subject": "W1", "reason": string, "name": string, "date": "2025-01-02"}]
        made = squeezed("".join(pages(pdf(*heard(small(**data)), "a4", edition))))
        for words in (f"N {string}", f"Note {string}{string} more", f"Way {string}", f"revision {string}"):
            assert squeezed(words) in made


@given(st.text(max_size=60))
@settings(max_examples=30)
def test_any_note_can_be_printed(words):
    """Through the writer of strings alone: a rig refuses control characters before it comes here."""
    import typst

    made = pages(typst.compile(f"#set document(date: none)\n#{text(words)} END".encode()))
    assert made[-1].rstrip().endswith("END")


def test_unseen_letters_show_and_long_words_break():
    assert text("a\x00b\u202ec\td\r\ne") == '"a\ufffdb\ufffdc d\\ne"'
    assert text("A" * 40).replace("\u200b", "") == f'"{"A" * 40}"'
    assert "\u200b" in text("A" * 40)
    assert "\u200b" not in text("electromagnetical")


def test_long_words_stay_on_the_page():
    """The extracted line of a word of eighty letters is broken: none is longer than the column."""
    data = small_data()
    data["runs"][0]["name"] = "X" * 80
    lines = "\n".join(pages(pdf(*heard(small(**data))))).replace("\u200b", "").splitlines()
    table = [line for line in lines if set(line.strip()) == {"X"}]
    assert len(table) >= 2


def test_a_drawing_is_a_string_too():
    assert drawing("d", '<svg viewBox="0 0 2 1">"#x\\</svg>') == (
        '#drawing(true, "d", "<svg viewBox=\\"0 0 2 1\\">\\"#x\\\\</svg>")\n'
    )


@pytest.mark.parametrize("edition", ["full", "owner"])
def test_same_bytes_twice(edition):
    assert pdf(*example("book-van"), "a4", edition) == pdf(*example("book-van"), "a4", edition)


def test_same_bytes_in_two_processes():
    code = (
        "import sys, hashlib; from pathlib import Path; from rigcalc.model import read_rig; from rigcalc.rules import"
        " findings; from rigcalc.study import study; from rigcalc.outputs.report import pdf;"
        " s = study(read_rig(Path(sys.argv[1]).read_text())); print(hashlib.sha256(pdf(s, findings(s))).hexdigest())"
    )
    rig = str(EXAMPLES / "ringing-trailer.json")
    seen = {
        subprocess.run(
            [sys.executable, "-c", code, rig], env=os.environ | {"PYTHONHASHSEED": seed, "TZ": zone, "LANG": "C"},
            capture_output=True, text=True, check=True,
        ).stdout.strip()
        for seed, zone in (("1", "UTC"), ("2", "Asia/Tokyo"))
    }  # fmt: skip
    assert seen == {sha256(pdf(*example("ringing-trailer"))).hexdigest()}
