"""The voltage drop each run may reach, counted from the bank (or converter) to the run's end.

A load's limit holds over its whole way. The feeders on that way together get half of it, so that every branch
keeps the other half, and share it in proportion to L · √I, which takes the least copper in all: of runs in series
with drops I · L / A that add up to a given sum, Σ L · A is least where A goes with √I. A limit typed on a run
replaces this.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import accumulate
from math import sqrt

from rigcalc.model import Run
from rigcalc.study.tree import Tree, together_w
from rigcalc.tables.rule_sets import RuleSet

FEEDER_SHARE = 0.5


@dataclass(frozen=True, slots=True)
class DropLimit:
    """Limit on the way from the source to a run's end, and where it comes from."""

    percent: float | None
    use: str
    source: str
    status: str


def drop_limits(tree: Tree, rules: RuleSet) -> dict[str, DropLimit]:
    """The limit of every run."""
    uses = {load.id: load.circuit_use for load in tree.rig.loads}
    limits = {run.id: _of_use(uses.get(run.to_id, "main_feeder"), rules) for run in tree.order}
    ends = {leaf.id for leaves in tree.below.values() for leaf in leaves}
    feeders = [run for run in tree.order if run.to_id not in ends]
    shares = _shares(tree)
    for run in feeders:
        limits[run.id] = _feeder(run, tree, limits, shares)
    for run in tree.order:
        if run.drop_limit_percent is not None:
            use = limits[run.id].use
            limits[run.id] = DropLimit(run.drop_limit_percent, use, "typed for this run", "computed")
    return limits


def _of_use(use: str, rules: RuleSet) -> DropLimit:
    row = rules.drop_limit(use)
    if row is None:
        return DropLimit(None, use, "not available from a read source", "memory")
    return DropLimit(row.limit_pct, use, f"{row.source} {row.locator}, {row.binding}", row.status)


def _shares(tree: Tree) -> dict[tuple[str, str], float]:
    """For each end and each feeder on its way: the share of the feeders' weight up to there."""
    weights = {run.id: _weight(run, tree) for run in tree.order}
    found = {}
    for run in tree.order:
        feeders = tree.ways[run.id][:-1]
        upto = list(accumulate(weights[one.id] for one in feeders))
        for one, so_far in zip(feeders, upto, strict=True):
            found[run.id, one.id] = so_far / upto[-1] if upto[-1] else 1.0
    return found


def _feeder(run: Run, tree: Tree, limits: dict[str, DropLimit], shares: dict[tuple[str, str], float]) -> DropLimit:
    """Half of the strictest limit below, in the share of this run and those before it."""
    own = limits[run.id]
    best = own
    for leaf in tree.below[run.id]:
        end = tree.feeding[leaf.id].id
        limit = limits[end]
        if limit.percent is None:
            continue
        percent = FEEDER_SHARE * limit.percent * shares[end, run.id]
        if best.percent is None or percent < best.percent:
            share = f"{100 * percent / limit.percent:.0f} % of the {limit.percent:g} % of {end}"
            best = DropLimit(percent, own.use, f"{share}; {limit.source}", limit.status)
    return best


def _weight(run: Run, tree: Tree) -> float:
    """L · √I, with the power standing for the current: all runs of a way hang on one source."""
    power_w = together_w((leaf.group, leaf.power_w) for leaf in tree.below[run.id])
    return (run.length_out_m + (run.length_back_m or 0.0)) * sqrt(power_w)
