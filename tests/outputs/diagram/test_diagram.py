"""The diagram read back: what it says is the rig, and it can be read on paper."""

from __future__ import annotations

import itertools
import re
from collections import Counter
from functools import cache
from xml.etree import ElementTree

import pytest
from hypothesis import given

from rigcalc import CAUTION
from rigcalc.errors import InputError
from rigcalc.model import Rig, rig_from_data
from rigcalc.model.network import BANK
from rigcalc.outputs.diagram import diagram
from rigcalc.outputs.diagram.lettering import width_mm
from rigcalc.study import study
from tests.model.building import STUDIED, rigs
from tests.rigs import example_data, largest_data, small_data, thirty_circuits

EXAMPLES = ("book-van", "canal-workboat", "ringing-trailer", "starter", "weaving-studio")
SVG = "{http://www.w3.org/2000/svg}"
Box = tuple[float, ...]


def circuits(number: int) -> Rig:
    """The rig of thirty circuits with fewer of them."""
    whole = thirty_circuits()
    kept = {load.id for load in whole.loads[:number]}
    runs = tuple(run for run in whole.runs if run.to_id == "X2" or run.to_id in kept)
    ids = {run.id for run in runs}
    devices = tuple(one for one in whole.devices if one.run_id in ids)
    return whole.model_copy(update={"loads": whole.loads[:number], "runs": runs, "devices": devices})


@cache
def rig_named(name: str) -> Rig:
    return circuits(int(name)) if name.isdigit() else rig_from_data(example_data(name))


def sheets_of(rig: Rig, **choice: str) -> list[ElementTree.Element]:
    return [ElementTree.fromstring(text) for text in diagram(study(rig), **choice)]  # type: ignore[arg-type]


every_rig = pytest.mark.parametrize("name", [*EXAMPLES, "4", "14", "30"])
every_paper = pytest.mark.parametrize("paper", ["a4", "letter"])
every_family = pytest.mark.parametrize("symbols", ["iec", "ansi"])


def connections(sheets: list[ElementTree.Element]) -> Counter[tuple[str, ...]]:
    groups = [g for sheet in sheets for g in sheet.iter(f"{SVG}g") if "data-run" in g.attrib]
    return Counter(tuple(g.attrib[f"data-{key}"] for key in ("run", "from", "to")) for g in groups)


def wired(rig: Rig) -> Counter[tuple[str, ...]]:
    return Counter((run.id, run.from_id, run.to_id) for run in rig.runs)


def boxes(sheet: ElementTree.Element) -> tuple[list[tuple[str, Box]], list[tuple[str, Box]]]:
    """Text boxes, worked out here from position and size, and boxes of symbols, bus bars and upright lines."""
    texts, marks = [], []
    for at in sheet.iter():
        if at.tag == f"{SVG}text":
            size, words = float(at.attrib["font-size"]), at.text or ""
            width, x = width_mm(words, size), float(at.attrib["x"])
            left = x - width if at.get("text-anchor") == "end" else x
            base = float(at.attrib["y"])
            texts.append((words, (left, base - 0.8 * size, left + width, base + 0.2 * size)))
        elif "data-symbol" in at.attrib:
            marks.append((at.attrib["data-symbol"], tuple(map(float, at.attrib["data-box"].split()))))
        elif at.tag == f"{SVG}line":
            x1, y1, x2, y2 = (float(at.attrib[key]) for key in ("x1", "y1", "x2", "y2"))
            half = float(at.get("stroke-width", "0.3")) / 2
            marks.append((f"{at.attrib['data-weight']} line", (x1 - half, y1 - half, x2 + half, y2 + half)))
    return texts, marks


def meet(one: Box, other: Box) -> bool:
    hair = 0.011  # the sheet prints hundredths
    return all(one[n] + hair < other[n + 2] and other[n] + hair < one[n + 2] for n in (0, 1))


def clashes(sheet: ElementTree.Element) -> list[tuple[str, str]]:
    texts, marks = boxes(sheet)
    found = [(a, b) for (a, box), (b, other) in itertools.combinations(texts, 2) if meet(box, other)]
    return found + [(a, b) for a, box in texts for b, other in marks if meet(box, other)]


def clashing_symbols(sheet: ElementTree.Element) -> list[tuple[str, str]]:
    marks = [(words, box) for words, box in boxes(sheet)[1] if not words.endswith(" line")]
    return [(a, b) for (a, box), (b, other) in itertools.combinations(marks, 2) if meet(box, other)]


@every_rig
@every_paper
def test_connections_are_those_of_the_rig(name, paper):
    assert connections(sheets_of(rig_named(name), paper=paper)) == wired(rig_named(name))


@every_rig
@every_paper
@every_family
def test_nothing_meets(name, paper, symbols):
    for sheet in sheets_of(rig_named(name), paper=paper, symbols=symbols):
        assert clashes(sheet) == []
        assert clashing_symbols(sheet) == []


@every_rig
@every_paper
def test_all_lettering_is_on_the_paper_and_large_enough(name, paper):
    """2.5 mm: the smallest lettering of ISO 3098 in common use on A4, from memory."""
    size = {"a4": (297.0, 210.0), "letter": (279.4, 215.9)}[paper]
    for sheet in sheets_of(rig_named(name), paper=paper):
        assert sheet.attrib["viewBox"] == f"0 0 {size[0]:g} {size[1]:g}"
        assert (sheet.attrib["width"], sheet.attrib["height"]) == (f"{size[0]:g}mm", f"{size[1]:g}mm")
        assert min(float(text.attrib["font-size"]) for text in sheet.iter(f"{SVG}text")) >= 2.5
        assert not any("scale" in at.get("transform", "") for at in sheet.iter())
        texts, marks = boxes(sheet)
        for words, box in texts + marks:
            assert 9.8 <= box[0] <= box[2] <= size[0] - 9.8, words
            assert 9.8 <= box[1] <= box[3] <= size[1] - 9.8, words


@every_rig
def test_each_device_and_load_is_designated_once(name):
    rig = rig_named(name)
    shown = [text for sheet in sheets_of(rig) for text in sheet.iter(f"{SVG}text") if "data-designation" in text.attrib]
    count = Counter(text.attrib["data-designation"] for text in shown)
    for part in (*rig.devices, *rig.loads):
        assert count[part.id] == 1, part.id
    for text in shown:
        assert (text.text or "").split()[0] == f"-{text.attrib['data-designation']}"


@every_rig
def test_always_live_is_what_a_walk_finds(name):
    """Walked from the far end: a run is always live where its way back to the bank does not pass the switch."""
    rig = rig_named(name)
    into = {run.to_id: run for run in rig.runs}
    expected = set()
    for run in rig.runs:
        way = [run]
        while way[-1].from_id in into:
            way.append(into[way[-1].from_id])
        if rig.main_switch_run and way[-1].from_id == BANK and rig.main_switch_run not in {one.id for one in way}:
            expected.add(run.id)
    runs = [g for sheet in sheets_of(rig) for g in sheet.iter(f"{SVG}g") if "data-run" in g.attrib]
    assert {g.attrib["data-run"] for g in runs if g.attrib["data-live"] == "always"} == expected
    for g in runs:
        weights = {line.attrib["data-weight"] for line in g.iter(f"{SVG}line")}
        only = {"always": {"heavy"}, "to the switch": {"heavy", "thin"}}.get(g.attrib["data-live"], {"thin"})
        assert weights == only


def test_no_heavy_line_without_a_main_switch():
    (sheet,) = sheets_of(rig_from_data(small_data()))
    assert not [at for at in sheet.iter(f"{SVG}line") if at.attrib["data-weight"] == "heavy"]
    assert any((at.text or "").startswith("Main switch not stated") for at in sheet.iter(f"{SVG}text"))


@every_rig
def test_sheets_refer_to_each_other(name):
    sheets = sheets_of(rig_named(name))
    to: Counter[tuple[int, int]] = Counter()
    back: Counter[tuple[int, int]] = Counter()
    for number, sheet in enumerate(sheets, start=1):
        for text in sheet.iter(f"{SVG}text"):
            if found := re.match(r"to sheet (\d+)", text.text or ""):
                to[number, int(found[1])] += 1
            if found := re.match(r"from sheet (\d+)", text.text or ""):
                back[int(found[1]), number] += 1
    assert to == back
    assert {there for _, there in to} == set(range(2, len(sheets) + 1))


@pytest.mark.parametrize(("number", "count"), [(4, 1), (14, 1), (16, 1), (17, 2), (30, 2)])
def test_above_sixteen_circuits_it_goes_on(number, count):
    assert len(diagram(study(circuits(number)))) == count


@every_rig
def test_title_block_says_what_the_rig_says(name):
    rig, sheets = rig_named(name), sheets_of(rig_named(name))
    for number, sheet in enumerate(sheets, start=1):
        block = next(g for g in sheet.iter(f"{SVG}g") if g.get("data-part") == "title-block")
        words = " ".join(text.text or "" for text in block.iter(f"{SVG}text"))
        for part in (rig.name, f"Revision: {rig.revision or 'not stated'}", f"Date: {rig.date or 'not stated'}",
                     f"Sheet {number} of {len(sheets)}", CAUTION, study(rig).rule_set.title):  # fmt: skip
            assert part in words


@every_rig
def test_legend_has_each_symbol_that_occurs(name):
    for sheet in sheets_of(rig_named(name)):
        legend = next(g for g in sheet.iter(f"{SVG}g") if g.get("data-part") == "legend")
        explained = {at.attrib["data-symbol"] for at in legend.iter() if "data-symbol" in at.attrib}
        used = {at.attrib["data-symbol"] for g in sheet.iter(f"{SVG}g") if {"data-run", "data-node"} & set(g.attrib)
                for at in g.iter() if "data-symbol" in at.attrib}  # fmt: skip
        assert used <= explained


@every_rig
def test_ratings_and_sizes_are_those_of_the_study(name):
    found = study(rig_named(name))
    words = [text.text for sheet in sheets_of(rig_named(name)) for text in sheet.iter(f"{SVG}text")]
    for run in found.network.runs:
        size = run.choice.size.replace("mm2", "mm²") if run.choice else "not chosen"
        assert f"-{run.run_id} {size}" in words
    for one in found.network.circuits:
        rating = "not chosen" if one.rating_a is None else f"{one.rating_a:g} A"
        assert f"-{one.circuit_id} {rating}" in words


def test_what_the_bank_does_not_reach_is_drawn_and_said_so():
    data = small_data() | {"main_switch_run": "W1"}
    data["buses"] = [{"id": "X9", "name": "Spare bus"}]
    data["runs"][1] = data["runs"][1] | {"from_id": "X9"}
    (sheet,) = sheets_of(rig_from_data(data))
    live = {g.attrib["data-run"]: g.attrib["data-live"] for g in sheet.iter(f"{SVG}g") if "data-run" in g.attrib}
    assert live == {"W1": "to the switch", "W2": "not connected"}
    assert "no run to it" in [text.text for text in sheet.iter(f"{SVG}text")]


def test_same_rig_same_bytes():
    rig = rig_from_data(example_data("book-van"))
    assert diagram(study(rig)) == diagram(study(rig_from_data(example_data("book-van"))))


@pytest.mark.parametrize(
    "hostile", ["<script>alert(1)</script>", '"><img src=x onerror=y>', "a & b ]]> <!--", "￾\uffff"]
)
def test_hostile_names_stay_text(hostile):
    data = small_data()
    data["name"] = data["loads"][0]["name"] = data["runs"][0]["name"] = data["blocks"][0]["name"] = hostile
    (text,) = diagram(study(rig_from_data(data)))
    sheet = ElementTree.fromstring(text)
    allowed = {"svg", "title", "desc", "rect", "g", "line", "path", "circle", "polygon", "text"}
    assert {at.tag.removeprefix(SVG) for at in sheet.iter()} <= allowed
    assert not [key for at in sheet.iter() for key in at.attrib if key.startswith("on") or "href" in key]
    assert hostile in (sheet.findtext(f"{SVG}title") or "") or "\uffff" in hostile


def test_long_names_are_shortened_and_kept_whole_in_the_title():
    data = small_data()
    data["loads"][0]["name"] = "Lamp over the long table at the rear window, second from the left, with a switch"
    (sheet,) = sheets_of(rig_from_data(data))
    node = next(g for g in sheet.iter(f"{SVG}g") if g.get("data-node") == "lamp")
    assert data["loads"][0]["name"] in (node.findtext(f"{SVG}title") or "")
    assert any((text.text or "").endswith("…") for text in node.iter(f"{SVG}text"))
    assert clashes(sheet) == []


@pytest.mark.parametrize("choice", [{"symbols": "din"}, {"paper": "a3"}])
def test_other_choices_are_refused(choice):
    with pytest.raises(InputError):
        diagram(study(rig_from_data(small_data())), **choice)


def test_as_many_parts_as_a_rig_may_have():
    rig = rig_from_data(largest_data())
    assert connections(sheets_of(rig)) == wired(rig)


@STUDIED
@given(rigs())
def test_any_rig_can_be_drawn(data):
    rig = rig_from_data(data)
    sheets = sheets_of(rig, paper="letter")
    assert connections(sheets) == wired(rig)
    shown = Counter(text.get("data-designation") for sheet in sheets for text in sheet.iter(f"{SVG}text"))
    assert all(shown[part.id] == 1 for part in (*rig.devices, *rig.loads))
    assert [clashes(sheet) for sheet in sheets] == [[] for _ in sheets]
