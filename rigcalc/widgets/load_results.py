"""What the load inventory shows: the answer, one load's day, how far each kind of figure may be off."""

from __future__ import annotations

from rigcalc.study import Study
from rigcalc.study.energy import IDLE
from rigcalc.study.results import LoadEnergy, Spread
from rigcalc.study.working import plural
from rigcalc.tables.battery import provenance_spread
from rigcalc.units import show, significant
from rigcalc.widgets import sheets
from rigcalc.widgets.kit import Markup, RowSpec, h
from rigcalc.widgets.workings import folded, status_tag

_KNOWN = (("measured", "measured"), ("label", "read from a label"), ("guess", "guessed"), (None, "not stated"))


def answer(study: Study) -> Markup:
    """The day of all loads in one sentence, and what to measure first."""
    energy = study.energy
    if not energy.rows:
        return h("No load yet, so <strong>0 Wh a day</strong>: add the first one to the table.")
    idle = energy.by_path.get(IDLE, 0.0)
    who = plural(len(energy.rows), "load") + (
        f" and the idle draw of {plural(len(energy.inverters), 'inverter')}" if idle else ""
    )
    verb = "takes" if len(energy.rows) == 1 and not idle else "take"
    day = show(energy.daily_energy_wh, "wh")
    tail = (_day(study), _guessed(study), _left_out(study))
    return h("{} {} <strong>{} a day</strong> at the battery{}{}{}.", who, verb, day, *tail)


def _day(study: Study) -> str:
    names = {day.id: day.name for day in study.rig.day_types}
    kind = study.energy.day_type
    return f" on the largest day, {names[kind]}" if len(names) > 1 and kind in names else ""


def _guessed(study: Study) -> str:
    energy = study.energy
    first = {row.load_id: row.name for row in energy.rows}.get(energy.measure_first or "")
    if energy.daily_energy_wh == 0:
        return ""
    if energy.guess_share == 0:
        return "; none of it is guessed" + (f", and measuring {first} would settle the most" if first else "")
    share = f"{significant(100 * energy.guess_share, 2)} %"
    return f"; {share} of it rests on guesses" + (f": measure {first} first" if first else "")


def _left_out(study: Study) -> str:
    count = sum(bool(row.missing) for row in study.energy.rows)
    says, counts = ("says", "counts") if count == 1 else ("say", "count")
    return f"; {plural(count, 'load')} {says} too little and {counts} as 0 Wh" if count else ""


def day_cell(row: LoadEnergy) -> tuple[str, str]:
    """A row's day at the battery, and its range or what is missing."""
    if row.missing:
        return "not known", "not stated: " + ", ".join(row.missing)
    return show(row.battery_wh.likely, "wh"), span(row.battery_wh)


def span(spread: Spread) -> str:
    """Low to high, where they differ."""
    if spread.low == spread.high:
        return ""
    return f"{significant(spread.low)} to {significant(spread.high)}".replace(" ", "\u00a0")


def one_load(study: Study, load_id: str) -> Markup:
    """One load's day in words, what else to know about it, and its working."""
    row = next((row for row in study.energy.rows if row.load_id == load_id), None)
    if row is None:
        return Markup("")
    cell, beside = day_cell(row)
    reach = f", {beside} Wh" if beside and not row.missing else f" ({beside})" if beside else ""
    notes = [h("<li>{}{}.</li>", note[:1].upper(), note[1:]) for note in row.notes]
    return h(
        "<h2>{}</h2><p>A day at the battery: <strong>{}</strong>{}.</p>{}{}",
        row.name,
        cell,
        reach,
        h("<ul>{}</ul>", notes) if notes else "",
        folded(f"Working: the day of {row.name}", row.workings, "day"),
    )


def spread_table(study: Study) -> Markup:
    """How far a figure may be off by how it is known, and how much of the day rests on each kind."""
    rows = [_known(study, kind, words) for kind, words in _KNOWN]
    row = provenance_spread("guess")
    table = sheets.table(
        "How the figures are known",
        ("Known by", "True day, of the stated", "Loads", "A day"),
        [one for one in rows if one],
    )
    return h(
        '{}<p class="rig-quiet">A day typed with its own low and high keeps those. {} {}. '
        "Measure where the sum depends on it most; a plug-in meter or a shunt over a few days is enough.</p>",
        table,
        row.source[:1].upper() + row.source[1:],
        status_tag(row.status),
    )


def _known(study: Study, kind: str | None, words: str) -> Markup | None:
    mine = [row for row in study.energy.rows if row.provenance == kind]
    if kind is None and not mine:
        return None
    spread = provenance_spread(kind or "guess")
    factors = f"{100 * spread.low:.0f} to {100 * spread.high:.0f} %"
    total = show(sum(row.battery_wh.likely for row in mine), "wh")
    return sheets.row(words, [sheets.cell(factors, "" if kind else "taken as a guess"), len(mine), total])


def day_rows(study: Study) -> list[RowSpec]:
    """The rig's types of day with the energy of each; the one that counts is named."""
    energy, found = study.energy, []
    for day in study.rig.day_types:
        counts = "the design counts this one" if day.id == energy.day_type and len(study.rig.day_types) > 1 else ""
        cells = {"name": day.name, "day": show(energy.by_day_type[day.id], "wh")}
        found.append(RowSpec(id=day.id, cells=cells, other={"day": counts}, errors={}))
    return found
