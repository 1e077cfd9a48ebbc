"""One conductor size tried on one run: what it carries, what it drops, what it fails."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

from rigcalc.formulas.conductor import (
    conductor_temperature_c,
    constant_power_current_a,
    loop_resistance_ohm,
    resistance_moved,
    voltage_drop_circular_mil_v,
    voltage_drop_iec_v,
    voltage_drop_iso_v,
)
from rigcalc.model import Run
from rigcalc.study.ampacity import Bounds, Surroundings, bounds, capacity, judges
from rigcalc.study.network_results import SizeCheck
from rigcalc.tables.conductors import ConductorSize, conductor, conductor_sizes, copper_constant
from rigcalc.tables.rule_sets import RuleSet
from rigcalc.tables.size_text import parse_size

FT_M = 0.3048


@dataclass(frozen=True, slots=True)
class Before:
    """What lies between a source and the start of a run."""

    rule_percent: float = 0.0  # drop by the rule's form
    rule_percent_per_a: float = 0.0  # how much more of it each further ampere costs
    drop_v: float = 0.0  # the same, physical
    ohm: float = 0.0
    cold_ohm: float = 0.0  # at 20 °C


@dataclass(frozen=True, slots=True)
class Demand:
    """What one run asks of its conductor."""

    run: Run
    around: Surroundings
    current_a: float
    power_w: float | None  # of the one load at its end; None for a feeder
    nominal_v: float
    source_v: float
    before: Before
    limit_percent: float | None
    fuse_a: float | None  # the rating its conductors must allow
    fuse_class: str
    lowest_v: float | None  # at its end, margin included


def check(size: ConductorSize, demand: Demand, rules: RuleSet) -> SizeCheck:
    """Try a size on a run; with several rule sets to satisfy, the least capacity and the most drop count."""
    held = bounds(size, demand.around, rules, demand.current_a > 100, demand.fuse_class)
    temperature_c = _temperature(demand, held)
    ohm = loop_ohm(demand.run, size, temperature_c)
    current_a = _own_current_a(demand, ohm)
    rule_v = rule_set_drop_v(demand.run, current_a, size, rules)
    drop_v = current_a * ohm
    more_a = current_a - demand.current_a
    before_percent = demand.before.rule_percent + more_a * demand.before.rule_percent_per_a
    way_percent = before_percent + 100 * rule_v / demand.nominal_v
    way_v = demand.before.drop_v + more_a * demand.before.ohm + drop_v
    fails = _fails(demand, current_a, held, way_percent, way_v)
    return SizeCheck(
        size=size.name,
        area_mm2=size.area_mm2,
        current_a=current_a,
        table_a=held.table_a,
        ampacity_a=held.ampacity_a,
        terminal_a=held.terminal_a,
        fuse_limit_a=held.fuse_a,
        rule_drop_v=rule_v,
        rule_drop_percent=100 * rule_v / demand.nominal_v,
        way_drop_percent=way_percent,
        drop_v=drop_v,
        drop_percent=100 * drop_v / demand.nominal_v,
        end_v=demand.source_v - way_v,
        temperature_c=temperature_c,
        fails=fails,
    )


def _own_current_a(demand: Demand, ohm: float) -> float:
    """Current the run's one load takes behind this very size, the other loads unchanged; a feeder's is given."""
    way_ohm = demand.before.ohm + ohm
    others_v = demand.source_v - demand.before.drop_v + demand.current_a * demand.before.ohm
    if demand.power_w is None or others_v <= 0 or 4 * way_ohm * demand.power_w > others_v**2:
        return demand.current_a
    return constant_power_current_a(demand.power_w, others_v, way_ohm)


def _fails(demand: Demand, current_a: float, held: Bounds, way_percent: float, way_drop_v: float) -> tuple[str, ...]:
    if held.ampacity_a is None:
        return ("not available",)
    tests = (
        ("ampacity", current_a > held.ampacity_a),
        ("terminal", held.terminal_a is not None and current_a > held.terminal_a),
        ("drop", demand.limit_percent is not None and way_percent > demand.limit_percent),
        ("fuse", demand.fuse_a is not None and held.fuse_a is not None and demand.fuse_a > held.fuse_a),
        ("voltage", demand.lowest_v is not None and demand.source_v - way_drop_v < demand.lowest_v),
    )
    return tuple(name for name, failed in tests if failed)


def _temperature(demand: Demand, held: Bounds) -> float:
    """Working temperature; the insulation's own limit where the ampacity is not known or passed."""
    rating_c, ambient_c = held.insulation_c, demand.around.ambient_c
    if held.ampacity_a is None or demand.current_a >= held.ampacity_a or ambient_c >= rating_c:
        return max(rating_c, ambient_c)
    return conductor_temperature_c(ambient_c, rating_c, demand.current_a, held.ampacity_a)


def rule_set_drop_v(run: Run, current_a: float, size: ConductorSize, rules: RuleSet) -> float:
    """Voltage drop by a rule set's formula; for the strictest of all, the most by any member with a read table. [V]"""
    forms = ("circular_mil", "table_8", "iec_annex_g") if rules.members else (rules.drop_form,)
    return max(rule_drop_v(run, current_a, size, form) for form in forms)


def rule_drop_v(run: Run, current_a: float, size: ConductorSize, form: str) -> float:
    """Voltage drop by a rule set's own formula, with the stated size or chassis on the way back. [V]"""
    if form == "table_8":
        return current_a * loop_ohm(run, size, 75.0)
    out_v = _one_way_v(current_a, run.length_out_m, size, form)
    if run.return_path == "chassis":
        return out_v + current_a * (run.chassis_resistance_ohm or 0.0)
    return out_v + _one_way_v(current_a, run.length_back_m or 0.0, _size_back(run, size), form)


def _one_way_v(current_a: float, length_m: float, size: ConductorSize, form: str) -> float:
    if form == "circular_mil" and size.circular_mils is not None:
        mils = size.circular_mils_read_floor or size.circular_mils
        return voltage_drop_circular_mil_v(current_a, length_m / FT_M, mils)
    if form == "iso":
        return voltage_drop_iso_v(current_a, length_m, size.area_mm2)
    resistivity = copper_constant("circular_mil_k_metric" if form == "circular_mil" else "iec_rho1").value
    return voltage_drop_iec_v(current_a, length_m, 0.0, size.area_mm2, resistivity)


def _size_back(run: Run, size: ConductorSize) -> ConductorSize:
    """The size stated for the way back, else the size out."""
    stated = parse_size(run.return_conductor)[0] if run.return_conductor else None
    return stated or size


@lru_cache(maxsize=4096)
def _ohm_per_km(size: ConductorSize, temperature_c: float) -> float:
    return resistance_moved(size.resistance_ohm_per_km, size.resistance_at_c, temperature_c)


def loop_ohm(run: Run, size: ConductorSize, temperature_c: float) -> float:
    """Resistance out and back at a temperature, with a stated other size back, or the stated chassis. [Ω]"""
    out = _ohm_per_km(size, temperature_c)
    if run.return_path == "chassis":
        return loop_resistance_ohm(run.length_out_m, 0.0, out, out) + (run.chassis_resistance_ohm or 0.0)
    back = _ohm_per_km(_size_back(run, size), temperature_c)
    return loop_resistance_ohm(run.length_out_m, run.length_back_m or 0.0, out, back)


@lru_cache(maxsize=1024)
def usable_sizes(
    rules: RuleSet, series: str, insulation_c: float | None, installation: str, sheathed: bool
) -> tuple[ConductorSize, ...]:
    """Sizes of a series that a read table serves, from the rule set's smallest (where that was read) upwards."""
    around = Surroundings(30.0, insulation_c, None, False, 1, 1.0, installation)
    least = rules.min_size("sheathed" if sheathed else "single", series)
    least_order = conductor(least.size).order if least and not least.from_memory else 0
    heard = judges(rules, series)
    return tuple(
        size
        for size in conductor_sizes(series)
        if size.order >= least_order
        and heard
        and all(capacity(size, around, one, False).corrected_a is not None for one in heard)
    )


def choose(demand: Demand, rules: RuleSet, series: str, hint: ConductorSize | None = None) -> SizeCheck | None:
    """The smallest size that passes; where none does, the largest with what it fails; None without a read table.

    More copper of one table passes whatever less copper passes, so the search halves the table.
    """
    around, run = demand.around, demand.run
    sizes = usable_sizes(rules, series, around.insulation_c, around.installation, run.sheathed)
    if not sizes:
        return None
    tried: dict[int, SizeCheck] = {}

    def passes(at: int) -> bool:
        if at not in tried:
            tried[at] = check(sizes[at], demand, rules)
        return not tried[at].fails

    best = _smallest_passing(passes, len(sizes), sizes.index(hint) if hint and hint in sizes else None)
    passes(best)
    return tried[best]


def _smallest_passing(passes: Callable[[int], bool], count: int, hint: int | None) -> int:
    """Index of the first that passes, the last where none does; a hint is stepped away from, else halves are taken."""
    low, high = 0, count - 1
    if hint is not None and passes(hint):
        low = high = hint
        while low and passes(low - 1):
            low -= 1
        return low
    if hint is not None:
        low = min(hint + 1, high)
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if passes(middle) else (middle + 1, high)
    return low
