"""How a rule speaks: numbers with their units, sources with what they bind, and the three kinds of finding."""

from __future__ import annotations

from collections.abc import Callable

from rigcalc.model.edit import Change
from rigcalc.model.rig import WHOLE_RIG
from rigcalc.rules.finding import Finding
from rigcalc.study import Study
from rigcalc.tables import Row
from rigcalc.tables.design_rules import design_rule
from rigcalc.units import show, significant

RIG = WHOLE_RIG
NOT_STATED = "not stated"
NO_CLAUSE = "clause not recorded"
PRACTICE = "common practice, no source"
_OWN = "own calculation"
_NAMED_AT_MOST = 6
Candidates = tuple[tuple[Change, ...], ...]


def quantity(study: Study, value: float, suffix: str, digits: int = 3) -> str:
    """A value with its unit, in the person's system of units."""
    return show(value, suffix, study.rig.units, digits)


def apart(study: Study, value: float, limit: float, suffix: str, digits: int = 3) -> tuple[str, str]:
    """A value and its limit with as many digits as it takes to tell them apart.

    3.004 % against a limit of 3 % reads "3.004 %" and "3.000 %": rounding never hides a limit passed.
    """
    return _apart(lambda number, n: quantity(study, number, suffix, n), value, limit, digits)


def days_apart(days: float, limit_d: float) -> tuple[str, str]:
    """Days and their limit, told apart.

    Examples
    --------
    >>> days_apart(1.964, 2)
    ('1.96 days', '2.00 days')
    """
    return _apart(lambda number, n: f"{significant(number, n)} days", days, limit_d, 2)


def _apart(text: Callable[[float, int], str], value: float, limit: float, digits: int) -> tuple[str, str]:
    first = text(value, digits), text(limit, digits)
    pairs = ((text(value, n), text(limit, n)) for n in range(digits, 10))
    return first if first[0] != first[1] else next((pair for pair in pairs if pair[0] != pair[1]), first)


def cited(study: Study, source: str, locator: str) -> str:
    """A source with its clause; the US boat law with what it binds on this rig."""
    ours = locator == NO_CLAUSE and source in (PRACTICE, _OWN)
    text = source if ours or not locator else f"{source}, {locator}"
    if "46 CFR" in text:
        return f"{text} (a law on small passenger vessels, quoted as practice)"
    if "33 CFR" not in source:
        return text
    if study.rule_set.id == "us_boat":
        return f"{text} (law on boats with gasoline engines other than outboards, practice on other boats)"
    return f"{text} (a boat law, quoted here as practice)"


def _recalled(by: Row | None) -> str:
    """A limit that was not read says so in the sentence too."""
    if by is None or not by.from_memory:
        return ""
    return (
        " This limit is common practice without a source."
        if by.source == PRACTICE
        else " This limit is recalled, not read."
    )


def found(
    study: Study,
    rule_id: str,
    subject: str,
    sentence: str,
    measured: str,
    limit: str,
    *,
    severity: str | None = None,
    by: Row | None = None,
    candidates: Candidates = (),
) -> Finding:
    """A rule broken. Severity and source are the rule's own, unless ``severity`` or the limit's row ``by`` differ."""
    rule, row = design_rule(rule_id), by or design_rule(rule_id)
    source, text = cited(study, row.source, row.locator), sentence + _recalled(by)
    how_grave = severity or rule.severity
    return Finding(rule_id, how_grave, subject, text, measured, limit, source, row.status, candidates=candidates)


def not_stated(
    study: Study, rule_id: str, subject: str, sentence: str, limit: str = NOT_STATED, *, by: Row | None = None
) -> Finding:
    """A fact the rule needs was not given: neither passed nor failed."""
    rule, row = design_rule(rule_id), by or design_rule(rule_id)
    source = cited(study, row.source, row.locator)
    return Finding(rule_id, rule.severity, subject, sentence, NOT_STATED, limit, source, row.status, state=NOT_STATED)


def listed(ids: list[str], kind: str) -> str:
    """A few ids by name, many by their number.

    Examples
    --------
    >>> listed(["F1", "F2"], "devices"), listed([f"F{n}" for n in range(36)], "devices")
    ('F1 and F2', '36 devices')
    """
    return joined(ids) if len(ids) <= _NAMED_AT_MOST else f"{len(ids)} {kind}"


def joined(names: list[str]) -> str:
    """Names as a sentence lists them.

    Examples
    --------
    >>> joined(["the lamp", "the pump", "the fan"])
    'the lamp, the pump and the fan'
    """
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
