"""What the page on conductors says of one run: what decides, both drops, volts along the way, other rule sets."""

from __future__ import annotations

from collections.abc import Iterable

from rigcalc.model.network import BANK
from rigcalc.rules.parts import rig_run, run_study, voltages
from rigcalc.rules.words import apart
from rigcalc.study import Study
from rigcalc.study.network_results import CircuitStudy, RunStudy, SizeCheck
from rigcalc.study.results import NOT_AVAILABLE
from rigcalc.tables.design_rules import design_limit
from rigcalc.tables.rule_sets import RULE_SETS
from rigcalc.units import show, significant
from rigcalc.widgets.kit import Markup, h
from rigcalc.widgets.sheets import cell, row, table
from rigcalc.widgets.wiring import DECIDED, marked, places
from rigcalc.widgets.workings import folded, status_tag, working

TOPIC_WORDS = {
    "scope": "For",
    "ampacity": "Ampacity",
    "ambient": "Warm air",
    "bundling": "Several together",
    "drop": "Voltage drop",
    "fuse": "Largest fuse",
    "distance": "Place of the fuse",
    "min_size": "Smallest size",
    "chassis": "Chassis return",
    "terminal": "Terminals",
}

_USES = {"main_feeder": "feeder", "navigation_light": "navigation light", "other": "kind of circuit: other"}


def answer(study: Study, picked: str | None) -> Markup:
    """The page's answer in one sentence."""
    runs, waiting = study.network.runs, len(study.network.unconnected)
    rest = f"; {waiting} {'part is' if waiting == 1 else 'parts are'} not connected yet" if waiting else ""
    if not runs:
        return h("There are no runs yet{}.", rest)
    if not study.network.available:
        return h(
            "Under these rules a conductor is <strong>{}</strong>, so none is chosen for {}{}.",
            NOT_AVAILABLE, _count(len(runs), "run"), rest,
        )  # fmt: skip
    good = sum(run.choice is not None and not run.choice.fails and run.solved for run in runs)
    start = h("{} of {} within every limit", good, _count(len(runs), "run is" if len(runs) == 1 else "runs are", False))
    if picked is None:
        return h("{}{}.", start, rest)
    return h("{}{}; {}.", start, rest, _of_run(study, run_study(study, picked)))


def _count(number: int, word: str, plural: bool = True) -> str:
    return f"{number} {word}s" if plural and number != 1 else f"{number} {word}"


def _of_run(study: Study, run: RunStudy) -> Markup:
    if run.choice is None:
        return h("for {}, {}, <strong>no size of the tables passes</strong>", run.run_id, run.name)
    if run.stated:
        fails = [DECIDED[name] for name in run.choice.fails if name in DECIDED]
        ends = f", but fails by {' and '.join(fails)}" if fails else ", which passes"
        return h("{}, {}, is stated as <strong>{}</strong>{}", run.run_id, run.name, run.choice.size, ends)
    because = f"decided by {DECIDED[run.decided_by]}"
    if run.decided_by == "smallest of the table":
        because = "the smallest whose figures were read"
    return h("{}, {}, needs <strong>{}</strong>, {}", run.run_id, run.name, run.choice.size, because)


def cells(study: Study, run: RunStudy) -> dict[str, str]:
    """Result cells of the table of runs."""
    pick = run.choice
    names = places(study.rig)
    source = rig_run(study, run.run_id)
    conductor = pick.size if pick else "none passes" if study.network.available else NOT_AVAILABLE
    return {
        "id": run.run_id,
        "to": names.get(source.to_id, source.to_id),
        "current": show(run.design_current_a, "a", study.rig.units) if run.solved else "■ not deliverable",
        "conductor": conductor,
        "drop": drop_cell(study, run, pick),
    }


def decider(study: Study, run: RunStudy) -> str:
    """What decides a run's conductor, in a word or two; nothing where there is none."""
    return DECIDED[run.decided_by] if run.choice and study.network.available else ""


def drop_cell(study: Study, run: RunStudy, check: SizeCheck | None) -> str:
    """Drop over the whole way and its limit."""
    if check is None or not run.solved:
        return ""
    if run.drop_limit_percent is None:
        return f"{significant(check.way_drop_percent, 2)} %, no limit read"
    has, most = apart(study, check.way_drop_percent, run.drop_limit_percent, "percent", 2)
    mark = "▲ " if check.way_drop_percent > run.drop_limit_percent else ""
    return _whole(f"{mark}{has.removesuffix(' %')} of {_bare(run.drop_limit_percent, most)}")


def _bare(limit: float, text: str) -> str:
    """A round limit without trailing digits."""
    return f"{limit:g} %" if float(f"{limit:.3g}") == limit else text


def decides(study: Study, run: RunStudy) -> Markup:
    """Each limit against the next smaller size, the choice, the next larger and the smallest of the other series."""
    tried = _tried(run)
    if not tried:
        return h("<p>Sizes: {}.</p>", NOT_AVAILABLE)
    rows = [
        row(name, [_whole(need), *made]) for name, need, made in _limit_rows(study, run, [check for _, check in tried])
    ]
    heads = [h("{}<br>{}", check.size, title) for title, check in tried]
    note = "Every column on its own current: behind less copper a device takes a little more."
    if run.other_series is None and study.network.available:
        note += " No size of the other series passes with figures that were read and factors that were typed."
    return table(f"What decides {run.run_id}, {run.name}", ["Limit", "Needs", *heads], rows, note)


def _tried(run: RunStudy) -> list[tuple[str, SizeCheck]]:
    choice = "stated" if run.stated else "choice"
    first = "next smaller" if run.choice else "largest tried"
    checks = (run.choice, run.smaller, run.larger, run.other_series)
    titles = (choice, first, "next larger", "other series")
    return [(title, check) for title, check in zip(titles, checks, strict=True) if check is not None]


def _limit_rows(study: Study, run: RunStudy, tried: list[SizeCheck]) -> Iterable[tuple[str, str, list[Markup]]]:
    units = study.rig.units
    most = [run.choice is check for check in tried]

    def amps(value: float | None) -> str:
        return "not available" if value is None else show(value, "a", units)

    def made(texts: list[str], fault: str) -> list[Markup]:
        rows = zip(tried, texts, most, strict=True)
        return [_cell(text, fault in _faults(run, check), is_choice) for check, text, is_choice in rows]

    yield "Carry the current", amps(run.design_current_a), made([amps(one.ampacity_a) for one in tried], "ampacity")
    yield "Terminals", amps(run.design_current_a), made([amps(one.terminal_a) for one in tried], "terminal")
    limit = (
        "none read"
        if run.drop_limit_percent is None
        else f"up to {run.drop_limit_percent:.3g} % ({_USES.get(run.use, run.use)})"
    )
    yield "Voltage drop, whole way", limit, made([_percent(study, run, one) for one in tried], "drop")
    fuse = owner(study, run.run_id)
    rating = fuse.rating_a if fuse else None
    need = "no fuse before it" if fuse is None else "no rating fits" if rating is None else f"{rating:g} A or more"
    yield "Room for the fuse", need, made([_up_to(amps(one.fuse_limit_a)) for one in tried], "fuse")
    lowest_v = device_lowest_v(study, run.run_id)
    if lowest_v is not None:
        need = f"{significant(lowest_v + design_limit('B05', 'margin_v').value)} V or more"
        yield "Volts at the device", need, made([f"{significant(one.end_v)} V" for one in tried], "voltage")
    last = [DECIDED[run.decided_by] if is_choice and study.network.available else "" for is_choice in most]
    yield "Decided by", "", [_cell(text, False, is_choice) for text, is_choice in zip(last, most, strict=True)]


def _faults(run: RunStudy, check: SizeCheck) -> tuple[str, ...]:
    """What a size fails; the drop also where no ampacity was read."""
    limit = run.drop_limit_percent
    return (*check.fails, "drop") if limit is not None and check.way_drop_percent > limit else check.fails


def _up_to(text: str) -> str:
    return text if text == "not available" else f"up to {text}"


def _cell(text: str, failed: bool, is_choice: bool) -> Markup:
    made = marked(_whole(text), failed)
    return h('<td class="rig-number rig-pick">{}</td>', made) if is_choice else cell(made)


def _whole(text: str) -> str:
    """A number stays on one line."""
    return text.replace(" ", "\u00a0")


def _percent(study: Study, run: RunStudy, check: SizeCheck) -> str:
    if run.drop_limit_percent is None:
        return f"{significant(check.way_drop_percent, 2)} %"
    return apart(study, check.way_drop_percent, run.drop_limit_percent, "percent", 2)[0]


def owner(study: Study, run_id: str) -> CircuitStudy | None:
    """The circuit whose device protects a run."""
    return next((one for one in study.network.circuits if run_id in one.runs), None)


def device_lowest_v(study: Study, run_id: str) -> float | None:
    """The lowest working voltage of what the run ends at; None where not stated, or where it ends at no device. [V]"""
    node = rig_run(study, run_id).to_id
    for load in study.rig.loads:
        if load.id == node:
            return load.lowest_working_v
    fed = {one.id: one.lowest_input_v for one in study.rig.inverters}
    return (fed | {one.id: one.lowest_input_v for one in study.rig.converters}).get(node)


def both_drops(study: Study, run: RunStudy) -> Markup:
    """The rule's drop and the physical one, each with what it is for."""
    check = run.choice
    if check is None or not run.solved:
        return Markup("")
    warm = show(check.temperature_c, "c", study.rig.units)
    return h(
        "<h3>Two drops</h3><p>By the rule's own form this run loses <strong>{} V</strong>, {} % of {} V; that figure "
        "decides whether the limit is kept.</p><p>At its working temperature of {} the copper loses "
        "<strong>{} V</strong>, {} %; that is what the device gets: {} V at its end with the bank at its lowest.</p>",
        significant(check.rule_drop_v), significant(check.rule_drop_percent, 2), f"{nominal_v(study, run):g}", warm,
        significant(check.drop_v), significant(check.drop_percent, 2), significant(run.load_v),
    )  # fmt: skip


def workings(study: Study, run: RunStudy) -> Markup:
    """Current, ampacity with its factors, drops and limit, each folded; and where the limit comes from."""
    limit = h('<p class="rig-quiet">Drop limit: {} {}</p>', run.drop_limit_source, status_tag(run.drop_limit_status))
    return h("{}{}{}", [working(one, f"{one.what} run") for one in run.workings], _factors(run), limit)


def _factors(run: RunStudy) -> Markup:
    return folded("Working: table ampacity and factors", run.factors, "factors run")


def others(sizes: dict[str, str]) -> Markup:
    """What each other rule set would choose."""
    items = [h("<li>{}: <strong>{}</strong></li>", RULE_SETS[name].title, size) for name, size in sizes.items()]
    note = "The same current; each by its own table, drop form and limits."
    return h('<h3>Under the other rule sets</h3><ul>{}</ul><p class="rig-quiet">{}</p>', items, note)


def clauses(study: Study) -> Markup:
    """The rule set by its full title, whether it has sizes, and its clauses folded."""
    rules, available = study.rule_set, study.network.available
    title = h('<p class="rig-quiet">{}</p>', rules.title)
    lacking = "" if available else h('<p class="rig-warn">▲ Its own sizes are {}.</p>', NOT_AVAILABLE)
    rows = []
    for one in rules.clauses:
        quiet = h('<span class="rig-quiet">{}, {}</span> {}', one.source, one.locator, status_tag(one.status))
        rows.append(h("<p><strong>{}.</strong> {} {}</p>", TOPIC_WORDS[one.topic], one.text, quiet))
    return h(
        '{}{}<details data-key="clauses"><summary>What these rules say, and where</summary>'
        '<div class="rig-working">{}</div></details>',
        title, lacking, rows,
    )  # fmt: skip


def nominal_v(study: Study, run: RunStudy) -> float:
    """Nominal voltage of the source a run hangs on. [V]"""
    return voltages(study, run.run_id)[0]


def way_names(study: Study, run: RunStudy) -> list[str]:
    """Names of the places along the way, the source first."""
    names = places(study.rig)
    first = rig_run(study, run.way[0]).from_id
    return [names.get(node, node) for node in (first, *(rig_run(study, one).to_id for one in run.way))]


def way_volts(study: Study, run: RunStudy) -> list[float]:
    """Volts at those places. [V]"""
    runs = [run_study(study, one) for one in run.way]
    return [runs[0].source_v, *(one.load_v for one in runs)]


def way_alt(study: Study, run: RunStudy) -> str:
    """The plot of the volts in a sentence."""
    if not run.solved:
        most = show(run.largest_power_w or 0.0, "w", study.rig.units)
        return f"The power does not get through to the end of {run.name}: at most {most} would."
    pairs = zip(way_names(study, run), way_volts(study, run), strict=True)
    text = ", ".join(f"{name} {significant(volts)} V" for name, volts in pairs)
    low = device_lowest_v(study, run.run_id)
    ends = f"; it works down to {significant(low)} V" if low is not None else ""
    bank = "" if rig_run(study, run.way[0]).from_id != BANK else ", the bank at its lowest"
    return f"Volts along the way{bank}: {text}{ends}."
