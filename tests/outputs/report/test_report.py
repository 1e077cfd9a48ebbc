"""The full report read back from its PDF."""

from __future__ import annotations

import io
import re

import pypdf
import pytest

from rigcalc import CAUTION
from rigcalc.errors import InputError
from rigcalc.model import rig_from_data
from rigcalc.outputs.report import pdf
from rigcalc.outputs.report.sections.limits import DEFERENCE, NEVER_CHECKED
from rigcalc.outputs.report.sections.wiring import run_cells
from rigcalc.units import show, significant
from tests.outputs.report.papers import NAMES, example, example_pages, heard, pages, small_pages, squeezed, whole
from tests.rigs import example_data, small, small_data


@pytest.mark.parametrize("name", NAMES)
def test_each_run_with_its_conductor_and_drop(name):
    found, text = example(name)[0], whole(name)
    given = {run.id: run for run in found.rig.runs}
    for one in found.network.runs:
        cells = run_cells(found, given[one.run_id], one)
        assert one.choice is not None
        assert cells[5] == one.choice.size
        assert cells[7:9] == (f"{significant(one.choice.drop_v, 2)} V", f"{one.choice.way_drop_percent:.1f} %")
        assert squeezed("".join(cells)) in text


@pytest.mark.parametrize("name", NAMES)
def test_each_circuit_with_its_rating(name):
    found, text = example(name)[0], whole(name)
    for one in found.network.circuits:
        window = f"{significant(one.least_a)} to {significant(one.most_a)} A"
        mark = "†" if one.rating_status.startswith("memory") else ""
        assert squeezed(f"{window}{one.rating_a:g} A{mark}{(one.device_class or '').replace('_', ' ')}") in text
        assert squeezed(f"{one.circuit_id} in {one.run_id}: {one.rating_a:g} A") in text  # its workings


@pytest.mark.parametrize("name", NAMES)
def test_every_finding_with_measured_limit_source(name):
    text = whole(name)
    for one in example(name)[1]:
        for part in (f"{one.rule} {one.subject}: {one.sentence}", f"Found: {one.measured}. Limit: {one.limit}."):
            assert squeezed(part) in text
        assert squeezed(f"Source: {one.source} (") in text


@pytest.mark.parametrize("name", NAMES)
def test_assumptions_clauses_and_what_was_not_checked(name):
    found, text = example(name)[0], whole(name)
    for words in (
        *found.assumptions,
        *(row.text for row in found.rule_set.clauses),
        *NEVER_CHECKED,
        CAUTION,
        DEFERENCE,
    ):
        assert squeezed(words) in text
    for row in found.rule_set.clauses:
        assert not row.status.startswith("memory") or squeezed(f"{row.locator} from memory") in text


def _stopped() -> dict:
    """Several stops: no device at the bank, and a branch far too thin behind a device far too large."""
    data = small_data()
    data["devices"] = [data["devices"][1] | {"rating_a": 40.0}]
    data["runs"][1]["conductor"] = "18 AWG"
    return data


def test_every_stop_is_on_the_first_page_before_all_else():
    found, said = heard(rig_from_data(_stopped()))
    stops = [one for one in said if one.stops]
    first = squeezed(pages(pdf(found, said))[0])
    assert len(stops) >= 2
    for one in stops:
        assert squeezed(f"■ stop {one.rule} {one.subject}: {one.sentence}") in first
        assert first.index(squeezed(one.sentence)) < first.index(squeezed("What was found"))


def test_a_note_on_a_stop_leaves_it_a_stop():
    before = next(one for one in heard(rig_from_data(_stopped()))[1] if one.stops)
    accepted = [
        {"rule": before.rule, "subject": before.subject, "reason": "Short", "name": "Ada N.", "date": "2025-01-02"}
    ]
    first = squeezed(small_pages(**(_stopped() | {"accepted": accepted}))[0])
    assert squeezed(f"■ stop {before.rule} {before.subject}: {before.sentence}") in first
    assert squeezed("Note by Ada N., 2025-01-02: Short (A note accepts no stop: it stays a stop.)") in first


def test_an_accepted_warning_names_who_and_when():
    text = whole("canal-workboat")
    (one,) = example("canal-workboat")[0].rig.accepted
    assert squeezed(f"Accepted by {one.name}, {one.date}: {one.reason}") in text


def test_autonomy_has_its_range_and_the_nominal_days_are_marked():
    text, found = whole("ringing-trailer"), example("ringing-trailer")[0].autonomy
    assert squeezed(f"{found.autonomy_10_d:.2f} to {found.autonomy_90_d:.2f} days (10 and 90 % points)") in text
    assert squeezed(f"Arithmetic only, never the answer {found.nominal_d:.2f} days") in text


@pytest.mark.parametrize(("paper", "mm"), [("a4", (210, 297)), ("letter", (215.9, 279.4))])  # ISO 216; ANSI Y14.1
@pytest.mark.parametrize("edition", ["full", "owner"])
def test_paper_sizes(paper, mm, edition):
    for page in pypdf.PdfReader(io.BytesIO(pdf(*example("starter"), paper, edition))).pages:
        sides = [float(side) * 25.4 / 72 for side in (page.mediabox.width, page.mediabox.height)]
        assert sides == pytest.approx(mm, abs=0.05)


@pytest.mark.parametrize(("paper", "edition"), [("a3", "full"), ("a4", "short")])
def test_only_the_two_papers_and_editions(paper, edition):
    with pytest.raises(InputError, match="expected one of"):
        pdf(*example("starter"), paper, edition)


def test_every_page_has_its_head_and_foot():
    for edition in ("full", "owner"):
        found = example_pages("book-van", "letter", edition)
        for at, page in enumerate(found, 1):
            text = squeezed(page)
            assert text.startswith(squeezed("Book and coffee van revision B"))
            assert squeezed(f"A calculation is not an inspection Page {at} of {len(found)}") in text


def test_units_are_those_of_the_rig():
    us, metric = "".join(small_pages(units="us")), "".join(small_pages(units="metric"))
    assert show(3.0, "m", "us") == "9.84 ft"
    assert "9.84 ft" in us
    assert "86.0 °F" in us
    assert "3.00 m" in metric
    assert "30.0 °C" in metric
    assert not re.search(r"[0-9] (ft|°F)", metric)


def test_what_is_not_stated_is_said():
    first = squeezed(small_pages()[0])
    assert squeezed("Revision not stated") in first
    assert squeezed("Date not stated") in first


_SHEET = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}">'
    '<rect width="10" height="10"/><text x="20" y="20" font-size="4">-F1 50 A "fuse"</text></svg>'
)


def test_diagram_sheets_have_pages_of_their_own():
    sheets = [_SHEET.format(w=297, h=210), _SHEET.format(w=210, h=297)]
    read = pypdf.PdfReader(io.BytesIO(pdf(*example("starter"), "a4", "full", sheets)))
    drawn = [page for page in read.pages if re.search("sheet[12]of2", squeezed(page.extract_text()))]
    assert [float(page.mediabox.width) > float(page.mediabox.height) for page in drawn] == [True, False]
    assert all('-F1 50 A "fuse"' in page.extract_text() for page in drawn)
    assert "No diagram sheet was given" in " ".join("".join(example_pages("starter")).split())


def test_a_change_of_length_changes_the_report():
    data = example_data("starter")
    data["runs"][1]["length_out_m"] = 7.77
    data["runs"][1].pop("typed", None)
    assert "7.77 m" in "".join(pages(pdf(*heard(rig_from_data(data)))))
    assert "7.77 m" not in "".join(example_pages("starter"))


def test_a_rule_set_without_sizes_says_so():
    assert squeezed("it chooses none here") in squeezed("".join(small_pages(rule_set="eu_small_craft")))


@pytest.mark.parametrize("name", NAMES)
def test_every_working_of_a_run_is_there_with_each_factor(name):
    text = whole(name)
    for run in example(name)[0].network.runs:
        assert run.factors
        for one in run.workings:
            assert squeezed(f"{one.what}{one.equation}; {one.numbers}") in text
        for one in run.factors:
            assert squeezed(f"{one.result} ({one.equation}; {one.numbers}) [") in text


def test_an_empty_rig_has_a_report():
    empty = {"loads": [], "runs": [], "devices": [], "blocks": []}
    assert len(pages(pdf(*heard(small(**empty))))) >= 2
