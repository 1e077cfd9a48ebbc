"""Speed of what goes on paper: ``pytest tests/benchmarks --benchmark-only``; limits and peer as in test_speed."""

from __future__ import annotations

from rigcalc.model import rig_from_data
from rigcalc.outputs.diagram import diagram
from rigcalc.outputs.report import pdf
from rigcalc.outputs.workbook import xlsx
from rigcalc.rules import findings
from rigcalc.study import study
from tests.benchmarks.test_speed import LARGEST, held
from tests.rigs import example_data


def test_workbook_of_the_largest_rig(benchmark):
    rig = rig_from_data(example_data(LARGEST))
    benchmark.pedantic(lambda: xlsx(study(rig)), rounds=12, warmup_rounds=1)
    held(benchmark, 0.5)


def test_full_report_of_the_largest_rig(benchmark):
    """Study, findings and typesetting; the sheets of its diagram, which have a limit of their own, are at hand."""
    rig = rig_from_data(example_data(LARGEST))
    sheets = diagram(study(rig))

    def report() -> bytes:
        found = study(rig)
        return pdf(found, findings(found), diagrams=sheets)

    benchmark.pedantic(report, rounds=8, warmup_rounds=1)
    held(benchmark, 0.5)


def test_diagram_of_the_largest_rig(benchmark):
    """All sheets; each symbol has been drawn once before, as after the first diagram of a process."""
    benchmark(diagram, study(rig_from_data(example_data(LARGEST))))
    held(benchmark, 0.05)
