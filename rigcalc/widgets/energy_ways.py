"""One load side by side by every way of feeding it, and cold boxes as refrigerator and as freezer in three rooms."""

from __future__ import annotations

from dataclasses import replace

from rigcalc.model import Load, Rig
from rigcalc.study import Study
from rigcalc.study.bank import bank_state, lasts_d
from rigcalc.study.results import ColdBoxCell, PathCost
from rigcalc.study.working import figure
from rigcalc.widgets.energy_results import NBSP, days, share, span, wh
from rigcalc.widgets.forms import quantity_text
from rigcalc.widgets.kit import Markup, h
from rigcalc.widgets.sheets import cell, row, table
from rigcalc.widgets.workings import folded, status_tag

NOT_HELD = "runs all the time and no longer holds its temperature"
_AS_NOW = {
    "direct": "direct",
    "converter": "converter",
    "inverter": "inverter, already on",
    "inverter_adapter": "inverter and adapter, already on",
}
_TO_ADD = {
    "the rig has no converter": "Add one at the left.",
    "the rig has no inverter": "Add one at the left.",
    "no load of the rig states the efficiency of an adapter": "State one in the load inventory.",
}


def ways_of(study: Study, load_id: str) -> list[PathCost]:
    """The load by every way of feeding it."""
    return [one for one in study.energy.paths if one.load_id == load_id]


def label(rig: Rig, one: PathCost) -> str:
    """A way in words; where the rig has more than one converter or inverter, by the name of what feeds it."""
    converters = {part.id: part.name for part in rig.converters}
    inverters = {part.id: part.name for part in rig.inverters}
    if one.fed_by in converters and len(converters) > 1:
        return converters[one.fed_by]
    text = one.path[:1].upper() + one.path[1:]
    return f"{text} ({inverters[one.fed_by]})" if one.fed_by in inverters and len(inverters) > 1 else text


def way_rows(study: Study, load_id: str) -> list[tuple[str, float, float]]:
    """Rows of the plot: the load with its losses, and the idle draw charged to it. [Wh]"""
    return [
        (label(study.rig, one), one.battery_wh - one.idle_wh, one.idle_wh)
        for one in ways_of(study, load_id)
        if one.battery_wh is not None
    ]


def ways_alt(study: Study, load: Load) -> str:
    """The plot in a sentence."""
    known = [(one.battery_wh, label(study.rig, one)) for one in ways_of(study, load.id) if one.battery_wh]
    if len(known) < 2:
        return f"{load.name} has no second way of feeding to compare yet."
    (least, cheap), (most, dear) = min(known), max(known)
    return f"{load.name}, a day: least {wh(least)} ({cheap}), most {wh(most)} ({dear})."


def ways_table(study: Study, load: Load) -> Markup:
    """The load side by side, direct being what the others are measured against."""
    ways = ways_of(study, load.id)
    direct = next((one.battery_wh for one in ways if one.path == "direct"), None)
    state, rows = bank_state(study.rig.bank), []
    for one in ways:
        now = one.path == _AS_NOW[load.feed] and one.fed_by == load.fed_by
        name = h("{}{}", label(study.rig, one), h(" <strong>● as now</strong>") if now else "")
        if one.battery_wh is None or direct is None:
            rows.append(row(name, [h('<td colspan="3" class="rig-quiet">{}</td>', _why_not(one))], now))
            continue
        numbers = (wh(one.battery_wh), _extra(one.battery_wh, direct), days(lasts_d(state, one.battery_wh)))
        rows.append(row(name, numbers, now))
    note = "Days are of this bank with nothing else on it. A way counts only where the appliance is made for it."
    return table(f"{load.name} by each way of feeding it", ("Way", "A day", "Over direct", "Lasts"), rows, note)


def _why_not(one: PathCost) -> str:
    to_add = _TO_ADD.get(one.why_not, "State it in the load inventory.")
    return f"{one.why_not[:1].upper()}{one.why_not[1:]}. {to_add}"


def _extra(battery_wh: float, direct: float) -> str:
    extra = battery_wh - direct
    return f"{wh(extra)}, {share(extra, direct)}" if direct and extra > 1e-9 * direct else "none"


def ways_working(study: Study, load_id: str) -> Markup:
    """How the load's figures came about: from what is stated to the battery, then each way."""
    one = next((found for found in study.energy.rows if found.load_id == load_id), None)
    if one is None:
        return Markup("")
    notes = [h("<li>{}.</li>", note[:1].upper() + note[1:]) for note in one.notes]
    ways = [
        replace(way.working, what=label(study.rig, way)) for way in ways_of(study, load_id) if way.working is not None
    ]
    return h(
        "{}{}{}",
        h("<ul>{}</ul>", notes) if notes else "",
        folded(f"Working: the day of {one.name}", one.workings, "day of load"),
        folded("Working: each way", ways, "each way"),
    )


def cold_tables(study: Study) -> Markup:
    """Every cold box as refrigerator and freezer in three rooms."""
    return h("{}", [_cold_table(study, load) for load in study.rig.loads if load.cold_box is not None])


def _cold_table(study: Study, load: Load) -> Markup:
    cells = [one for one in study.energy.cold_boxes if one.load_id == load.id]
    title = f"{load.name}, as refrigerator and as freezer"
    if not cells:
        return h(
            '<h3>{}</h3><p><span class="rig-warn">▲ Not known:</span> state its energy and the air temperature that '
            "belongs to it, warmer than its inside, in the load inventory.</p>",
            title,
        )
    workings = [one.working for one in cells if one.working]
    columns = ("Set to", "A day, Wh", "Bank lasts", "Runs")
    not_held = h('<p><span class="rig-warn">▲</span> There the box {}.</p>', NOT_HELD)
    return h(
        '{}{}<p class="rig-quiet">A model, not a measurement. The range holds how the day is known and the part of it '
        "that does not follow the room; the temperature differences at evaporator and condenser are {}.</p>{}",
        table(title, columns, [_cold_row(study.rig, one) for one in cells]),
        not_held if any(one.at_cap for one in cells) else "",
        status_tag(workings[0].status if workings else "computed"),
        folded(f"Working: {load.name} in another room", workings, f"cold {load.id}"),
    )


def _at(rig: Rig, temperature_c: float) -> str:
    return quantity_text(temperature_c, "c", rig.units).replace(" ", NBSP)


def _cold_row(rig: Rig, one: ColdBoxCell) -> Markup:
    inside, room = (_at(rig, value) for value in (one.inside_c, one.ambient_c))
    name = h('{}, {}<br><span class="rig-quiet">room {}</span>', one.appliance.capitalize(), inside, room)
    duty = "not known" if one.duty is None else share(one.duty, 1.0)
    running = h('<td class="rig-number rig-warn">▲ all the time</td>') if one.at_cap else cell(duty)
    energy = cell(figure(one.battery_wh.likely), span(one.battery_wh))
    return row(name, [energy, days(one.days.likely), running])
