"""What all pieces share: answers by number, errors told, files asked for, escaping."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path

import pytest

from rigcalc.widgets.kit import (
    Fields,
    Header,
    Markup,
    Plot,
    SaveOpen,
    Sheet,
    Store,
    Table,
    assets,
    h,
)
from tests.widgets.kit.conftest import messages


@pytest.mark.parametrize(
    "piece",
    [Fields([]), Table([], []), Sheet(), Plot(), Store(), SaveOpen(), Header([])],
    ids=lambda piece: piece.kind,
)
def test_every_piece_has_its_half_in_the_browser(piece):
    assert re.search(rf"^  {piece.kind}\b", assets.kit_js(), re.MULTILINE)
    assert len(piece._esm) < 2000
    assert piece.layout is Sheet().layout


def test_an_answered_message_comes_back_by_its_number():
    sheet = Sheet()
    sheet._received(None, {"type": "act", "act": "apply", "n": 7}, [])
    assert sheet.seen == 7


def test_a_failing_callback_is_told_and_answered_and_the_next_success_clears_it():
    sheet, fail = Sheet(), [True]

    def act(_act, _arg):
        if fail:
            raise RuntimeError("on purpose")

    sheet.on_act(act)
    sheet._received(None, {"type": "act", "act": "x", "n": 1}, [])
    assert "RuntimeError: on purpose" in sheet.trouble
    assert sheet.seen == 1
    fail.clear()
    sheet._received(None, {"type": "act", "act": "x", "n": 2}, [])
    assert sheet.trouble == ""


def test_a_failing_callback_is_raised_to_a_test_that_sends_the_message_itself():
    sheet = Sheet()
    sheet.on_act(lambda act, arg: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        sheet._handle({"type": "act", "act": "x"})


@pytest.mark.parametrize("name", ["kit.js", "kit.css", "plotly-basic.min.js"])
def test_a_piece_asked_for_a_file_answers_with_its_text(sent, name):
    Sheet()._received(None, {"type": "asset", "name": name}, [])
    [(content, _)] = messages(sent)
    assert content == {"type": "asset", "name": name, "text": assets.asset(name)}


def test_the_bundle_of_plotly_js_is_of_the_major_version_that_the_python_package_speaks_to():
    package = importlib.util.find_spec("plotly").submodule_search_locations[0]
    whole = (Path(package) / "package_data" / "plotly.min.js").read_text(encoding="utf-8")[:200]
    major = re.search(r" v(\d+)\.", whole)[1]
    assert assets.plotly_version().split(".")[0] == major


def test_the_module_has_no_import_left_and_one_export():
    assert not re.search(r"^import |^export (?!\{ render \};$)", assets.kit_js(), re.MULTILINE)
    names = re.findall(r"^(?:async )?(?:function|const|let|class) (\w+)", assets.kit_js(), re.MULTILINE)
    assert len(names) == len(set(names)), "two parts of the kit use one name"


def test_the_stylesheet_touches_nothing_outside_pages_and_pieces():
    css = re.sub(r"/\*.*?\*/", "", assets.kit_css(), flags=re.DOTALL)
    selectors = re.findall(r"(?:^|[{}])\s*([^@{};]+)\{", css)
    outside = [one for part in selectors for one in re.split(r",(?![^(]*\))", part) if ".rig" not in one]
    assert [one.strip() for one in outside if one.strip() != ":root"] == []


def test_h_escapes_what_people_typed_and_passes_markup_on():
    assert h("<p>{}</p>{rest}", '<b> & "', rest=h("<i>{}</i>", None)) == "<p>&lt;b&gt; &amp; &quot;</p><i></i>"
    assert isinstance(h("{}", "x"), Markup)
