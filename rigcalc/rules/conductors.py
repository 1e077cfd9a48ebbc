"""Rules on what conductors carry and what they drop."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from rigcalc.model.network import BANK
from rigcalc.rules.finding import Finding
from rigcalc.rules.parts import judged, rig_run, source_of, taking_power, titled, voltages
from rigcalc.rules.search import larger_conductors
from rigcalc.rules.words import RIG, apart, found, joined, listed, not_stated, quantity
from rigcalc.study import Study
from rigcalc.study.ampacity import capacity, judges, surroundings
from rigcalc.study.network_results import RunStudy, SizeCheck
from rigcalc.tables.ampacity import BundlingFactor, bundling_factor
from rigcalc.tables.conductors import conductor
from rigcalc.tables.design_rules import DesignRule, design_rule
from rigcalc.tables.rule_sets import Clause

_SEVERITY = {"stop": "stop", "warn": "warning"}


def w01_ampacity(study: Study) -> Iterator[Finding]:
    """The design current against what the conductor may carry where it lies."""
    yield from _unwired(study)
    yield from _grouping(study)
    if not study.network.available:
        sentence = "These rules have no ampacity table that was read: no size is judged or chosen by them."
        yield not_stated(study, "W01", RIG, sentence, by=_by(study, "W01"))
        return
    yield from _unknown_currents(study, taking_power(study))
    for one, check in _checks(study):
        if check.ampacity_a is None:
            yield not_stated(study, "W01", one.run_id, _no_ampacity(study, one, check), by=_by(study, "W01"))
        elif _over_because(study, one, check) == "W01":
            yield _over(study, "W01", one, check, check.ampacity_a, "")


def _unknown_currents(study: Study, names: dict[str, tuple[str, float | None]]) -> Iterator[Finding]:
    """A load without a stated power leaves every run on its way without a known current: said once a load."""
    ways: dict[str, list[str]] = {}
    for one in study.network.runs:
        for node in one.unknown:
            ways.setdefault(node, []).append(one.run_id)
    for node, runs in ways.items():
        sentence = f"The power of {names[node][0]} is not stated, so the current in {joined(runs)} is not known."
        yield not_stated(study, "W01", node, sentence)


def _unwired(study: Study) -> Iterator[Finding]:
    """What takes power and hangs on nothing, and converters whose loads hang on nothing; once for each."""
    names, reached = taking_power(study), {rig_run(study, one.run_id).to_id for one in study.network.runs}
    loose: dict[str, list[str]] = {}
    for load in study.rig.loads:
        if load.feed == "converter" and load.fed_by and load.id not in reached:
            loose.setdefault(load.fed_by, []).append(load.name)
    for node in dict.fromkeys((*study.network.unconnected, *loose)):
        open_ones = []
        if node in study.network.unconnected:
            open_ones += [f"No run reaches {names[node][0]}: its conductor, fuse and voltage are not worked out."]
        if node in loose:
            to = listed(loose[node], "loads")
            open_ones += [f"The wiring from {names[node][0]} to {to} is not described and not worked out."]
        yield not_stated(study, "W01", node, " ".join(open_ones))


def _grouping(study: Study) -> Iterator[Finding]:
    """Grouping factors typed larger than the rule set's own; one finding of the rig, a size cures none of them."""
    over: list[tuple[str, float, BundlingFactor]] = []
    for one, check in _checks(study):
        run = rig_run(study, one.run_id)
        if run.grouping_factor is None or run.conductors_together is None:
            continue
        for rules in judges(study.rule_set, conductor(check.size).series):
            row = bundling_factor(rules.bundling, run.conductors_together) if rules.bundling != "typed" else None
            if row is not None and run.grouping_factor > row.factor:
                over.append((run.id, run.grouping_factor, row))
    if over:
        typed = max(over, key=lambda each: each[1] / each[2].factor)
        which = listed(list(dict.fromkeys(run_id for run_id, _, _ in over)), "runs")
        sentence = (
            f"The grouping factor typed for {which} is larger than the printed one: {typed[0]} has {typed[1]:g}, "
            f"and {typed[2].factor:g} is printed for as many conductors together. Take the printed one, or say why not."
        )
        has, most = f"{typed[1]:g} typed", f"at most {typed[2].factor:g}"
        yield found(study, "W01", RIG, sentence, has, most, severity="warning", by=typed[2])


def w02_engine_space(study: Study) -> Iterator[Finding]:
    """The same, where only the heat of an engine space makes the difference."""
    for one, check in _checks(study):
        if check.ampacity_a is not None and _over_because(study, one, check) == "W02":
            why = " It runs through an engine space, whose heat makes the difference."
            yield _over(study, "W02", one, check, check.ampacity_a, why)


def w06_feeder(study: Study) -> Iterator[Finding]:
    """The same, where a feeder would carry any one of its branches but not their sum."""
    for one, check in _checks(study):
        if check.ampacity_a is not None and _over_because(study, one, check) == "W06":
            names = joined([branch.run_id for branch in _branches(study, one)])
            why = f" It would do for any one of {names}; together they are too much."
            yield _over(study, "W06", one, check, check.ampacity_a, why)


def _checks(study: Study) -> Iterator[tuple[RunStudy, SizeCheck]]:
    for one in study.network.runs:
        check = judged(one)
        if check is not None:
            yield one, check


def _over_because(study: Study, one: RunStudy, check: SizeCheck) -> str | None:
    """The rule that names the cause of a current above the ampacity; one finding for one cause."""
    if check.ampacity_a is None or check.current_a <= check.ampacity_a:
        return None
    if rig_run(study, one.run_id).engine_space and _outside_a(study, one, check) >= check.current_a:
        return "W02"
    branches = _branches(study, one)
    largest_a = max((branch.design_current_a for branch in branches), default=0.0)
    return "W06" if one.stated and len(branches) > 1 and largest_a <= check.ampacity_a else "W01"


def _outside_a(study: Study, one: RunStudy, check: SizeCheck) -> float:
    """What the conductor would carry outside the engine space. [A]"""
    around = replace(surroundings(study.rig, rig_run(study, one.run_id)), engine_space=False)
    size, over_100 = conductor(check.size), check.current_a > 100
    heard = [capacity(size, around, rules, over_100).corrected_a for rules in judges(study.rule_set, size.series)]
    return min((value for value in heard if value is not None), default=0.0)


def _branches(study: Study, one: RunStudy) -> list[RunStudy]:
    """The runs that start where this one ends."""
    return [other for other in study.network.runs if other.way[-2:-1] == (one.run_id,)]


def _over(study: Study, rule: str, one: RunStudy, check: SizeCheck, ampacity_a: float, why: str) -> Finding:
    has, most = apart(study, check.current_a, ampacity_a, "a")
    table = ""
    if check.table_a is not None and check.table_a > ampacity_a:
        table = f" ({quantity(study, check.table_a, 'a')} by the table, less for its surroundings)"
    size = check.size if one.choice else f"even {check.size}, the largest size tried,"
    sentence = f"{titled(one)} carries {has}; {size} may carry {most} here{table}. It would overheat.{why}"
    cures = larger_conductors(study, [one.run_id])
    return found(study, rule, one.run_id, sentence, has, f"at most {most}", by=_by(study, rule), candidates=cures)


def _by(study: Study, rule: str) -> Clause | DesignRule:
    """Ampacity findings name the rule set's own clause."""
    topics = {"W01": study.rule_set.clause("ampacity"), "W02": study.rule_set.clause("ambient")}
    return topics.get(rule) or design_rule(rule)


def _no_ampacity(study: Study, one: RunStudy, check: SizeCheck) -> str:
    run = rig_run(study, one.run_id)
    if run.grouping_factor is None and (run.conductors_together or 2) > 2 and check.table_a is not None:
        return f"{titled(one)} lies with others and no grouping factor was read for these rules: type the one you have."
    return f"What {check.size} may carry on {titled(one)} is not in a table that was read: state insulation and laying."


def w03_drop(study: Study) -> Iterator[Finding]:
    """The drop over the whole way, by the rule set's own formula, against the limit of the circuit."""
    unread: list[str] = []
    for one, check in _checks(study):
        if not one.solved:
            continue
        bare = [run_id for run_id in one.way if _chassis_unknown(study, run_id)]
        if one.drop_limit_percent is None:
            unread.append(one.run_id)
        elif check.way_drop_percent > one.drop_limit_percent and not _only_when_low(study, one, check):
            yield _drops(study, "W03", one, check, one.drop_limit_percent, "")
        elif bare:
            sentence = f"The chassis returns {joined(bare)}; its resistance is not stated and left out of the drop."
            yield not_stated(study, "W03", one.run_id, sentence, by=_drop_row(study, one))
    if unread:
        which = listed(unread, "runs")
        sentence = f"For the use of {which} no limit of the voltage drop was read in these rules: type one."
        yield not_stated(study, "W03", RIG, sentence, by=study.rule_set.clause("drop"))


def w05_low_battery(study: Study) -> Iterator[Finding]:
    """The power gets through when the bank is low, and the drop stays within its limit then too."""
    dead = {one.run_id for one in study.network.runs if not one.solved}
    for one, check in _checks(study):
        if one.solved:
            limit = one.drop_limit_percent
            if limit is not None and check.way_drop_percent > limit and _only_when_low(study, one, check):
                why = " At the nominal voltage it would keep the limit; with the bank low the load takes more current."
                yield _drops(study, "W05", one, check, limit, why)
        elif not dead.intersection(one.way[:-1]):
            yield _no_solution(study, one)


def _no_solution(study: Study, one: RunStudy) -> Finding:
    most = quantity(study, one.largest_power_w or 0.0, "w")
    low = "With the bank low, " if source_of(study, one.run_id) == BANK else ""
    sentence = (
        f"{low}{titled(one)} cannot deliver what hangs on it: more current only loses more on the way. "
        f"At most {most} would get through."
    )
    cures = larger_conductors(study, reversed(one.way))
    limit, stop = f"at most {most}", "stop"
    return found(study, "W05", one.run_id, sentence, "no solution", limit, severity=stop, candidates=cures)


def _only_when_low(study: Study, one: RunStudy, check: SizeCheck) -> bool:
    """Whether the same power at the bank's nominal voltage, hence at less current, would keep the limit.

    A converter holds its output whatever the bank has left.
    """
    if source_of(study, one.run_id) != BANK:
        return False
    nominal_v, _ = voltages(study, one.run_id)
    at_nominal = check.way_drop_percent * one.load_v / nominal_v
    return one.drop_limit_percent is not None and at_nominal <= one.drop_limit_percent


def _drops(study: Study, rule: str, one: RunStudy, check: SizeCheck, limit: float, why: str) -> Finding:
    has, most = apart(study, check.way_drop_percent, limit, "percent", 2)
    from_what = "the bank" if rig_run(study, one.way[0]).from_id == "bank" else "the converter"
    size = "" if one.choice else f" even with {check.size}, the largest size tried"
    sentence = f"From {from_what} to the end of {titled(one)} {has} is lost{size}; the limit here is {most}.{why}"
    cures = larger_conductors(study, reversed(one.way))
    row = _drop_row(study, one)
    return found(study, rule, one.run_id, sentence, has, f"at most {most}", by=row, candidates=cures)


def _drop_row(study: Study, one: RunStudy) -> DesignRule:
    """The rule's row with the source of this run's limit."""
    return replace(design_rule("W03"), source=one.drop_limit_source, locator="", status=one.drop_limit_status)


def _chassis_unknown(study: Study, run_id: str) -> bool:
    run = rig_run(study, run_id)
    return run.return_path == "chassis" and run.chassis_resistance_ohm is None


def w21_terminal(study: Study) -> Iterator[Finding]:
    """The design current against the column of the terminals' temperature."""
    blank: list[str] = []
    clause = study.rule_set.clause("terminal")
    for one, check in _checks(study):
        if check.terminal_a is None:
            blank.append(one.run_id)
        elif check.current_a > check.terminal_a:
            has, most = apart(study, check.current_a, check.terminal_a, "a")
            sentence = (
                f"{titled(one)} carries {has}; its terminals allow {most} with {check.size}, whatever the insulation "
                "stands. They would get hotter than their rating."
            )
            grave, cures = _SEVERITY[study.rule_set.terminal_severity], larger_conductors(study, [one.run_id])
            limit = f"at most {most}"
            yield found(study, "W21", one.run_id, sentence, has, limit, severity=grave, by=clause, candidates=cures)
    if blank:
        sentence = (
            f"No table that was read has a column for the temperature of the terminals of {listed(blank, 'runs')}."
        )
        yield not_stated(study, "W21", RIG, sentence, by=clause)
