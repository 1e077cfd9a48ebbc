"""What the page on daily energy shows of the day: the answer, the bars, tables by load, way and type of day."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite

from rigcalc.study import Study
from rigcalc.study.energy import IDLE
from rigcalc.study.results import InverterEnergy, LoadEnergy, Spread
from rigcalc.study.working import figure
from rigcalc.units import significant
from rigcalc.widgets.figures import GROUPS, Bar
from rigcalc.widgets.kit import Markup, h
from rigcalc.widgets.sheets import cell, row, table
from rigcalc.widgets.workings import folded

NBSP = "\u00a0"
Rows = tuple[list[str], list[list[object]]]


def wh(value: float) -> str:
    """An energy as the page shows it, number and unit on one line.

    Examples
    --------
    >>> wh(1495.8).split(), wh(90.0).split()
    (['1496', 'Wh'], ['90', 'Wh'])
    """
    return f"{figure(value)}{NBSP}Wh"


def days(value: float) -> str:
    """Days as the page shows them.

    Examples
    --------
    >>> days(1.019).split(), days(12.34).split(), days(float("inf"))
    (['1.02', 'd'], ['12.3', 'd'], 'no end')
    """
    return f"{days_number(value)}{NBSP}d" if isfinite(value) else "no end"


def days_number(value: float) -> str:
    """Days without the unit: two decimals below 10, so that what just misses does not look met."""
    return f"{value:.2f}" if value < 10 else significant(value)


def span(spread: Spread) -> str:
    """Low to high, without the unit."""
    return _between(spread.low, spread.high)


def _between(low: float, high: float) -> str:
    return f"{figure(low)}{NBSP}to{NBSP}{figure(high)}"


def share(part: float, whole: float) -> str:
    """A part of the whole in percent; a small one is not shown as none.

    Examples
    --------
    >>> share(1, 4).split(), share(1, 1000).split(), share(0, 5).split()
    (['25', '%'], ['<1', '%'], ['0', '%'])
    """
    percent = 100 * part / whole if whole else 0.0
    return f"{'<1' if 0 < percent < 0.5 else f'{percent:.0f}'}{NBSP}%"


def answer(study: Study) -> Markup:
    """The day in one sentence."""
    energy = study.energy
    parts = [_where(study)] if _where(study) else []
    left_out = sum(bool(one.missing) for one in energy.rows)
    if left_out:
        parts.append(f"{left_out} {'load says' if left_out == 1 else 'loads say'} too little to be counted")
    rest = "".join(f"; {part}" for part in parts)
    return h("{} takes <strong>{}</strong> from the battery{}.", _day(study), wh(energy.daily_energy_wh), rest)


def _day(study: Study) -> str:
    names = {one.id: one.name for one in study.rig.day_types}
    if len(names) < 2:
        return "A day"
    return f"The largest day, {names[study.energy.day_type or next(iter(names))]},"


def _where(study: Study) -> str:
    """What the inverters take by being on, or else where the most goes."""
    idle, energy = study.energy.by_path.get(IDLE, 0.0), study.energy
    if idle:
        eats = "the inverter eats" if len(energy.inverters) == 1 else "the inverters eat"
        return f"{wh(idle)} of it {eats} by being on"
    largest = max(energy.rows, key=lambda one: one.battery_wh.likely, default=None)
    if largest is None or not largest.battery_wh.likely:
        return ""
    return f"the most, {wh(largest.battery_wh.likely)}, goes to {largest.name}"


def bars(study: Study) -> list[Bar]:
    """Rows of the plot, largest first, each inverter's idle draw as its own."""
    found = [_bar(one) for one in study.energy.rows]
    found += [
        Bar(f"idle {one.inverter_id}", f"{one.name}, being on", IDLE, one.idle_wh, 0.0, Spread(*[one.idle_wh] * 3))
        for one in study.energy.inverters
    ]
    return sorted((bar for bar in found if bar.battery_wh.likely > 0), key=lambda bar: -bar.battery_wh.likely)


def _bar(one: LoadEnergy) -> Bar:
    useful = min(one.appliance_wh.likely, one.battery_wh.likely)
    return Bar(f"load {one.load_id}", one.name, one.path, useful, one.battery_wh.likely - useful, one.battery_wh)


def bars_alt(study: Study) -> str:
    """The plot in a sentence."""
    shown = bars(study)
    if not shown:
        return "Nothing is drawn from the battery yet."
    first = ", ".join(f"{bar.label} {wh(bar.battery_wh.likely)}" for bar in shown[:3])
    return f"Energy of a day at the battery, largest first: {first}{', and so on' if len(shown) > 3 else ''}."


def bars_rows(shown: Sequence[Bar]) -> Rows:
    """The plot's rows as a table."""
    columns = ["Row", "Way", "At the appliance, Wh", "Lost on the way, Wh", "Low, Wh", "Likely, Wh", "High, Wh"]
    found: list[list[object]] = []
    for bar in shown:
        spread = bar.battery_wh
        numbers = (bar.useful_wh, bar.lost_wh, spread.low, spread.likely, spread.high)
        found.append([bar.label, GROUPS[bar.group][0], *(figure(value) for value in numbers)])
    return columns, found


def load_table(study: Study, chosen: str) -> Markup:
    """A day at the battery by load, what is not stated said in its row."""
    energy = study.energy
    total, first = energy.daily_energy_wh, energy.measure_first
    rows = [(one.battery_wh.likely, _load_row(one, total, one.load_id == chosen, first)) for one in energy.rows]
    rows += [(one.idle_wh, _idle_row(one, total)) for one in energy.inverters]
    made = [shown for _, shown in sorted(rows, key=lambda pair: -pair[0])]
    whole = cell(h("<strong>{}</strong>", wh(total)), _between(energy.daily_10_wh, energy.daily_90_wh))
    made.append(row(h("<strong>All together</strong>"), [whole, ""]))
    note = "The last range holds 8 of 10 such days: rows vary independently, cold boxes together."
    return table("By load, at the battery", ("Load", "A day, low to high", "Share"), made, note)


def _load_row(one: LoadEnergy, total: float, picked: bool, first: str | None) -> Markup:
    known = one.provenance or "not stated how it is known"
    lines = [h(' <span class="rig-quiet">{} · {}</span>', GROUPS[one.path][0], known)]
    if one.missing:
        lines.append(h('<br><span class="rig-warn">▲ not stated: {}; counts as 0 Wh</span>', ", ".join(one.missing)))
    if one.load_id == first:
        lines.append(h("<br>● measure this first"))
    likely = one.battery_wh.likely
    return row(h("{}{}", one.name, lines), [cell(wh(likely), span(one.battery_wh)), share(likely, total)], picked)


def _idle_row(one: InverterEnergy, total: float) -> Markup:
    missing = h('<br><span class="rig-warn">▲ not stated: idle draw; counts as 0 Wh</span>')
    name = h("{}, being on{}", one.name, "" if one.idle_stated else missing)
    return row(name, [wh(one.idle_wh), share(one.idle_wh, total)])


def way_table(study: Study) -> Markup:
    """The day by way of feeding."""
    total = study.energy.daily_energy_wh
    rows = [row(GROUPS[way][0], [wh(value), share(value, total)]) for way, value in study.energy.by_path.items()]
    return table("By way of feeding", ("Way", "Likely", "Share"), rows)


def day_table(study: Study) -> Markup:
    """Each row on each type of day; nothing where the rig has no types of day."""
    kinds, energy = study.rig.day_types, study.energy
    if not kinds:
        return Markup("")
    lines = [(one.name, one.by_day_type) for one in energy.rows]
    lines += [(f"{one.name}, being on", one.idle_by_day_type) for one in energy.inverters]
    rows = [row(name, [figure(by_day.get(day.id, 0.0)) for day in kinds]) for name, by_day in lines]
    whole = [h("<strong>{}</strong>", figure(energy.by_day_type[day.id])) for day in kinds]
    rows.append(row(h("<strong>All together</strong>"), whole))
    note = "The design takes the largest day: an average over the week would leave the bank short on it."
    return table("By type of day, Wh", ("Load", *(day.name for day in kinds)), rows, note)


def known(study: Study) -> Markup:
    """How much of the day is guessed, and what to measure first."""
    energy = study.energy
    names = {one.load_id: one.name for one in energy.rows}
    first = adds = Markup("")
    if energy.measure_first:
        first = h(" Measure <strong>{}</strong> first: it would settle the most.", names[energy.measure_first])
    if energy.adds_most and energy.adds_most != energy.measure_first:
        adds = h(" {} adds most to the range.", names[energy.adds_most])
    guess = share(energy.guess_share, 1.0)
    return h("<p><strong>{}</strong> of the day rests on guesses.{}{}</p>", guess, first, adds)


def day_workings(study: Study) -> Markup:
    """How the day and its inverters came about."""
    parts = [folded("Working: the day and its range", study.energy.workings, "the day")]
    parts += [
        folded(f"Working: being on and losses of {one.name}", one.workings, f"inverter {one.inverter_id}")
        for one in study.energy.inverters
    ]
    return h("{}", parts)
