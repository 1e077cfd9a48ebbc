"""Rules on the rig as a whole: its voltage, its inverters' currents, what is assumed."""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.rules.finding import Finding
from rigcalc.rules.parts import rig_run, titled
from rigcalc.rules.words import RIG, apart, found, quantity
from rigcalc.study import Study
from rigcalc.tables.design_rules import DesignLimit, design_limit


def a02_inverter_current(study: Study) -> Iterator[Finding]:
    """The run of an inverter carries its output power, its losses, and both at the lowest voltage."""
    inverters = {one.id: one for one in study.rig.inverters}
    for one in study.network.runs:
        inverter = inverters.get(rig_run(study, one.run_id).to_id)
        if inverter is None or not one.solved:
            continue
        least_a = inverter.rated_w / min(one.load_v, study.rig.bank.lowest_working_v)
        if one.design_current_a < least_a * (1 - 1e-9):
            has, least = apart(study, one.design_current_a, least_a, "a")
            power = quantity(study, inverter.rated_w, "w")
            sentence = (
                f"{titled(one)} is worked out for {has}, but {power} out of {inverter.name} take at least {least} "
                "with the bank low, losses not counted yet."
            )
            yield found(study, "A02", one.run_id, sentence, has, f"at least {least}")


def d01_system_voltage(study: Study) -> Iterator[Finding]:
    """Above some current, cables and fuses get hard to buy and to connect: a higher voltage needs less."""
    peak_a, limit = max(study.autonomy.running_a, study.autonomy.starting_a), _current_limit(study)
    if peak_a <= limit.value:
        return
    has, most = apart(study, peak_a, limit.value, "a")
    thick = max(study.network.runs, key=lambda one: one.design_current_a, default=None)
    cable = ""
    if thick and thick.choice:
        flows = quantity(study, thick.design_current_a, "a")
        cable = f" The largest run, {titled(thick)}, carries {flows} in {thick.choice.size}."
    higher = {12: " At 24 V the current is half of that.", 24: " At 48 V the current is half of that."}
    sentence = f"At {study.rig.system_v} V the bank gives up to {has}.{cable}{higher.get(study.rig.system_v, '')}"
    yield found(study, "D01", RIG, sentence, has, f"usually at most {most}", by=limit)


def _current_limit(study: Study) -> DesignLimit:
    return design_limit("D01", "current_12v_a" if study.rig.system_v == 12 else "current_any_a")


def d07_assumptions(study: Study) -> Iterator[Finding]:
    """What was taken as given because nobody stated it."""
    count = len(study.assumptions)
    if count:
        values = "1 value is" if count == 1 else f"{count} values are"
        sentence = f"{values} assumed, not stated: {' '.join(study.assumptions)}"
        yield found(study, "D07", RIG, sentence, f"{count} assumed", "0 assumed")
