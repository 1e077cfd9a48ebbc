"""The owner's edition: two pages."""

from __future__ import annotations

import pytest

from rigcalc import CAUTION
from rigcalc.outputs.report import pdf
from rigcalc.outputs.report.sections.owner import BLOWS
from tests.outputs.report.papers import NAMES, example, example_pages, heard, pages, squeezed, whole
from tests.rigs import thirty_circuits


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_it_has_two_pages(name, paper):
    assert len(example_pages(name, paper, "owner")) == 2


def test_thirty_circuits_fit_as_well():
    assert len(pages(pdf(*heard(thirty_circuits()), "letter", "owner"))) == 2


@pytest.mark.parametrize("name", NAMES)
def test_first_page_says_how_long_and_what_is_wrong(name):
    (found, said), first = example(name), squeezed(example_pages(name, "a4", "owner")[0])
    assert squeezed(f"Without charging {found.autonomy.autonomy_d:.2f} days") in first
    for one in said:
        if one.state == "found" and one.severity in ("stop", "warning"):
            assert squeezed(f"{one.subject}: {one.sentence}") in first


@pytest.mark.parametrize("name", NAMES)
def test_second_page_lists_every_fuse_and_the_cautions(name):
    found, second = example(name)[0], squeezed(example_pages(name, "a4", "owner")[1])
    names = {run.id: run.name for run in found.rig.runs}
    for one in found.network.circuits:
        assert squeezed(f"{one.circuit_id}{one.run_id} {names[one.run_id]}{one.rating_a:g} A") in second
    for words in (BLOWS, CAUTION):
        assert squeezed(words) in second


def test_no_stop_found_never_hides_one_that_could_not_be_judged():
    first = squeezed(example_pages("book-van", "a4", "owner")[0])
    assert squeezed("Stops: 0 None found. 2 points that may be a stop could not be judged") in first


def test_it_is_plain():
    assert squeezed("Workings") not in whole("book-van", "owner")
