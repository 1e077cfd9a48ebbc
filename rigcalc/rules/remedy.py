"""What would cure a finding: each candidate change goes through the whole study before it is offered."""

from __future__ import annotations

from rigcalc.errors import InputError
from rigcalc.model.edit import Change, changed
from rigcalc.rules.check import findings
from rigcalc.rules.effect import done, effect
from rigcalc.rules.finding import Finding, Remedy
from rigcalc.study import Study
from rigcalc.study import study as study_of


def remedy(study: Study, finding: Finding) -> Remedy | None:
    """The first candidate change that cures a finding and brings no new stop, if possible no new warning either.

    Parameters
    ----------
    study : Study
        The study the finding is about.
    finding : Finding
        One of its findings.

    Returns
    -------
    Remedy or None
        The changes, and what they do in figures of the changed rig; None where no candidate cures.
    """
    before, second = findings(study), None
    for changes in finding.candidates:
        after = _tried(study, changes)
        if after is None:
            continue
        heard = findings(after)
        if _still(heard, finding) or not _of(heard, "stop") <= _of(before, "stop"):
            continue
        if _of(heard, "warning") <= _of(before, "warning"):
            return _said(study, after, finding, changes)
        second = second or (after, changes)
    return _said(study, second[0], finding, second[1]) if second else None


def _said(before: Study, after: Study, finding: Finding, changes: tuple[Change, ...]) -> Remedy:
    did = " and ".join(done(after, one) for one in changes)
    return Remedy(f"{did[:1].upper()}{did[1:]}{effect(before, after, finding, changes)}.", changes)


def _tried(study: Study, changes: tuple[Change, ...]) -> Study | None:
    """The study of the changed rig; None where the change makes no valid rig."""
    try:
        return study_of(changed(study.rig, *changes))
    except InputError:
        return None


def _still(heard: tuple[Finding, ...], finding: Finding) -> bool:
    return any((one.rule, one.subject) == (finding.rule, finding.subject) for one in heard)


def _of(heard: tuple[Finding, ...], severity: str) -> set[tuple[str, str]]:
    return {(one.rule, one.subject) for one in heard if one.severity == severity and one.state == "found"}
