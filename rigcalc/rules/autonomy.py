"""Rules on the bank: how long it lasts, how deep it is taken, what current it allows, what voltage is left."""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.model.edit import change
from rigcalc.model.network import BANK
from rigcalc.rules.finding import Finding
from rigcalc.rules.parts import rig_run, taking_power
from rigcalc.rules.search import larger_conductors
from rigcalc.rules.words import Candidates, apart, days_apart, found, not_stated, quantity
from rigcalc.study import Study
from rigcalc.study.network_results import RunStudy
from rigcalc.tables.battery import battery_figure
from rigcalc.tables.design_rules import design_limit

_STRINGS_TRIED = 4
_SETTLED_V = 1e-3  # the network is solved to less than this


def b01_autonomy(study: Study) -> Iterator[Finding]:
    """Days without charging, against the days wanted."""
    days, wanted = study.autonomy.autonomy_d, study.rig.bank.wanted_autonomy_days
    if wanted is None:
        sentence = "How many days the bank shall last without charging is not stated."
        yield not_stated(study, "B01", BANK, sentence)
    elif days is not None and days < wanted:
        has, needs = days_apart(days, wanted)
        sentence = f"Without charging the bank lasts {has} at this use; {needs} are wanted.{_largest_row(study)}"
        yield found(study, "B01", BANK, sentence, has, f"at least {needs}", candidates=_more_strings(study))


def b22_aged(study: Study) -> Iterator[Finding]:
    """The same days, when the bank has aged to the capacity at which it is replaced."""
    days, wanted = study.autonomy.autonomy_strict_d, study.rig.bank.wanted_autonomy_days
    if days is None or wanted is None or days >= wanted:
        return
    has, needs = days_apart(days, wanted)
    share = quantity(study, 100 * study.rig.bank.end_of_life_fraction, "percent", 2)
    sentence = f"Aged to {share} of its capacity the bank lasts {has}; {needs} are wanted."
    yield found(study, "B22", BANK, sentence, f"{has} when aged", f"at least {needs}", candidates=_more_strings(study))


def _largest_row(study: Study) -> str:
    row = max(study.energy.rows, key=lambda row: row.battery_wh.likely, default=None)
    if row is None or row.battery_wh.likely <= 0:
        return ""
    return f" The largest part of it is {row.name} with {quantity(study, row.battery_wh.likely, 'wh')} a day."


def _more_strings(study: Study) -> Candidates:
    first = max(study.autonomy.needed_strings or 0, study.rig.bank.parallel + 1)
    return tuple((change("bank", parallel=n),) for n in range(first, first + _STRINGS_TRIED) if n <= 24)


def b02_depth(study: Study) -> Iterator[Finding]:
    """The depth of discharge counted on, against the usual one of the chemistry."""
    depth, row = study.rig.bank.depth_of_discharge, battery_figure(study.rig.bank.chemistry, "depth_of_discharge")
    most = row.value if row is not None and row.high is None else row.high if row is not None else None
    if most is None or depth <= most:
        return
    taken, usual = apart(study, 100 * depth, 100 * most, "percent", 2)
    sentence = (
        f"The design takes {taken} of the rated capacity out of the bank. "
        f"For this chemistry up to {usual} is usual; deeper, it ages fast or switches itself off."
    )
    cure = ((change("bank", depth_of_discharge=most),),)
    yield found(study, "B02", BANK, sentence, f"{taken} taken", f"usually at most {usual}", by=row, candidates=cure)


def b03_current(study: Study) -> Iterator[Finding]:
    """What may run at once, and the largest start on top of it, against the bank's own limits."""
    limit_a = study.autonomy.limit_a
    if limit_a is None:
        sentence = (
            "How much current the bank allows is not known: state the limit of one unit and, with strings in "
            "parallel, the share of the busiest string."
        )
        yield not_stated(study, "B03", BANK, sentence)
    elif study.autonomy.running_a > limit_a:
        has, most = apart(study, study.autonomy.running_a, limit_a, "a")
        sentence = f"What may run at once takes {has}; the bank allows {most} and may switch off unannounced."
        yield found(study, "B03", BANK, sentence, f"{has} running", f"at most {most}")
    else:
        yield from _start(study, limit_a)


def _start(study: Study, limit_a: float) -> Iterator[Finding]:
    """The largest start: within the peak limit for as long as it lasts, else within the continuous one."""
    bank, start_a, peak_a = study.rig.bank, study.autonomy.starting_a, study.autonomy.peak_limit_a
    load = next((load for load in study.rig.loads if load.id == study.autonomy.starting_load), None)
    name = load.name if load else "the largest load"
    start_s = load.starting_s if load else None
    too_long = start_s is not None and bank.unit_peak_s is not None and start_s > bank.unit_peak_s
    allowed_a = limit_a if peak_a is None or too_long else peak_a
    if start_a <= allowed_a:
        return
    has, most = apart(study, start_a, allowed_a, "a")
    why = ", for longer than its peak limit holds" if too_long else ""
    sentence = f"When {name} starts the bank gives {has}{why}; it allows {most} and may switch off unannounced."
    severity = "warning" if peak_a is None else "stop"
    if peak_a is None:
        sentence += " What it allows for a moment is not stated."
    yield found(study, "B03", BANK, sentence, f"{has} starting", f"at most {most}", severity=severity)


def b05_lowest_voltage(study: Study) -> Iterator[Finding]:
    """What is left at each appliance when the bank is low, against the voltage it needs."""
    lowest = taking_power(study)
    unchosen = {one.run_id for one in study.network.runs if one.choice is None}
    for one in study.network.runs:
        end = rig_run(study, one.run_id).to_id
        if end not in lowest or not one.solved:
            continue
        name, lowest_v = lowest[end]
        if unchosen & set(one.way):
            sentence = f"A conductor on the way to {name} is not known, so neither is the voltage it gets."
            yield not_stated(study, "B05", end, sentence)
        elif lowest_v is None:
            sentence = f"The voltage below which {name} stops is not stated."
            yield not_stated(study, "B05", end, sentence)
        elif one.load_v < lowest_v + design_limit("B05", "margin_v").value - _SETTLED_V:
            yield _too_low(study, one, end, name, lowest_v)


def _too_low(study: Study, one: RunStudy, end: str, name: str, lowest_v: float) -> Finding:
    margin = design_limit("B05", "margin_v")
    has, need = apart(study, one.load_v, lowest_v + margin.value, "v")
    of = f"{quantity(study, lowest_v, 'v')} and {quantity(study, margin.value, 'v', 1)} to spare"
    sentence = (
        f"With the bank low, {has} is left at {name}, which needs {of}: "
        f"it may stop while the bank still has something to give."
    )
    cures = larger_conductors(study, reversed(one.way))
    return found(study, "B05", end, sentence, f"{has} left", f"at least {need}", by=margin, candidates=cures)
