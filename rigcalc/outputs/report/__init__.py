"""The report on paper: everything a rig's study and its findings say, as one PDF.

Set with typst in memory: no file is written or read, no network, only the fonts that typst itself carries; a letter
they lack shows as an empty box. Neither clock nor place of the machine enters, so the same rig gives the same bytes.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING, Literal

from rigcalc.errors import InputError
from rigcalc.outputs.report.source import full_source, owner_source
from rigcalc.rules.finding import Finding
from rigcalc.study import Study

if TYPE_CHECKING:
    import typst

PAPERS = {"a4": "a4", "letter": "us-letter"}
EDITIONS = ("full", "owner")


def pdf(
    study: Study,
    findings: tuple[Finding, ...],
    paper: Literal["a4", "letter"] = "a4",
    edition: Literal["full", "owner"] = "full",
    diagrams: Sequence[str] = (),
) -> bytes:
    """The report of a study.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    findings : tuple of Finding
        From `rigcalc.rules.findings` of the same study.
    paper : str
        "a4" or "letter". [-]
    edition : str
        "full", or "owner" for two pages in plain words. [-]
    diagrams : sequence of str
        SVG texts of the single-line diagram, one a sheet; the full edition shows each on a page of its own. [-]

    Returns
    -------
    bytes
        A PDF; lengths and temperatures in the units of the rig.

    Raises
    ------
    InputError
        For a paper or an edition that is not one of the above.
    """
    if paper not in PAPERS:
        raise InputError("Paper", paper, f"one of {', '.join(PAPERS)}")
    if edition not in EDITIONS:
        raise InputError("Edition", edition, f"one of {', '.join(EDITIONS)}")
    if edition == "owner":
        return _set(owner_source(study, findings, PAPERS[paper]))
    return _set(full_source(study, findings, PAPERS[paper], diagrams))


def _set(source: str) -> bytes:
    import typst

    return typst.compile(source.encode("utf-8"), font_paths=_fonts(), ignore_system_fonts=True, format="pdf")


@cache
def _fonts() -> typst.Fonts:
    import typst

    return typst.Fonts(include_system_fonts=False)
