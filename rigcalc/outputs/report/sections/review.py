"""All findings by severity, with what was accepted by whom, and the rules that found nothing."""

from __future__ import annotations

from rigcalc.outputs.report.markup import call, told
from rigcalc.outputs.report.sections.front import measures, note, subject
from rigcalc.outputs.summary import MARKS
from rigcalc.rules.check import RULES
from rigcalc.rules.finding import SEVERITIES, Finding
from rigcalc.tables.design_rules import design_rule

_TITLES = {"stop": "Stops", "warning": "Warnings", "advice": "Advice", "info": "Notes"}


def review(findings: tuple[Finding, ...]) -> str:
    """Findings in full."""
    parts = [call("section", "Findings")]
    for severity in SEVERITIES:
        found = [one for one in findings if one.severity == severity and one.state == "found"]
        if found:
            parts.append(call("part", f"{_TITLES[severity]}: {len(found)}"))
            parts += [_told(one) for one in found]
    waiting = [one for one in findings if one.state != "found"]
    if waiting:
        parts.append(call("part", f"Not stated, so neither passed nor failed: {len(waiting)}"))
        parts += [told("? not stated", subject(one), f"Would be: {one.severity}. {measures(one)}") for one in waiting]
    return "".join([*parts, _quiet(findings)])


def _told(one: Finding) -> str:
    under = "\n".join(filter(None, (measures(one), note(one))))
    return told(MARKS[one.severity], subject(one), under, heavy=one.stops)


def _quiet(findings: tuple[Finding, ...]) -> str:
    spoke = {one.rule for one in findings}
    titles = [f"{rule} {design_rule(rule).title}" for rule in RULES if rule not in spoke]
    if not titles:
        return ""
    head = call("part", f"Asked, and nothing found: {len(titles)} of {len(RULES)} rules")
    return head + call("small", "; ".join(titles) + ".")
