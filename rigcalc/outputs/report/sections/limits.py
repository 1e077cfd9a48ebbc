"""What the figures rest on, what nobody checked, and what can hurt."""

from __future__ import annotations

from rigcalc import CAUTION
from rigcalc.outputs.report.markup import call, known_by, points, sheet
from rigcalc.rules.finding import Finding
from rigcalc.study import Study
from rigcalc.tables.cautions import cautions as caution_rows
from rigcalc.units import significant

DEFERENCE = (
    "Local codes, the law and the makers' instructions come before anything printed here, also where this report asks "
    "less. Work that a licence is asked for belongs to a person who holds it. Before anything is energised a competent "
    "person inspects and tests the finished work; this report takes the place of neither."
)
NEVER_CHECKED = (
    "Mains voltage: everything behind the sockets of an inverter, a shore inlet, or the mains side of a charger.",
    "Structure: whether batteries and panels are held, and whether floor, roof or hull carries them.",
    "Gas, fuel and ventilation: pipes, appliances that burn, vents, alarms, distance of sparks from gas.",
    "Let-through energy (I²t) of fuses against what conductors and devices behind them withstand.",
    "Quality of the work: crimps, tightness, routing, protection against chafing and water.",
    "Lightning, corrosion, electromagnetic interference.",
)
_LOADS = (("Load", "l", "1fr"), ("Known by", "l", "auto"), ("Energy counted, Wh a day", "r", "auto"),
          ("Not stated", "l", "1fr"))  # fmt: skip
_CLAUSES = (("Topic", "l", "auto"), ("What the rules say", "l", "1.5fr"), ("Source and clause", "l", "1fr"),
            ("Status", "l", "auto"))  # fmt: skip
_STATUS = (
    "Primary: read in the document itself. Secondary: read in a reprint or in a text that quotes it. Computed: worked "
    "out here. † From memory: not read; confirm it in the document."
)
_CAUTIONS = (("About", "l", "auto"), ("Fact", "l", "1.6fr"), ("Source and clause", "l", "1fr"), ("Status", "l", "auto"))


def assumptions(study: Study) -> str:
    """What was taken as given, and how each load is known."""
    taken = points(study.assumptions) if study.assumptions else call("say", "Nothing had to be assumed.")
    rows = [
        (row.name, row.provenance or "not stated", significant(row.battery_wh.likely), ", ".join(row.missing) or "-")
        for row in study.energy.rows
    ]
    loads = call("part", "How each load is known") + sheet(_LOADS, rows)
    return call("section", "Assumptions") + taken + loads


def rule_set(study: Study) -> str:
    """The rule set and its clauses, each with its status."""
    rows = [
        (one.topic.replace("_", " "), one.text, _cited(one.source, one.locator), known_by(one.status))
        for one in study.rule_set.clauses
    ]
    name = f"{study.rule_set.title}. It is used alone; other rule sets can ask more."
    return call("section", "Rule set") + call("say", name) + sheet(_CLAUSES, rows) + call("small", _STATUS)


def not_checked(study: Study, findings: tuple[Finding, ...]) -> str:
    """What this report is silent about."""
    waiting = [f"{one.rule} {one.subject}: {one.sentence}" for one in findings if one.state != "found"]
    lacking = [row for row in study.energy.rows if row.missing]
    missing = [f"{row.name}: {', '.join(row.missing)} not stated; it counts as 0 Wh" for row in lacking]
    loose = [f"{one}: no run reaches it" for one in study.network.unconnected]
    parts = [call("section", "What was not checked"), points(NEVER_CHECKED)]
    open_facts = [*waiting, *missing, *loose]
    if open_facts:
        parts += [call("part", f"Not stated in this rig: {len(open_facts)}"), points(open_facts)]
    return "".join(parts)


def cautions() -> str:
    """Facts that keep people safe, and whose word comes first."""
    rows = [(one.topic, one.fact, _cited(one.source, one.locator), known_by(one.status)) for one in caution_rows()]
    words = call("say", CAUTION) + call("say", DEFERENCE)
    return call("section", "Cautions and limits of use") + words + sheet(_CAUTIONS, rows)


def _cited(source: str, locator: str) -> str:
    return f"{source}, {locator}" if locator else source
