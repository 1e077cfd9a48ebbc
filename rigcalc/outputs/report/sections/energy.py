"""The day by load, and how long the battery lasts."""

from __future__ import annotations

from rigcalc.outputs.report.markup import call, facts, known_by, sheet
from rigcalc.study import Study
from rigcalc.study.results import LoadEnergy
from rigcalc.units import significant

TOP_ROWS = 15
WAYS = {
    "direct": "direct", "converter": "converter", "inverter": "inverter",
    "inverter_adapter": "inverter and adapter",
}  # fmt: skip
_COLUMNS = (
    ("Load", "l", "1fr"), ("Fed by", "l", "auto"), ("Known by", "l", "auto"), ("Low, Wh", "r", "auto"),
    ("Likely, Wh", "r", "auto"), ("High, Wh", "r", "auto"), ("Share", "r", "auto"),
)  # fmt: skip
Row = tuple[float, tuple[str, ...]]


def budget(study: Study) -> str:
    """The largest rows of the design day, the rest in one, the sum, and how much of it is guessed."""
    energy, total = study.energy, study.energy.daily_energy_wh
    rows = [_load(one, total) for one in energy.rows]
    rows += [_idle(f"{one.name}, being on", one.idle_wh, total) for one in energy.inverters]
    rows.sort(key=lambda row: -row[0])
    shown, rest = [cells for _, cells in rows[:TOP_ROWS]], rows[TOP_ROWS:]
    if rest:
        rest_wh = sum(wh for wh, _ in rest)
        shown.append((f"{len(rest)} more rows", "", "", "", _wh(rest_wh), "", _percent(rest_wh, total)))
    span = (_wh(energy.daily_10_wh), _wh(total), _wh(energy.daily_90_wh))
    shown.append(("All together, 8 of 10 days", "", "", *span, _percent(total, total)))
    day = next((one.name for one in study.rig.day_types if one.id == energy.day_type), None)
    at = f"Energy a day at the battery terminals{f', type of day: {day}' if day else ''}, largest first."
    return "".join((call("section", "Energy budget"), call("say", at), sheet(_COLUMNS, shown), _trust(study)))


def _trust(study: Study) -> str:
    energy, names = study.energy, {load.id: load.name for load in study.rig.loads}
    guessed = f"Guessed, or not said how it is known: {100 * energy.guess_share:.0f} % of the day."
    if energy.measure_first is None:
        return call("say", guessed)
    return call("say", f"{guessed} Measure first: {names.get(energy.measure_first, energy.measure_first)}.")


def _load(one: LoadEnergy, total: float) -> Row:
    known = "; ".join((one.provenance or "not stated", *(f"{what} not stated" for what in one.missing)))
    wh = one.battery_wh
    cells = (one.name, WAYS.get(one.path, one.path), known, _wh(wh.low), _wh(wh.likely), _wh(wh.high))
    return wh.likely, (*cells, _percent(wh.likely, total))


def _idle(name: str, idle_wh: float, total: float) -> Row:
    return idle_wh, (name, "", "", "", _wh(idle_wh), "", _percent(idle_wh, total))


def _wh(value: float) -> str:
    return f"{value:.0f}"


def _percent(part: float, total: float) -> str:
    return f"{100 * part / total:.0f} %" if total else "-"


def autonomy(study: Study) -> str:
    """How long the battery lasts, its range, and what the answer rests on."""
    found = study.autonomy
    pairs = [
        ("Lasts without charging", days(found.autonomy_d)),
        ("In 8 of 10 cases", span(study)),
        ("Aged, at its end-of-life capacity", days(found.autonomy_strict_d)),
        ("Usable energy", f"{significant(found.usable_wh)} Wh of {significant(found.bank_wh)} Wh rated"),
        ("Share left at the bank's temperature", f"{100 * found.temperature_fraction:.0f} %, "
         f"{known_by(found.temperature_status)}"),
        ("Current of the day among the stated rates", found.rate_status),
        ("All that may run at once", f"{significant(found.running_a)} A"),
        ("Largest start on top of it", f"{significant(found.starting_a)} A"),
        ("Continuous limit of the bank", "not stated" if found.limit_a is None else f"{significant(found.limit_a)} A"),
        ("Arithmetic only, never the answer", f"{days(found.nominal_d)}: the whole rated capacity over the day, no "
         "losses, no cold, no depth kept"),
    ]  # fmt: skip
    return call("section", "Autonomy") + facts(pairs)


def days(value: float | None) -> str:
    """Days in words; nothing drawn where there is no end."""
    return "nothing is drawn" if value is None else f"{_days(value)} days"


def span(study: Study) -> str:
    """The 10 and 90 % points of the autonomy."""
    low, high = study.autonomy.autonomy_10_d, study.autonomy.autonomy_90_d
    if low is None or high is None:
        return "not known"
    return f"{_days(low)} to {_days(high)} days (10 and 90 % points)"


def _days(value: float) -> str:
    return f"{value:.2f}" if value < 10 else f"{value:.1f}"
