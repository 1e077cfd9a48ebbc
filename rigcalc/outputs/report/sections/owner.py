"""Two pages for the person who lives with the rig."""

from __future__ import annotations

from rigcalc import CAUTION
from rigcalc.outputs.report.markup import MEMORY, call, facts, one_page, points, sheet, told
from rigcalc.outputs.report.sections.energy import days, span
from rigcalc.outputs.report.sections.front import NOT_STATED
from rigcalc.outputs.report.sections.job import bank
from rigcalc.outputs.report.sections.limits import DEFERENCE
from rigcalc.outputs.report.sections.wiring import rating
from rigcalc.outputs.summary import MARKS
from rigcalc.rules.finding import Finding
from rigcalc.study import Study
from rigcalc.study.working import plural
from rigcalc.units import significant

BLOWS = "If a fuse blows twice, stop and find out why. Never fit a larger one, and never bridge it."
_FUSES = (("Position", "l", "auto"), ("What it feeds", "l", "1fr"), ("Rating", "r", "auto"), ("Kind", "l", "auto"))
_PLAIN = (
    "Metal on a battery terminal makes an arc that burns: cover the terminals, take off rings and watches, and use "
    "insulated tools.",
    "Switch off at the main switch and take off the negative lead before any work on the wiring.",
    "A charging lead battery gives off hydrogen, which explodes: keep its vents open, and sparks and flames away.",
    "Never charge a lithium battery below the temperature its maker states.",
    "A warm fuse holder, a smell or a brown mark on insulation means: switch off and have it looked at.",
    "Mains sockets, also those of an inverter, can kill. Leave their wiring to a licensed electrician.",
)


def owner(study: Study, findings: tuple[Finding, ...]) -> str:
    """What it is, how long it lasts and what is wrong; then the fuses and the cautions."""
    first = one_page((_what(study), _lasts(study), _wrong(findings)))
    return first + call("new_page") + one_page((_fuses(study), _cautions()))


def _what(study: Study) -> str:
    rig = study.rig
    pairs = [("Revision", rig.revision or NOT_STATED), ("Date", rig.date or NOT_STATED)]
    pairs += [("Voltage", f"{rig.system_v} V DC"), ("Battery", bank(study)), ("Loads", plural(len(rig.loads), "load"))]
    pairs += [("Rules it was checked by", study.rule_set.title)]
    note = call("say", rig.note) if rig.note else ""
    return call("title", rig.name, "For its owner") + note + facts(pairs)


def _lasts(study: Study) -> str:
    energy, found = study.energy, study.autonomy
    pairs = [("Without charging", days(found.autonomy_d)), ("In 8 of 10 cases", span(study))]
    used, usable = significant(energy.daily_energy_wh), significant(found.usable_wh)
    pairs += [("Uses a day", f"{used} Wh, of {usable} Wh that may be used")]
    pairs += [("With an aged battery", days(found.autonomy_strict_d))]
    return call("section", "How long the battery lasts") + facts(pairs)


def _wrong(findings: tuple[Finding, ...]) -> str:
    stops = [one for one in findings if one.stops]
    warnings = [one for one in findings if one.severity == "warning" and one.state == "found"]
    waiting = [one for one in findings if one.state != "found"]
    may_stop = sum(one.severity == "stop" for one in waiting)
    parts = [call("section", f"Stops: {len(stops)}")]
    parts.append(call("say", "Nothing may be switched on before each of these is cured." if stops else "None found."))
    parts += [told(MARKS["stop"], f"{one.subject}: {one.sentence}", heavy=True) for one in stops]
    if may_stop:
        words = f"{plural(may_stop, 'point')} that may be a stop could not be judged, as a fact is not stated."
        parts.append(call("say", words))
    parts.append(call("section", f"Warnings: {len(warnings)}"))
    parts += [told(MARKS["warning"], f"{one.subject}: {one.sentence}", _agreed(one)) for one in warnings]
    parts += [] if warnings else [call("say", "None found.")]
    if waiting:
        words = f"{plural(len(waiting), 'point')} in all could not be judged; the full report names each."
        parts.append(call("say", words))
    return "".join(parts)


def _agreed(one: Finding) -> str:
    return f"Accepted by {one.accepted.name}, {one.accepted.date}: {one.accepted.reason}" if one.accepted else ""


def _fuses(study: Study) -> str:
    names = {run.id: run.name for run in study.rig.runs}
    rows = [
        (one.circuit_id, f"{one.run_id} {names[one.run_id]}", rating(one),
         (one.device_class or NOT_STATED).replace("_", " "))
        for one in study.network.circuits
    ]  # fmt: skip
    parts = [call("section", "Fuses and breakers"), call("say", BLOWS), sheet(_FUSES, rows, 0.95)]
    if any(MEMORY in row[2] for row in rows):
        parts.append(call("small", f"{MEMORY} From memory: confirm this rating on the maker's sheet."))
    return "".join(parts)


def _cautions() -> str:
    return call("section", "Before you touch anything") + points(_PLAIN) + call("say", CAUTION) + call("say", DEFERENCE)
