"""What the study had to take as given because nobody stated it; every line is counted and printed."""

from __future__ import annotations

from rigcalc.model import Rig
from rigcalc.study.ampacity import COOLEST_INSULATION_C
from rigcalc.tables.rule_sets import rule_set

_RUN_FACTS = {
    "ambient_c": "air around them: the rig's hot ambient",
    "terminal_c": "terminals: unmarked, the 60 °C column up to 100 A, 75 °C above",
    "conductors_together": "grouping: each pair alone",
    "installation": "laid enclosed",
}


def assumptions(rig: Rig) -> tuple[str, ...]:
    """Each assumption in one sentence, with the runs it holds for."""
    found = []
    coolest = COOLEST_INSULATION_C[rule_set(rig.rule_set).series]
    facts = {"insulation_c": f"insulation: {coolest:g} °C, the coolest of the tables", **_RUN_FACTS}
    for field, text in facts.items():
        runs = [run.id for run in rig.runs if getattr(run, field) is None]
        if runs:
            found.append(f"{text[:1].upper()}{text[1:]} ({len(runs)} of {len(rig.runs)} runs: {', '.join(runs)}).")
    if "rated_h" not in rig.bank.model_fields_set:
        found.append(f"Rated capacity is over {rig.bank.rated_h:g} hours.")
    if rig.bank.unit_short_circuit_a is None:
        found.append("Bank resistance for faults: the safe-side figure from memory; the maker's figure replaces it.")
    if rig.bank.wiring_efficiency is None:
        found.append("No energy is lost in the wiring.")
    return tuple(found)
