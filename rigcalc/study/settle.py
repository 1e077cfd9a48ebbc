"""Conductors and protection of the whole rig: currents, sizes, devices, settled together.

Bigger copper changes the drop, the drop changes the current of constant-power loads, the current changes the
fuse, and the fuse changes the copper; a few passes from the bank outwards settle it. After the first few a size
never gets smaller, so the passes end.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cached_property

from rigcalc.formulas.fault import prospective_current_a
from rigcalc.model import Device, Load, Rig, Run
from rigcalc.model.network import BANK
from rigcalc.solvers.radial import Branch, Solution, solve_radial
from rigcalc.study.ampacity import Surroundings, surroundings
from rigcalc.study.conductors import Before, Demand, check, choose, loop_ohm, rule_set_drop_v
from rigcalc.study.drop_limits import DropLimit, drop_limits
from rigcalc.study.network_results import SizeCheck
from rigcalc.study.overcurrent import Protection, breaker_floor_a, fault_resistance_ohm, protection
from rigcalc.study.results import Working
from rigcalc.study.tree import Tree, together_w, tree
from rigcalc.tables.conductors import ConductorSize, conductor, conductor_sizes
from rigcalc.tables.design_rules import design_limit
from rigcalc.tables.rule_sets import RuleSet
from rigcalc.tables.size_text import parse_size

MOST_PASSES = 12
GROW_ONLY_FROM = 4
SETTLED_A = 1e-3
ALIKE_PERCENT = 1e-3


@dataclass
class Pick:
    """The conductor of one run as it stands in this pass."""

    demand: Demand
    check: SizeCheck | None  # None: no size of the tables passes
    size: ConductorSize  # what the solution uses: the pick, or the largest where none passes
    temperature_c: float


@dataclass
class Design:
    """Everything that settles over the passes."""

    tree: Tree
    rules: RuleSet
    limits: dict[str, DropLimit]
    around: dict[str, Surroundings]
    owners: dict[str, Device | None]  # run id -> the device that protects it
    fault: tuple[float, Working]
    lowest_v: dict[str, float | None]
    passes: int = 0
    picks: dict[str, Pick] = field(default_factory=dict)
    current_a: dict[str, float] = field(default_factory=dict)
    end_v: dict[str, float] = field(default_factory=dict)
    unsolved: set[str] = field(default_factory=set)
    devices: dict[str, Protection] = field(default_factory=dict)
    prospective_a: dict[str, float | None] = field(default_factory=dict)

    @property
    def rig(self) -> Rig:
        """The rig under design."""
        return self.tree.rig

    @cached_property
    def loads(self) -> dict[str, Load]:
        """The rig's loads by id."""
        return {load.id: load for load in self.rig.loads}

    @cached_property
    def outputs_v(self) -> dict[str, float]:
        """Output voltage of each converter."""
        return {converter.id: converter.output_v for converter in self.rig.converters}

    def source_v(self, run_id: str) -> tuple[float, float]:
        """Lowest working and nominal voltage of the source that the run hangs on; the bank's where nothing feeds it."""
        output_v = self.outputs_v.get(self.tree.sources[run_id])
        if output_v is None:
            return self.tree.rig.bank.lowest_working_v, float(self.tree.rig.system_v)
        return output_v, output_v


def settle(rig: Rig, rules: RuleSet) -> Design:
    """Pass from the bank outwards until no size and no current changes."""
    laid = tree(rig)
    design = Design(
        tree=laid,
        rules=rules,
        limits=drop_limits(laid, rules),
        around={run.id: surroundings(rig, run) for run in rig.runs},
        owners=_owners(laid),
        fault=fault_resistance_ohm(rig),
        lowest_v=_lowest_v(rig),
    )
    for run in laid.order:
        source_v, _ = design.source_v(run.id)
        design.current_a[run.id] = _sum_a(laid, run, source_v)
        design.end_v[run.id] = source_v
    for design.passes in range(MOST_PASSES):
        before = {run_id: (pick.size.name, design.current_a[run_id]) for run_id, pick in design.picks.items()}
        for run in laid.order:
            design.picks[run.id] = _pick(design, run)
        _solve(design)
        if _same(design, before):
            break
    return design


def _same(design: Design, before: dict[str, tuple[str, float]]) -> bool:
    return before.keys() == design.picks.keys() and all(
        before[run_id][0] == pick.size.name and abs(before[run_id][1] - design.current_a[run_id]) < SETTLED_A
        for run_id, pick in design.picks.items()
    )


def _sum_a(laid: Tree, run: Run, source_v: float) -> float:
    return together_w((leaf.group, leaf.power_w) for leaf in laid.below[run.id]) / source_v


def _owners(laid: Tree) -> dict[str, Device | None]:
    """For each run the nearest device at or before it, from its own source on."""
    owners: dict[str, Device | None] = {}
    for run_id, way in laid.ways.items():
        owners[run_id] = next((laid.devices[run.id] for run in reversed(way) if run.id in laid.devices), None)
    return owners


def _lowest_v(rig: Rig) -> dict[str, float | None]:
    found = {load.id: load.lowest_working_v for load in rig.loads}
    found |= {inverter.id: inverter.lowest_input_v for inverter in rig.inverters}
    found |= {converter.id: converter.lowest_input_v for converter in rig.converters}
    margin_v = design_limit("B05", "margin_v").value
    return {node: None if volts is None else volts + margin_v for node, volts in found.items()}


def demand_of(design: Design, run: Run) -> Demand:
    """What a run asks of its conductor, given the runs before it."""
    source_v, nominal_v = design.source_v(run.id)
    before = _before(design, run, nominal_v)
    lowest_v = design.lowest_v.get(run.to_id)
    device = _protect(design, run, before)
    leaves = design.tree.below[run.id]
    return Demand(
        run=run,
        around=design.around[run.id],
        current_a=design.current_a[run.id],
        power_w=leaves[0].power_w if len(leaves) == 1 and leaves[0].id == run.to_id else None,
        nominal_v=nominal_v,
        source_v=source_v,
        before=before,
        limit_percent=design.limits[run.id].percent,
        fuse_a=device.rating_a if device else None,
        fuse_class=device.class_id if device else "current_limiting",
        lowest_v=lowest_v if lowest_v is not None and source_v > lowest_v else None,
    )


def _before(design: Design, run: Run, nominal_v: float) -> Before:
    """What lies before the run that feeds this one, and that run itself at its present current."""
    way = design.tree.ways[run.id]
    if len(way) == 1:
        return Before()
    pick, current_a = design.picks[way[-2].id], design.current_a[way[-2].id]
    so_far = pick.demand.before
    ohm = loop_ohm(pick.demand.run, pick.size, pick.temperature_c)
    percent = 100 * _rule_v(design, pick, current_a) / nominal_v
    return Before(
        rule_percent=so_far.rule_percent + percent,
        rule_percent_per_a=so_far.rule_percent_per_a + (percent / current_a if current_a else 0.0),
        drop_v=so_far.drop_v + current_a * ohm,
        ohm=so_far.ohm + ohm,
        cold_ohm=so_far.cold_ohm + loop_ohm(pick.demand.run, pick.size, 20.0),
    )


def _rule_v(design: Design, pick: Pick, current_a: float) -> float:
    """Drop of an earlier run by the rule's form at its present current."""
    if pick.check and pick.check.current_a:
        return pick.check.rule_drop_v * current_a / pick.check.current_a
    return rule_set_drop_v(pick.demand.run, current_a, pick.size, design.rules)


def _protect(design: Design, run: Run, before: Before) -> Protection | None:
    """The device that protects the run; worked out where its own run comes up, looked up after it."""
    owner = design.owners[run.id]
    if owner is None:
        return None
    if owner.run_id == run.id:
        source_v, _ = design.source_v(run.id)
        from_bank = design.tree.sources[run.id] == BANK
        short_a = _prospective_a(design, before.cold_ohm) if from_bank else None
        highest_v = design.rig.bank.highest_charge_v if from_bank else source_v
        way_class = next((b.branch_class for b in design.rig.blocks if b.id == run.from_id), None)
        design.prospective_a[owner.id] = short_a
        floor_a = breaker_floor_a(design.rig, run.from_id == BANK) if short_a is not None else 0.0
        asked_a = None if short_a is None else max(short_a, floor_a)
        design.devices[owner.id] = protection(
            owner, way_class, design.current_a[run.id], asked_a, design.rig, highest_v
        )
    return design.devices[owner.id]


def _prospective_a(design: Design, cold_ohm: float) -> float:
    """Largest fault current at the start of a run: full bank, cold copper."""
    return prospective_current_a(design.rig.bank.highest_charge_v, design.fault[0], cold_ohm)


def _pick(design: Design, run: Run) -> Pick:
    """The stated conductor, or the smallest that passes; from pass `GROW_ONLY_FROM` on it never gets smaller."""
    demand = demand_of(design, run)
    stated = parse_size(run.conductor)[0] if run.conductor else None
    if stated is not None:
        tried = check(stated, demand, design.rules)
        return Pick(demand, tried, stated, tried.temperature_c)
    held = design.picks.get(run.id)
    if held and held.check and _alike(demand, held.demand):
        tried = check(held.size, replace(demand, lowest_v=held.demand.lowest_v), design.rules)
        if not tried.fails:
            return Pick(replace(demand, lowest_v=held.demand.lowest_v), tried, held.size, tried.temperature_c)
    demand, found = pick_size(demand, design.rules, held.size if held else None)
    if found is None or found.fails:
        size = conductor(found.size) if found else conductor_sizes(design.rules.series)[-1]
        rating_c = demand.around.insulation_c or 70.0
        return Pick(demand, None, size, found.temperature_c if found else rating_c)
    if held and held.check and design.passes >= GROW_ONLY_FROM and conductor(found.size).order < held.size.order:
        found = check(held.size, demand, design.rules)
    return Pick(demand, found, conductor(found.size), found.temperature_c)


def _alike(demand: Demand, other: Demand) -> bool:
    """Whether so little changed since the pass before that the same size stays the smallest that passes."""
    return (
        demand.fuse_a == other.fuse_a
        and abs(demand.current_a - other.current_a) <= 1e-3 * other.current_a
        and abs(demand.before.rule_percent - other.before.rule_percent) < ALIKE_PERCENT
    )


def pick_size(demand: Demand, rules: RuleSet, hint: ConductorSize | None = None) -> tuple[Demand, SizeCheck | None]:
    """The smallest size that passes; a device voltage that no size of the run can keep is then left out."""
    found = choose(demand, rules, rules.series, hint)
    if found is None or found.fails != ("voltage",):
        return demand, found
    demand = replace(demand, lowest_v=None)
    return demand, choose(demand, rules, rules.series, hint)


def _solve(design: Design) -> None:
    """Currents and voltages of every source's runs, at the conductors' working temperatures."""
    runs_by_source: dict[str, list[Run]] = {}
    for run in design.tree.order:
        runs_by_source.setdefault(design.tree.sources[run.id], []).append(run)
    design.unsolved = set()
    for runs in runs_by_source.values():
        index = {run.to_id: i for i, run in enumerate(runs)}
        ends = {leaf.id: leaf for run in runs for leaf in design.tree.below[run.id]}
        branches = [
            Branch(
                parent=index.get(run.from_id),
                resistance_ohm=loop_ohm(run, design.picks[run.id].size, design.picks[run.id].temperature_c),
                power_w=ends[run.to_id].power_w if run.to_id in ends else 0.0,
                group=ends[run.to_id].group if run.to_id in ends else None,
            )
            for run in runs
        ]
        _take_over(design, runs, solve_radial(branches, design.source_v(runs[0].id)[0]))


def _take_over(design: Design, runs: list[Run], solution: Solution) -> None:
    for i, run in enumerate(runs):
        design.current_a[run.id] = solution.current_a[i]
        design.end_v[run.id] = solution.end_v[i]
    design.unsolved |= {runs[i].id for i in solution.unsolved}


def next_sizes(size: ConductorSize) -> tuple[ConductorSize | None, ConductorSize | None]:
    """The next smaller and next larger size of the same series."""
    series = conductor_sizes(size.series)
    at = series.index(size)
    return (series[at - 1] if at else None), (series[at + 1] if at + 1 < len(series) else None)
