"""Rules on the rig as a whole: its voltage, its inverters' currents, what is assumed."""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.rules.finding import Finding
from rigcalc.rules.parts import rig_run, titled
from rigcalc.rules.words import RIG, apart, found, listed, quantity
from rigcalc.study import Study
from rigcalc.study.tree import ac_running_w, together_w
from rigcalc.tables.design_rules import DesignLimit, design_limit


def a01_inverter_power(study: Study) -> Iterator[Finding]:
    """What may run at once behind an inverter, with something to spare."""
    limit = design_limit("A01", "continuous_share")
    for inverter in study.rig.inverters:
        fed = [load for load in study.rig.loads if load.fed_by == inverter.id]
        running_w = together_w((load.alternates_with, ac_running_w(load)) for load in fed)
        if running_w <= limit.value * inverter.rated_w:
            continue
        has, most = apart(study, running_w, limit.value * inverter.rated_w, "w")
        names = listed([load.name for load in fed], "loads")
        sentence = (
            f"{names} may run at once behind {inverter.name} and take {has}; it is rated for "
            f"{quantity(study, inverter.rated_w, 'w')}, of which {most} is prudent for hours. Starts come on top."
        )
        yield found(study, "A01", inverter.id, sentence, has, f"at most {most}", by=limit)


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


def a05_mains(study: Study) -> Iterator[Finding]:
    """Behind an inverter there is mains voltage: this design ends at its sockets."""
    for inverter in study.rig.inverters:
        sentence = (
            f"Behind {inverter.name} there is mains voltage, which kills. This design ends at its sockets: wiring, "
            "earthing and protection behind them belong to a licensed electrician and the local code."
        )
        yield found(study, "A05", inverter.id, sentence, "mains voltage", "a licensed electrician's work")


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


def d02_highest_voltage(study: Study) -> Iterator[Finding]:
    """The highest charge voltage against the voltage up to which these rules and many parts hold."""
    highest_v, limit = study.rig.bank.highest_charge_v, design_limit("D02", "highest_v")
    if highest_v > limit.value:
        has, most = apart(study, highest_v, limit.value, "v")
        sentence = (
            f"While it charges the bank reaches {has}; these rules and many parts end at {most} of direct current."
        )
        yield found(study, "D02", RIG, sentence, has, f"at most {most}", by=limit)


def d07_assumptions(study: Study) -> Iterator[Finding]:
    """What was taken as given because nobody stated it."""
    count = len(study.assumptions)
    if count:
        values = "1 value is" if count == 1 else f"{count} values are"
        sentence = f"{values} assumed, not stated: {' '.join(study.assumptions)}"
        yield found(study, "D07", RIG, sentence, f"{count} assumed", "0 assumed")
