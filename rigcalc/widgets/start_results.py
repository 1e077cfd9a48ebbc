"""What the first page shows: how far the rig is, the examples, the rules it is checked by, its starting figures."""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import cache
from typing import Any

from rigcalc.model import Rig
from rigcalc.model.new import NOTE, starting_figures
from rigcalc.rules.finding import Finding
from rigcalc.study import Study
from rigcalc.study.working import plural
from rigcalc.tables.rule_sets import RULE_SETS, RuleSet, rule_set
from rigcalc.units import show, significant
from rigcalc.widgets import sheets
from rigcalc.widgets.findings import counts
from rigcalc.widgets.kit import Markup, h
from rigcalc.widgets.page import PAGES, RULES_OF
from rigcalc.widgets.session import example_names, notebooks_folder
from rigcalc.widgets.workings import status_tag

_TOPICS = {
    "scope": "What they cover",
    "ampacity": "Current a conductor may carry",
    "ambient": "Warm air",
    "bundling": "Conductors together",
    "drop": "Voltage drop",
    "fuse": "Fuse and conductor",
    "distance": "Distance to the fuse",
    "min_size": "Smallest conductor",
    "chassis": "Chassis as the return",
    "terminal": "Terminals",
}
_BANK = {
    "temperature_c": "Temperature of the cells",
    "depth_of_discharge": "Depth of discharge",
    "end_of_life_fraction": "Replaced at, of its new capacity",
    "lowest_working_v": "Lowest working voltage",
    "highest_charge_v": "Highest charge voltage",
}


def answer(study: Study, findings: Sequence[Finding]) -> Markup:
    """The rig and its state in one sentence."""
    stops = sum(one.stops for one in findings)
    days = study.autonomy.autonomy_d
    lasts = f"a bank that lasts {significant(days, 2)} days" if days is not None else "nothing drawn from its bank yet"
    state = plural(stops, "stop") if stops else "no stop"
    loads = plural(len(study.rig.loads), "load")
    return h(
        "{}, {} V: {}, {}, and <strong>{}</strong>{}.",
        study.rig.name, study.rig.system_v, loads, lasts, state, " to cure" if stops else "",
    )  # fmt: skip


def steps(study: Study, findings: Sequence[Finding]) -> Markup:
    """Each step of the work with its state in words, linked to its page."""
    states = {
        "10-load-inventory": _loads(study),
        "20-daily-energy": _energy(study),
        "30-battery-autonomy": _bank(study),
        "40-conductors": _conductors(study),
        "50-overcurrent-protection": _protection(study),
    }
    titles = {page: title for _, pages in PAGES for page, title in pages}
    rows = [
        h(
            '<tr><th scope="row"><a href="{}.ipynb">{}</a></th><td>{}</td><td>{}</td></tr>',
            page, titles[page], state, counts(findings, RULES_OF[page]),
        )
        for page, state in states.items()
    ]  # fmt: skip
    return h(
        '<div class="rig-scroll" tabindex="0" role="region" aria-label="Steps of this rig"><table>'
        '<caption>Where it stands</caption><thead><tr><th scope="col">Step</th><th scope="col">State</th>'
        '<th scope="col">Found</th></tr></thead><tbody>{}</tbody></table></div>',
        rows,
    )


def _loads(study: Study) -> str:
    rows = study.energy.rows
    if not rows:
        return "no load yet"
    guessed = sum(row.provenance in (None, "guess") for row in rows)
    missing = sum(bool(row.missing) for row in rows)
    text = f"{plural(len(rows), 'load')}, {guessed or 'none'} guessed"
    return text + (f", {missing} not complete" if missing else "")


def _energy(study: Study) -> str:
    energy = study.energy
    if not energy.daily_energy_wh:
        return "nothing drawn yet"
    reach = f"{significant(energy.daily_10_wh)} to {significant(energy.daily_90_wh)} Wh in 8 of 10 cases"
    return f"{show(energy.daily_energy_wh, 'wh')} a day, {reach}"


def _bank(study: Study) -> str:
    days, wanted = study.autonomy.autonomy_d, study.rig.bank.wanted_autonomy_days
    if days is None:
        return "nothing drawn yet"
    asked = "days wanted: not stated" if wanted is None else f"{wanted:.3g} wanted"
    return f"lasts {significant(days, 2)} days, {asked}"


def _conductors(study: Study) -> str:
    if not study.network.available:
        return "no sizes: these rules' own sizes are not available from a read source"
    runs, unconnected = study.network.runs, len(study.network.unconnected)
    chosen = sum(run.choice is not None and not run.choice.fails for run in runs)
    text = f"{chosen} of {plural(len(runs), 'run')} {'has' if chosen == 1 else 'have'} a conductor that passes"
    return f"{text}; {unconnected} of what it feeds on no run yet" if unconnected else text


def _protection(study: Study) -> str:
    circuits, bare = study.network.circuits, len(study.network.unprotected)
    rated = sum(one.rating_a is not None for one in circuits)
    text = f"{rated} of {plural(len(circuits), 'device')} {'has' if rated == 1 else 'have'} a rating"
    return f"{text}; {plural(bare, 'run')} without protection" if bare else text


# ---- example rigs ----------------------------------------------------------------------------------------


@cache
def example_data() -> dict[str, dict[str, Any]]:
    """The example rigs as plain data, by file name."""
    folder = notebooks_folder() / "rigs"
    return {name: json.loads((folder / f"{name}.json").read_text(encoding="utf-8")) for name in example_names()}


def examples(opened: str) -> Markup:
    """The example rigs with their notes, each with a button that opens it."""
    return h(
        '<section aria-label="Example rigs"><h2>Or open an example</h2><p class="rig-quiet">Scenarios made up for this '
        'workbook. Change anything in them: the file stays as it is.</p><ul class="rig-findings">{}</ul></section>',
        [_example(name, data, data["name"] == opened) for name, data in example_data().items()],
    )


def _example(name: str, data: dict[str, Any], opened: bool) -> Markup:
    facts = f"{data['system_v']} V, {plural(len(data.get('loads', ())), 'load')}. {rule_set(data['rule_set']).title}."
    act = "Open afresh" if opened else "Open"
    return h(
        '<li><p><strong>{}</strong> <button type="button" data-act="open" data-arg="{}" aria-label="{}: {}">{}</button>'
        '</p><p class="rig-quiet">{}</p><p>{}</p></li>',
        data["name"], name, act, data["name"], act, facts, data.get("note", ""),
    )  # fmt: skip


# ---- rules -----------------------------------------------------------------------------------------------


def not_available(rules: RuleSet) -> Markup:
    """A warning where the rule set's own sizes were not read."""
    if rules.ampacity_tables or rules.members:
        return Markup("")
    return h('<p class="rig-warn">▲ Its sizes are not available from a read source: no conductor is chosen by it.</p>')


def rules(own: RuleSet) -> Markup:
    """The rule set with its clauses, and the others with what they can do."""
    clauses = [
        h(
            '<li><strong>{}.</strong> {} <span class="rig-quiet">{}{}</span> {}</li>',
            _TOPICS[one.topic], one.text, one.source, f", {one.locator}" if one.locator else "", status_tag(one.status),
        )
        for one in own.clauses
    ]  # fmt: skip
    others = [_other(one) for one in RULE_SETS.values() if one.id != own.id]
    return h(
        '<section aria-label="Rules"><h2>Checked by: {}</h2>{}<ul class="rig-clauses">{}</ul>'
        '<h3>The other rule sets</h3><p class="rig-quiet">Never mixed with these clause by clause; the pages on wiring '
        "show their answers beside. Local codes come before all of them.</p><ul>{}</ul></section>",
        own.title, not_available(own), clauses, others,
    )  # fmt: skip


def _other(one: RuleSet) -> Markup:
    if one.members:
        return h(
            "<li>{}: the strictest answer of all that have one. A choice of its own, never taken by itself.</li>",
            one.title,
        )
    if one.ampacity_tables:
        return h("<li>{}: its sizes are available.</li>", one.title)
    return h('<li>{}: <span class="rig-warn">▲ its sizes are not available from a read source.</span></li>', one.title)


# ---- starting figures ------------------------------------------------------------------------------------


def starting(rig: Rig) -> Markup:
    """Figures of a new rig that nobody has replaced yet; nothing for a rig whose note does not say it has some."""
    if NOTE not in rig.note:
        return Markup("")
    figures = [
        one for one in starting_figures(rig.bank.chemistry, rig.system_v) if getattr(rig.bank, one.field) == one.value
    ]
    rows = [
        sheets.row(
            h("{} {}", _BANK[one.field], status_tag(one.status)),
            [
                sheets.cell(
                    _shown(one.field, one.value, rig.units), ", ".join(t for t in (one.source, one.locator) if t)
                )
            ],
        )
        for one in figures
    ]
    if not rows:
        return Markup("")
    note = "Not facts of your bank: replace them from its sheet on the page Battery autonomy, then change the note."
    return sheets.table("Starting figures of the bank", ("Figure", "Start"), rows, note)


def _shown(field: str, value: float, units: str) -> str:
    if field in ("depth_of_discharge", "end_of_life_fraction"):
        return f"{100 * value:g} %"
    return show(value, field.rsplit("_", 1)[-1], units)
