"""What a conductor size may carry on one run, by a rule set, with every factor that lowers it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from rigcalc.formulas.ampacity import ambient_factor, corrected_ampacity_a
from rigcalc.formulas.overcurrent import highest_rating_a
from rigcalc.model import Rig, Run
from rigcalc.study.results import Working
from rigcalc.tables.ampacity import ambient_factor_nec, ampacity_a, bundling_factor, engine_space_factor
from rigcalc.tables.conductors import ConductorSize
from rigcalc.tables.overcurrent import device_class, ratings, small_conductor_limit
from rigcalc.tables.rule_sets import RuleSet, rule_set

UNMARKED_TERMINAL = ((100.0, 60.0), (float("inf"), 75.0))  # NFPA 70 110.14(C): up to this current, this column
COOLEST_INSULATION_C = {"AWG": 60.0, "mm2": 70.0}  # of the read tables, for insulation nobody stated
ENGINE_SPACE_C = 50.0  # 33 CFR 183.425 Table 5 note 1: its factors fit 50 °C
TABLE_AMBIENT_C = 30.0
OWN_PAIR = 2


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What lies around one run, as far as it changes what a conductor may carry."""

    ambient_c: float
    insulation_c: float | None
    terminal_c: float | None
    engine_space: bool
    together: int
    grouping_factor: float | None
    installation: str


@dataclass(frozen=True, slots=True)
class Capacity:
    """Ampacity of one size on one run; None where a read source is missing."""

    table_a: float | None
    corrected_a: float | None
    terminal_a: float | None
    insulation_c: float
    factors: tuple[Working, ...]
    missing: str = ""


@dataclass(frozen=True, slots=True)
class Bounds:
    """What one size may carry on one run with every rule set that judges it heard: the least of each."""

    table_a: float | None
    ampacity_a: float | None
    terminal_a: float | None
    fuse_a: float | None
    insulation_c: float


def surroundings(rig: Rig, run: Run) -> Surroundings:
    """The run's own facts, with the rig's hot ambient where the run states none."""
    return Surroundings(
        ambient_c=rig.ambient_hot_c if run.ambient_c is None else run.ambient_c,
        insulation_c=run.insulation_c,
        terminal_c=run.terminal_c,
        engine_space=run.engine_space,
        together=run.conductors_together or OWN_PAIR,
        grouping_factor=run.grouping_factor,
        installation=run.installation or "enclosed",
    )


@lru_cache(maxsize=64)
def judges(rules: RuleSet, series: str) -> tuple[RuleSet, ...]:
    """The rule sets whose tables serve a series: the set itself, its counterpart, or all of the strictest's."""
    if rules.members:
        found = [one for name in rules.members for one in judges(rule_set(name), series)]
        return tuple(dict.fromkeys(found))
    if rules.series == series:
        return (rules,) if rules.ampacity_tables else ()
    return (rule_set(rules.counterpart),) if rules.counterpart else ()


@lru_cache(maxsize=8192)
def capacity(size: ConductorSize, around: Surroundings, rules: RuleSet, current_over_100: bool) -> Capacity:
    """Ampacity of a size by one rule set's own tables and factors.

    ``current_over_100`` chooses the column of an unmarked terminal.
    """
    insulation_c = COOLEST_INSULATION_C[size.series] if around.insulation_c is None else around.insulation_c
    table = rules.ampacity_table(insulation_c)
    row = ampacity_a(table, size.name, insulation_c, around.installation) if table else None
    if row is None:
        missing = f"{size.name} at {insulation_c:g} °C in {rules.clause('ampacity').source}"
        return Capacity(None, None, None, insulation_c, (), missing)
    factors = (_ambient(around, row.insulation_c, rules), _grouping(around, rules))
    if factors[1] is None:
        missing = "the grouping factor; type the one of your standard"
        return Capacity(row.ampacity_a, None, None, row.insulation_c, (factors[0][1],), missing)
    value = corrected_ampacity_a(row.ampacity_a, factors[0][0], factors[1][0])
    table_working = Working(
        "Table ampacity", "I_table", f"{size.name}, {row.insulation_c:g} °C column", f"{row.ampacity_a:g} A",
        row.source, row.locator, row.status,
    )  # fmt: skip
    terminal_a = _terminal(size, around, rules, current_over_100)
    workings = (table_working, factors[0][1], factors[1][1])
    return Capacity(row.ampacity_a, value, terminal_a, row.insulation_c, workings)


def _ambient(around: Surroundings, rating_c: float, rules: RuleSet) -> tuple[float, Working]:
    """The factor for the air around the run: the printed one, else the formula, never above a printed one."""
    ambient_c = around.ambient_c
    if rules.ambient_method == "engine_note":
        return _engine_note(around, rating_c)
    if around.engine_space:
        ambient_c = max(ambient_c, ENGINE_SPACE_C)
    if rules.ambient_method == "nec_table":
        row = ambient_factor_nec(ambient_c, rating_c)
        if row is not None:
            numbers = f"{ambient_c:g} °C, {rating_c:g} °C column"
            return row.factor, Working(
                "Ambient", "f_a", numbers, f"{row.factor:g}", row.source, row.locator, row.status
            )
    return _by_formula(rating_c, ambient_c)


def _engine_note(around: Surroundings, rating_c: float) -> tuple[float, Working]:
    printed = engine_space_factor(rating_c) if around.engine_space else None
    by_formula = _by_formula(rating_c, around.ambient_c)
    if printed is None or by_formula[0] < printed.factor:
        return by_formula
    numbers = f"engine space, {rating_c:g} °C insulation"
    return printed.factor, Working(
        "Ambient", "f_a", numbers, f"{printed.factor:g}", printed.source, printed.locator, printed.status
    )


def _by_formula(rating_c: float, ambient_c: float) -> tuple[float, Working]:
    factor = 1.0 if ambient_c <= TABLE_AMBIENT_C else ambient_factor(rating_c, ambient_c)
    numbers = (
        f"√(({rating_c:g} − {ambient_c:g}) / ({rating_c:g} − 30))" if factor < 1 else f"{ambient_c:g} °C, up to 30 °C"
    )
    return factor, Working("Ambient", "f_a = √((T_r − T_a)/(T_r − 30))", numbers, f"{factor:.3g}")


def _grouping(around: Surroundings, rules: RuleSet) -> tuple[float, Working] | None:
    numbers = f"{around.together} current-carrying conductors together"
    if around.grouping_factor is not None:
        factor = around.grouping_factor
        return factor, Working(
            "Grouping", "f_g", numbers, f"{factor:g}", "typed for this run", "see its note", "computed"
        )
    if around.together <= OWN_PAIR:
        return 1.0, Working("Grouping", "f_g", numbers, "1", "one circuit alone needs none")
    row = bundling_factor(rules.bundling, around.together) if rules.bundling != "typed" else None
    if row is None:
        return None
    return row.factor, Working("Grouping", "f_g", numbers, f"{row.factor:g}", row.source, row.locator, row.status)


def _terminal(size: ConductorSize, around: Surroundings, rules: RuleSet, over_100: bool) -> float | None:
    """Ampacity in the column of the terminals' temperature; None where the table has no such column."""
    column_c = around.terminal_c if around.terminal_c is not None else UNMARKED_TERMINAL[over_100][1]
    table = rules.ampacity_table(column_c)
    row = ampacity_a(table, size.name, column_c, around.installation) if table else None
    return row.ampacity_a if row else None


@lru_cache(maxsize=8192)
def fuse_limit_a(size: ConductorSize, ampacity: float, class_id: str, rules: RuleSet) -> float:
    """The largest protective device a rule set allows on a conductor. [A]"""
    series = tuple(row.rating_a for row in ratings(device_class(class_id).id))
    limit_a = highest_rating_a(ampacity, series, rules.next_size_up, rules.next_size_up_ratio or 1.0)
    small = small_conductor_limit(size.name) if rules.small_conductor_limits else None
    return min(limit_a, small.limit_a) if small else limit_a


@lru_cache(maxsize=8192)
def bounds(size: ConductorSize, around: Surroundings, rules: RuleSet, current_over_100: bool, class_id: str) -> Bounds:
    """Ampacity, terminal and fuse limit of a size on a run, None where any judge lacks a read figure."""
    heard = [(one, capacity(size, around, one, current_over_100)) for one in judges(rules, size.series)]
    fuses = [_fuse_a(size, cap, class_id, one) for one, cap in heard]
    ampacity = _least([cap.corrected_a for _, cap in heard])
    return Bounds(
        table_a=_least([cap.table_a for _, cap in heard]),
        ampacity_a=ampacity,
        terminal_a=_least([cap.terminal_a for _, cap in heard if cap.terminal_a is not None]),
        fuse_a=_least([*fuses, ampacity] if rules.members else fuses),
        insulation_c=max((cap.insulation_c for _, cap in heard), default=around.insulation_c or 70.0),
    )


def _least(values: list[float | None]) -> float | None:
    """The least of all, None where any of them is not known or there are none."""
    known = [value for value in values if value is not None]
    return min(known) if known and len(known) == len(values) else None


def _fuse_a(size: ConductorSize, cap: Capacity, class_id: str, rules: RuleSet) -> float | None:
    """The largest device on the conductor; under NFPA 70 the terminals' column bounds it too (110.14(C))."""
    if not cap.corrected_a:
        return cap.corrected_a
    limit_a = fuse_limit_a(size, cap.corrected_a, class_id, rules)
    bound = cap.terminal_a if rules.terminal_severity == "stop" else None
    return limit_a if bound is None else min(limit_a, bound)
