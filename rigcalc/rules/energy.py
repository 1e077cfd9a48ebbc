"""Rules on the load inventory and its daily energy."""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.formulas.energy import DAY_H
from rigcalc.model import Load
from rigcalc.model.edit import change
from rigcalc.rules.finding import Finding
from rigcalc.rules.words import RIG, apart, found, joined, not_stated, quantity
from rigcalc.study import Study
from rigcalc.study.coldbox import own_ambient_c
from rigcalc.study.results import InverterEnergy
from rigcalc.tables.design_rules import design_limit

_NAMED = 4
_SEEN_AT = "the air temperature it was seen at"


def l01_stated(study: Study) -> Iterator[Finding]:
    """Each load says its power, its hours and how they are known; guesses do not carry the design."""
    for row in study.energy.rows:
        source = ["how its figures are known"] if row.provenance is None else []
        if row.missing:
            sentence = f"{row.name}: {joined([*row.missing, *source])} not stated, so its energy is not known."
            yield not_stated(study, "L01", row.load_id, sentence)
        elif source:
            sentence = f"{row.name}: how its figures are known is not stated, so they count as a guess."
            yield not_stated(study, "L01", row.load_id, sentence)
    share, limit = study.energy.guess_share, design_limit("L01", "guess_share")
    if share > limit.value:
        measured, allowed = apart(study, 100 * share, 100 * limit.value, "percent", 2)
        first = {row.load_id: row.name for row in study.energy.rows}.get(study.energy.measure_first or "")
        advice = f" Measure {first} first: it would settle the most." if first else ""
        sentence = f"{measured} of the daily energy rests on guesses.{advice}"
        yield found(study, "L01", RIG, sentence, measured, f"at most {allowed}", by=limit)


def l03_cycling(study: Study) -> Iterator[Finding]:
    """A load that switches itself on and off has a running share, and the air it was seen in."""
    for load in study.rig.loads:
        missing = _missing_of_cycling(load)
        if missing:
            sentence = f"{load.name} switches itself on and off. State {joined(missing)}."
            yield found(study, "L03", load.id, sentence, f"{joined(missing)}: not stated", "both stated")
        missing = _missing_of_cold_box(load)
        if missing:
            sentence = f"{load.name} keeps cold. Not stated: {joined(missing)}."
            yield not_stated(study, "L03", load.id, sentence)


def _missing_of_cycling(load: Load) -> list[str]:
    if not load.cycles:
        return []
    read = load.reading is not None
    missing = [] if read or load.duty_cycle is not None else ["its duty cycle"]
    return missing + ([] if own_ambient_c(load) is not None else [_SEEN_AT])


def _missing_of_cold_box(load: Load) -> list[str]:
    """What a cold box that is not said to cycle leaves open."""
    if load.cold_box is None or load.cycles:
        return []
    known = load.reading is not None or load.duty_cycle is not None or "cycles" in load.model_fields_set
    missing = [] if known else ["whether it switches itself on and off, so it counts as running all its hours"]
    return ([] if own_ambient_c(load) is not None else [_SEEN_AT]) + missing


def l04_hot_day(study: Study) -> Iterator[Finding]:
    """On the hottest day designed for, a cooling load still rests now and then."""
    limit, never = design_limit("L04", "duty"), design_limit("L04", "duty_never_rests")
    names = {load.id: load.name for load in study.rig.loads}
    for load in study.rig.loads:
        if load.cold_box is not None and own_ambient_c(load) is None:
            sentence = f"How much {load.name} runs on the hottest day is not known: {_SEEN_AT} is not stated."
            yield not_stated(study, "L04", load.id, sentence)
    for load_id, duty in study.energy.hot_duty.items():
        if duty <= limit.value:
            continue
        at = quantity(study, study.rig.ambient_hot_c, "c")
        measured, allowed = apart(study, 100 * min(duty, 1.0), 100 * limit.value, "percent", 2)
        sentence = f"At {at} {names[load_id]} runs {measured} of the time, so it recovers slowly after each opening."
        if duty >= never.value:
            sentence = f"At {at} {names[load_id]} runs all the time and no longer holds its temperature."
        sentence += " Give it more air or insulation, and count on this day's energy."
        yield found(study, "L04", load_id, sentence, f"runs {measured} of the time", f"at most {allowed}", by=limit)


def l05_hours(study: Study) -> Iterator[Finding]:
    """Nothing runs longer in a day than the day lasts."""
    limit = design_limit("L05", "hours_h")
    day_names = {day.id: day.name for day in study.rig.day_types}
    for load in study.rig.loads:
        for day, hours_h in _hours(load):
            if hours_h > limit.value:
                on = f" on a day of type {day_names[day]}" if day else ""
                given, allowed = apart(study, hours_h, limit.value, "h")
                sentence = f"{load.name} is used {given} a day{on}; a day has {allowed}."
                yield found(study, "L05", load.id, sentence, f"{given} a day", f"at most {allowed}", by=limit)


def _hours(load: Load) -> Iterator[tuple[str, float]]:
    if load.daily_use_h is not None:
        yield "", load.daily_use_h
    if load.events_per_day is not None and load.event_min is not None:
        yield "", load.events_per_day * load.event_min / 60
    for use in load.day_use:
        yield use.day_type, use.daily_use_h


def l06_losses(study: Study) -> Iterator[Finding]:
    """Behind an inverter the bank gives at least what the appliance takes: losses are divided out, never multiplied."""
    for row in study.energy.rows:
        if not row.path.startswith("inverter") or row.battery_wh.likely >= row.appliance_wh.likely * (1 - 1e-9):
            continue
        given, taken = apart(study, row.battery_wh.likely, row.appliance_wh.likely, "wh")
        sentence = (
            f"{row.name} takes {taken} a day but the bank is said to give only {given}. "
            "An inverter always takes more than it delivers: check its efficiency."
        )
        yield found(study, "L06", row.load_id, sentence, f"{given} from the bank", f"at least {taken}")


def l07_idle(study: Study) -> Iterator[Finding]:
    """The idle draw of an inverter is stated, and small beside what it is on for."""
    for one in study.energy.inverters:
        hours_h = next(inverter.on_h for inverter in study.rig.inverters if inverter.id == one.inverter_id)
        if hours_h == 0:
            continue
        if not one.idle_stated:
            sentence = (
                f"{one.name} is on {quantity(study, hours_h, 'h')} a day and draws power even with nothing plugged in. "
                "State its idle draw: the daily energy leaves it out until then."
            )
            yield found(study, "L07", one.inverter_id, sentence, "idle draw: not stated", "stated")
        elif one.idle_wh > design_limit("L07", "idle_share").value * one.ac_wh:
            yield _idle_large(study, one)


def _idle_large(study: Study, one: InverterEnergy) -> Finding:
    limit = design_limit("L07", "idle_share")
    idle, served = quantity(study, one.idle_wh, "wh"), quantity(study, one.ac_wh, "wh")
    share = quantity(study, 100 * limit.value, "percent", 2)
    sentence = (
        f"{one.name} uses {idle} a day only for being on, beside {served} a day of what it feeds. "
        "Switch it off between uses, or feed the load directly."
    )
    needed_h = _needed_h(study, one.inverter_id)
    cures = ((change("inverters", one.inverter_id, on_h=needed_h),),) if 0 < needed_h <= 24 else ()
    most, advice = f"at most {share} of the energy it feeds", "advice"
    return found(
        study, "L07", one.inverter_id, sentence, f"{idle} idle", most, severity=advice, by=limit, candidates=cures
    )


def _needed_h(study: Study, inverter_id: str) -> float:
    """Hours a day of everything the inverter feeds, one after the other; 0 where the hours of any are not known."""
    rows = {row.load_id: row for row in study.energy.rows}
    fed = [load for load in study.rig.loads if load.fed_by == inverter_id]
    if any(load.reading is not None or rows[load.id].missing for load in fed):
        return 0.0
    return sum(rows[load.id].hours_h for load in fed)


def l08_standing(study: Study) -> Iterator[Finding]:
    """What draws power while nothing runs, beside the whole day."""
    standing = {load.name: DAY_H * load.quantity * load.standby_w for load in study.rig.loads if load.standby_w}
    total_wh, day_wh, limit = (
        sum(standing.values()),
        study.energy.daily_energy_wh,
        design_limit("L08", "standing_share"),
    )
    if not day_wh or total_wh <= limit.value * day_wh:
        return
    has, most = apart(study, 100 * total_wh / day_wh, 100 * limit.value, "percent", 2)
    first = sorted(standing, key=lambda name: -standing[name])[:_NAMED]
    sentence = (
        f"{quantity(study, total_wh, 'wh')} a day, {has} of it, goes to what is never off: {joined(first)}. "
        "A switch for each saves it."
    )
    yield found(study, "L08", RIG, sentence, has, f"at most {most}", by=limit)
