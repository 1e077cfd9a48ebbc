"""The rig's runs as a tree from the bank outwards, and the power that each end of it takes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from rigcalc.formulas.energy import power_from_current_w
from rigcalc.formulas.inverter import LossCurve, dc_power_w, loss_coefficients
from rigcalc.model import Converter, Device, Inverter, Load, Rig, Run
from rigcalc.model.network import BANK


@dataclass(frozen=True, slots=True)
class Leaf:
    """Something at the end of a run that takes constant power."""

    id: str
    power_w: float
    group: str | None = None  # leaves with the same word never run together
    known: bool = True  # False: nobody stated its power, or that of a load behind it


@dataclass(frozen=True)
class Tree:
    """Runs in order from the bank outwards, with what hangs below each."""

    rig: Rig
    order: tuple[Run, ...]  # each run after the run that feeds it
    feeding: dict[str, Run]  # node id -> the run into it
    below: dict[str, tuple[Leaf, ...]]  # run id -> leaves it carries
    ways: dict[str, tuple[Run, ...]]  # run id -> runs from its source to it, itself last
    sources: dict[str, str]  # run id -> "bank" or the converter whose output it hangs on
    devices: dict[str, Device]  # run id -> device in the positive conductor
    reached: frozenset[str]  # nodes that hang on the bank, directly or through converters


def tree(rig: Rig) -> Tree:
    """Lay out all of the rig's runs, also those that do not hang on the bank."""
    feeding = {run.to_id: run for run in rig.runs}
    ways = {run.id: _way(run, feeding, rig) for run in rig.runs}
    order = tuple(sorted(rig.runs, key=lambda run: (_depth(run, feeding), len(ways[run.id]))))
    leaves = {leaf.id: leaf for leaf in _leaves(rig)}
    below: dict[str, list[Leaf]] = {run.id: [] for run in rig.runs}
    for node, leaf in leaves.items():
        if node in feeding:
            for run in ways[feeding[node].id]:
                below[run.id].append(leaf)
    return Tree(
        rig=rig,
        order=order,
        feeding=feeding,
        below={run_id: tuple(found) for run_id, found in below.items()},
        ways=ways,
        sources={run_id: way[0].from_id for run_id, way in ways.items()},
        devices={d.run_id: d for d in rig.devices if d.conductor == "positive"},
        reached=frozenset(node for node in feeding if _root(node, feeding) == BANK),
    )


def _way(run: Run, feeding: dict[str, Run], rig: Rig) -> tuple[Run, ...]:
    """From the bank, or from the converter whose output the run hangs on."""
    converters = {c.id for c in rig.converters}
    way = [run]
    while way[0].from_id in feeding and way[0].from_id not in converters:
        way.insert(0, feeding[way[0].from_id])
    return tuple(way)


def _depth(run: Run, feeding: dict[str, Run]) -> int:
    depth, at = 0, run.from_id
    while at in feeding:
        depth, at = depth + 1, feeding[at].from_id
    return depth


def _root(node: str, feeding: dict[str, Run]) -> str:
    while node in feeding:
        node = feeding[node].from_id
    return node


def _leaves(rig: Rig) -> list[Leaf]:
    """Loads with a run of their own, inverters and converters at their input."""
    wired = {run.to_id for run in rig.runs}
    leaves = [
        Leaf(load.id, running_w(load), load.alternates_with, power_stated(load))
        for load in rig.loads
        if load.id in wired and load.feed in ("direct", "converter")
    ]
    leaves += [Leaf(one.id, inverter_design_w(rig, one)) for one in rig.inverters]
    for one in rig.converters:
        behind = [load for load in rig.loads if load.fed_by == one.id]
        known = one.rated_w is not None or all(power_stated(load) for load in behind)
        leaves.append(Leaf(one.id, converter_design_w(rig, one), None, known))
    return leaves


def power_stated(load: Load) -> bool:
    """Whether the power while it runs is stated; a reading over hours does not tell it."""
    return load.power_w is not None or load.current_a is not None


def running_w(load: Load) -> float:
    """Power of all of the row's appliances while they run, at their terminals; 0 where not stated. [W]"""
    if load.current_a is not None and load.voltage_v is not None:
        return load.quantity * power_from_current_w(load.current_a, load.voltage_v)
    return load.quantity * (load.power_w or 0.0)


def ac_running_w(load: Load) -> float:
    """Power at the inverter's socket while the load runs. [W]"""
    return running_w(load) / (load.adapter_efficiency or 1.0)


def together_w(rows: Iterable[tuple[str | None, float]]) -> float:
    """Sum of powers that may run at once: of a group that alternates only the largest. [W]"""
    groups: dict[str, float] = {}
    total = 0.0
    for group, power_w in rows:
        if group is None:
            total += power_w
        else:
            groups[group] = max(groups.get(group, 0.0), power_w)
    return total + sum(groups.values())


def curve_of(inverter: Inverter) -> LossCurve | None:
    """Loss curve from the three efficiencies, with the idle draw as typed; None for a single efficiency."""
    if inverter.efficiency_10 is None or inverter.efficiency_50 is None or inverter.efficiency_100 is None:
        return None
    curve = loss_coefficients(inverter.efficiency_10, inverter.efficiency_50, inverter.efficiency_100)
    if inverter.idle_w is None:
        return curve
    return LossCurve(inverter.idle_w / inverter.rated_w, curve.k1, curve.k2)


def inverter_input_w(inverter: Inverter, ac_w: float) -> float:
    """DC power the inverter takes to deliver ``ac_w``. [W]"""
    curve = curve_of(inverter)
    if curve is None:
        return ac_w / (inverter.efficiency or 1.0)
    return dc_power_w(ac_w, inverter.rated_w, curve)


def inverter_design_w(rig: Rig, inverter: Inverter) -> float:
    """DC power that its conductors must carry: at rated output, or at its loads where they are more. [W]"""
    loads = [load for load in rig.loads if load.fed_by == inverter.id]
    ac_w = together_w((load.alternates_with, ac_running_w(load)) for load in loads)
    return inverter_input_w(inverter, max(ac_w, inverter.rated_w))


def converter_design_w(rig: Rig, converter: Converter) -> float:
    """DC power at its input: at rated output, or at its loads where they are more or no rating is stated. [W]"""
    loads = [load for load in rig.loads if load.fed_by == converter.id]
    out_w = together_w((load.alternates_with, running_w(load)) for load in loads)
    return max(out_w, converter.rated_w or 0.0) / converter.efficiency


def start_powers_w(rig: Rig, leaf: Leaf) -> list[tuple[float, float]]:
    """Power at the end of a run, and for how long, while each load there or behind its inverter or converter starts.

    All appliances of a row start together; everything else there runs. [W, s]
    """
    inverter = next((one for one in rig.inverters if one.id == leaf.id), None)
    converter = next((one for one in rig.converters if one.id == leaf.id), None)
    loads = [load for load in rig.loads if load.id == leaf.id or load.fed_by == leaf.id]
    found = []
    for load in loads:
        if not load.starting_power_w or not load.starting_s:
            continue
        others_w = sum(ac_running_w(one) for one in loads if one is not load)
        starting_w = others_w + load.quantity * load.starting_power_w / (load.adapter_efficiency or 1.0)
        if inverter:
            starting_w = inverter_input_w(inverter, starting_w)
        elif converter:
            starting_w /= converter.efficiency
        found.append((starting_w, load.starting_s))
    return found
