"""The first page: what this is, what stops it, and how much else was found."""

from __future__ import annotations

from rigcalc.outputs.report.markup import call, facts, known_by, sheet, told
from rigcalc.outputs.report.sections.energy import days, span
from rigcalc.outputs.summary import MARKS
from rigcalc.rules.finding import SEVERITIES, Finding
from rigcalc.study import Study
from rigcalc.study.working import plural

NOT_STATED = "not stated"


def first_page(study: Study, findings: tuple[Finding, ...]) -> str:
    """Title, stops, counts."""
    rig = study.rig
    head = facts(
        (
            ("Revision", rig.revision or NOT_STATED),
            ("Date", rig.date or NOT_STATED),
            ("Rule set", study.rule_set.title),
            ("System", f"{rig.system_v} V DC"),
        )
    )
    title = call("title", rig.name, "Design report of a small off-grid DC system")
    return title + head + stops(findings) + _counts(findings) + _short(study)


def stops(findings: tuple[Finding, ...]) -> str:
    """Every stop, and every fact a stop's rule waits for."""
    found = [one for one in findings if one.stops]
    waiting = [one for one in findings if one.severity == "stop" and not one.stops]
    parts = [call("section", f"Stops: {len(found)}")]
    if found:
        parts.append(call("say", "Nothing may be energised before each of these is cured."))
        parts += [told(MARKS["stop"], subject(one), note(one), heavy=True) for one in found]
    else:
        parts.append(call("say", "No rule found a stop in what is stated."))
    if waiting:
        parts.append(call("part", f"Not stated, so not judged, and a stop if it turns out badly: {len(waiting)}"))
        parts += [told("? not stated", subject(one)) for one in waiting]
    return "".join(parts)


def subject(one: Finding) -> str:
    """Rule, part and sentence."""
    return f"{one.rule} {one.subject}: {one.sentence}"


def note(one: Finding) -> str:
    """The acceptance in words; on a stop it is a note and the stop stays."""
    given = one.accepted
    if given is None:
        return ""
    if one.severity == "stop":
        return f"Note by {given.name}, {given.date}: {given.reason} (A note accepts no stop: it stays a stop.)"
    return f"Accepted by {given.name}, {given.date}: {given.reason}"


def measures(one: Finding) -> str:
    """What was found against what is allowed, by which source."""
    return f"Found: {one.measured}. Limit: {one.limit}. Source: {one.source} ({known_by(one.status)})."


def _short(study: Study) -> str:
    energy, network = study.energy, study.network
    day = f"{energy.daily_energy_wh:.0f} Wh (10 to 90 %: {energy.daily_10_wh:.0f} to {energy.daily_90_wh:.0f} Wh)"
    wiring = f"{plural(len(network.runs), 'run')}, {plural(len(network.circuits), 'circuit')}"
    pairs = [("Energy a day at the battery", day), ("Lasts without charging", days(study.autonomy.autonomy_d))]
    pairs += [("In 8 of 10 cases", span(study)), ("Wiring worked out", wiring)]
    return call("section", "In short") + facts(pairs)


def _counts(findings: tuple[Finding, ...]) -> str:
    columns = (("Severity", "l", "auto"), ("Found", "r", "auto"), ("Of them accepted or noted", "r", "auto"),
               ("Not stated, so not judged", "r", "auto"))  # fmt: skip
    rows = []
    for severity in SEVERITIES:
        of_it = [one for one in findings if one.severity == severity]
        found = [one for one in of_it if one.state == "found"]
        noted = sum(one.accepted is not None for one in found)
        rows.append((MARKS[severity], str(len(found)), str(noted), str(len(of_it) - len(found))))
    return call("section", "What was found") + sheet(columns, rows, 0.95)
