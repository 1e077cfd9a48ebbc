"""What the rig is, on one page, and its single-line diagram."""

from __future__ import annotations

from collections.abc import Sequence

from rigcalc.outputs.report.markup import call, drawing, facts
from rigcalc.study import Study
from rigcalc.study.working import plural
from rigcalc.units import show, significant


def job(study: Study) -> str:
    """Purpose, note of the designer, the rig in figures."""
    purpose = (
        "This report says what the system is, how long its battery lasts, which conductors and protective devices it "
        "needs and why, what was found against the rule set, and what nobody checked. It covers the DC side up to the "
        "terminals of each appliance. Every figure is computed from one rig file; nothing is entered twice."
    )
    parts = [call("new_page"), call("section", "The job"), call("say", purpose)]
    if study.rig.note:
        parts += [call("part", "As its designer describes it"), call("say", study.rig.note)]
    return "".join([*parts, call("part", "The rig in figures"), facts(figures(study))])


def figures(study: Study) -> list[tuple[str, str]]:
    """Names and values of what the rig consists of."""
    rig = study.rig
    found = [("Battery", bank(study)), ("Loads", plural(len(rig.loads), "load"))]
    found += [("Inverter", f"{one.name}; {significant(one.rated_w)} W rated") for one in rig.inverters]
    found += [("Converter", f"{one.name}; {significant(one.output_v)} V out") for one in rig.converters]
    usual, hot = (show(value, "c", rig.units) for value in (rig.ambient_usual_c, rig.ambient_hot_c))
    wiring = f"{plural(len(rig.runs), 'run')}, {plural(len(rig.devices), 'protective device')}"
    found += [("Wiring", wiring), ("Air around it", f"usually {usual}, at the warmest {hot}")]
    found += [("Type of day", day.name) for day in rig.day_types]
    wanted = rig.bank.wanted_autonomy_days
    return [*found, ("Days wanted without charging", "not stated" if wanted is None else significant(wanted, 2))]


def bank(study: Study) -> str:
    """The battery bank in one line."""
    one = study.rig.bank
    made = f"{one.series} in series, {plural(one.parallel, 'string')} in parallel"
    each = f"units of {significant(one.unit_capacity_ah)} Ah over {significant(one.rated_h, 2)} h"
    return f"{KINDS[one.chemistry]}, {each}: {made}; {significant(study.autonomy.bank_wh)} Wh rated"


KINDS = {
    "flooded": "Flooded lead-acid", "agm": "Lead-acid, absorbed glass mat", "gel": "Lead-acid, gel",
    "lifepo4": "Lithium iron phosphate",
}  # fmt: skip


def diagram(study: Study, diagrams: Sequence[str]) -> str:
    """Each sheet of the single-line diagram on a page of its own."""
    if not diagrams:
        missing = "No diagram sheet was given to this report. The tables of runs and circuits hold every connection."
        return call("section", "Single-line diagram") + call("say", missing)
    name = f"{study.rig.name}, revision {study.rig.revision or 'not stated'}: single-line diagram"
    count = len(diagrams)
    return "".join(drawing(f"{name}, sheet {at} of {count}", svg) for at, svg in enumerate(diagrams, 1))
