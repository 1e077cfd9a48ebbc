"""The text that typst sets: the look, the head of the document, then its sections in order."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from importlib.resources import files

from rigcalc.outputs.report.escape import text
from rigcalc.outputs.report.markup import call
from rigcalc.outputs.report.sections import energy, front, job, limits, owner, review, wiring, workings
from rigcalc.rules.finding import Finding
from rigcalc.study import Study

NOT_STATED = "not stated"


def full_source(study: Study, findings: tuple[Finding, ...], paper: str, diagrams: Sequence[str]) -> str:
    """Typst source of the full edition; ``paper`` as typst names it.

    Parts that begin on a new page are laid out side by side by typst, which takes a fifth less time on two cores.
    """
    new_page = call("new_page")
    return "".join(
        (
            _opening(study, paper, "full report"),
            front.first_page(study, findings),
            job.job(study),
            job.diagram(study, diagrams),
            energy.budget(study),
            energy.autonomy(study),
            new_page + wiring.runs(study),
            wiring.circuits(study),
            new_page + review.review(findings),
            new_page + workings.workings(study),
            new_page + limits.assumptions(study),
            limits.rule_set(study),
            limits.not_checked(study, findings),
            limits.cautions(),
        )
    )


def owner_source(study: Study, findings: tuple[Finding, ...], paper: str) -> str:
    """Typst source of the owner's edition: two pages."""
    return _opening(study, paper, "owner's edition") + owner.owner(study, findings)


def _opening(study: Study, paper: str, edition: str) -> str:
    words = {"paper": paper, "rig": study.rig.name, "revision": study.rig.revision or NOT_STATED, "edition": edition}
    named = ", ".join(f"{key}: {text(value)}" for key, value in words.items())
    return f"{_style()}\n#show: report.with({named})\n"


@cache
def _style() -> str:
    return files("rigcalc.outputs.report").joinpath("style.typ").read_text(encoding="utf-8")
