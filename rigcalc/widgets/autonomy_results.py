"""What the page on autonomy shows: the answer, what is in the bank, the bank for the wanted days, currents."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite

from rigcalc.errors import InputError
from rigcalc.study import Study
from rigcalc.study.autonomy import runtime_of
from rigcalc.study.bank import bank_state, lasts_d
from rigcalc.study.cold import OUTSIDE
from rigcalc.study.results import AutonomyStudy, Working
from rigcalc.study.working import figure, plural
from rigcalc.widgets.energy_results import NBSP, days, days_number, wh
from rigcalc.widgets.forms import quantity_text
from rigcalc.widgets.kit import Markup, h
from rigcalc.widgets.sheets import cell, row, table
from rigcalc.widgets.workings import folded, status_tag

MOST_STRINGS = 24


def answer(study: Study) -> Markup:
    """How long the bank lasts, in one sentence."""
    found, wanted = study.autonomy, study.rig.bank.wanted_autonomy_days
    if found.autonomy_d is None:
        return h("Nothing is drawn from the bank yet: enter loads in the load inventory.")
    names = {one.load_id: one.name for one in study.energy.rows}
    most = f"; {names[found.adds_most]} adds most to that range" if found.adds_most else ""
    short = ""
    if wanted is not None:
        verb = "is" if wanted == 1 else "are"
        short = f"; {_wanted(wanted)} {verb} wanted" + ("" if found.autonomy_d < wanted else " and met")
    return h(
        "Without charging the bank lasts <strong>{}</strong>, {} to {} in 8 of 10 cases{}{}.",
        f"{_two(found.autonomy_d)} days", _two(found.autonomy_10_d), _two(found.autonomy_90_d), most, short,
    )  # fmt: skip


def _two(value: float | None) -> str:
    return "not known" if value is None else days_number(value)


def _wanted(value: float) -> str:
    """Days as they were asked for."""
    return f"{value:.4g} day{'' if value == 1 else 's'}"


def lasting(study: Study, what_if_wh: float | None) -> Markup:
    """The answer, the stricter product beside it, and the plain division that is never the answer."""
    found, bank = study.autonomy, study.rig.bank
    if found.autonomy_d is None:
        return h('<p class="rig-quiet">There is no use to divide by yet.</p>')
    aged, aged_d, nominal_d = f"{100 * bank.end_of_life_fraction:g} %", found.autonomy_strict_d, found.nominal_d
    rows = [
        row(
            h("<strong>The answer</strong>{}", _under("depth of discharge or ageing, whichever allows less")),
            [cell(h("<strong>{}</strong>", days(found.autonomy_d)), _span(found))],
        ),
        row(h("Aged to {}{}", aged, _under("the strict product: depth of discharge times ageing")), [_days(aged_d)]),
        row(h("Nominal{}", _under("whole capacity, no losses: arithmetic, never the answer")), [_days(nominal_d)]),
    ]
    if what_if_wh is not None:
        tried = days(lasts_d(bank_state(bank), what_if_wh))
        name = h("<em>What if</em> a day took {}{}", wh(what_if_wh), _under("only tried, not saved"))
        rows.insert(1, row(name, [tried]))
    return table("How long it lasts without charging", ("At this use", "Days"), rows)


def _under(text: str) -> Markup:
    return h('<br><span class="rig-quiet">{}</span>', text)


def _span(found: AutonomyStudy) -> str:
    return f"{_two(found.autonomy_10_d)} to {_two(found.autonomy_90_d)} d in 8 of 10 cases"


def _days(value: float | None) -> str:
    return "not known" if value is None else days(value)


def content(study: Study) -> Markup:
    """From the rating to what may be used."""
    found, bank = study.autonomy, study.rig.bank
    at = quantity_text(bank.temperature_c, "c", study.rig.units)
    allowed = 100 * min(bank.depth_of_discharge, bank.end_of_life_fraction)
    rows = [
        row("Rated", [_ah(found.capacity_ah), wh(found.bank_wh)]),
        row(
            h("At the day's mean current, {} A{}", figure(found.rate_current_a), _under(found.rate_status)),
            [_ah(found.capacity_at_rate_ah), wh(found.capacity_at_rate_ah * bank.nominal_v)],
        ),
        row(
            h("At {} {}", at, status_tag(found.temperature_status)),
            [f"{100 * found.temperature_fraction:.0f} %", wh(_cold_wh(study))],
        ),
        row(f"May be used, {allowed:g} %", ["", h("<strong>{}</strong>", wh(found.usable_wh))]),
    ]  # fmt: skip
    notes = []
    if not found.rate_known:
        notes.append("The sheet has no rates around this current: more of its rows would settle it.")
    if found.temperature_status == OUTSIDE:
        notes.append("The table has no figure for this temperature; its last one stands in and is too much here.")
    return table("What is in the bank", ("Step", "Capacity", "Energy"), rows, " ".join(notes))


def _ah(value: float) -> str:
    return f"{figure(value)}{NBSP}Ah"


def _cold_wh(study: Study) -> float:
    found = study.autonomy
    return found.capacity_at_rate_ah * study.rig.bank.nominal_v * found.temperature_fraction


def needed(study: Study) -> Markup:
    """The bank for the wanted days, and the nearest one of these units, with a button that takes it."""
    found, bank = study.autonomy, study.rig.bank
    if bank.wanted_autonomy_days is None:
        return h("<h3>Bank for the days wanted</h3><p>How many days are wanted is not stated.</p>")
    if found.needed_wh is None or found.needed_ah is None or found.needed_strings is None:
        return Markup("")
    strings, has = found.needed_strings, bank.parallel
    units = f"{plural(strings * bank.series, 'unit')} of {figure(bank.unit_capacity_ah)} Ah"
    rows = [
        row("Needed", [_ah(found.needed_ah), wh(found.needed_wh)]),
        row(h("Nearest of these units{}", _under(f"{plural(strings, 'string')}, {units}")), _bank_of(study, strings)),
        row(h("There now{}", _under(plural(has, "string"))), _bank_of(study, has)),
    ]
    made = table(f"Bank for {_wanted(bank.wanted_autonomy_days)} wanted", ("Bank", "Rated", "Energy"), rows)
    if strings == has:
        return made
    if strings > MOST_STRINGS:
        return h("{}<p>▲ More strings than a bank may have here: larger units are needed.</p>", made)
    button = '{}<button type="button" data-act="strings" data-arg="{}">Use {}</button>'
    return h(button, made, strings, plural(strings, "string"))


def _bank_of(study: Study, strings: int) -> list[str]:
    ah = strings * study.rig.bank.unit_capacity_ah
    return [_ah(ah), wh(ah * study.rig.bank.nominal_v)]


def currents(study: Study) -> Markup:
    """What the bank must give at once, against what it and its management system allow."""
    found, bank = study.autonomy, study.rig.bank
    for_s = "" if bank.unit_peak_s is None else f" for {quantity_text(bank.unit_peak_s, 's', study.rig.units)}"
    names = {load.id: load.name for load in study.rig.loads}
    start = h("Largest start on top of it{}", _under(names.get(found.starting_load or "", "no start is stated")))
    rows = [
        _current("All that may run at once", found.running_a, found.limit_a, ""),
        _current(start, found.starting_a, found.peak_limit_a, for_s),
    ]
    lowest = quantity_text(bank.lowest_working_v, "v", study.rig.units)
    note = f"At the lowest working voltage, {lowest}. Alternating loads count once, the larger."
    return table("Currents at the bank", ("When", "Takes", "Allowed"), rows, note)


def _current(name: object, takes_a: float, limit_a: float | None, for_s: str) -> Markup:
    if limit_a is None:
        return row(name, [f"{figure(takes_a)}{NBSP}A", h('<td class="rig-number rig-quiet">not stated</td>')])
    takes = f"{figure(takes_a)}{NBSP}A"
    shown: object = h('<td class="rig-number rig-stop">■ {}</td>', takes) if takes_a > limit_a else takes
    return row(name, [shown, f"{figure(limit_a)}{NBSP}A{for_s}"])


def runtime(study: Study, load_ids: Sequence[str]) -> Markup:
    """Hours the bank runs the chosen loads and nothing else."""
    if not load_ids:
        return h("<h3>Hours of chosen loads</h3><p>Tick the loads that run together, and nothing else.</p>")
    try:
        hours = runtime_of(study.rig, load_ids)
    except InputError as error:
        return h('<h3>Hours of chosen loads</h3><p class="rig-error">■ {}</p>', error)
    if not isfinite(hours):
        return h("<h3>Hours of chosen loads</h3><p>These loads draw nothing.</p>")
    more = f", which is {days(hours / 24)}" if hours >= 48 else ""
    these = "this load alone" if len(load_ids) == 1 else f"these {len(load_ids)} loads together"
    said = "<h3>Hours of chosen loads</h3><p>The bank runs {} for <strong>{} h</strong>{}.</p>"
    return h(said, these, figure(hours), more)


def workings(study: Study) -> Markup:
    """Each deciding number's working, folded."""
    return h("{}", [_one(one) for one in study.autonomy.workings])


def _one(one: Working) -> Markup:
    return folded(f"Working: {one.what[:1].lower()}{one.what[1:]}", [one], f"autonomy {one.what}", headed=False)
