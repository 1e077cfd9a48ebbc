"""The settled design as results: runs, circuits, blocks, and what nothing protects or reaches."""

from __future__ import annotations

from rigcalc.model import Device, Load, Rig, Run
from rigcalc.model.network import BANK
from rigcalc.study.conductors import check, choose, loop_ohm
from rigcalc.study.network_results import BlockStudy, CircuitStudy, NetworkStudy, RunMore, RunStudy, SizeCheck
from rigcalc.study.overcurrent import Protection, start_opens
from rigcalc.study.results import Later
from rigcalc.study.run_workings import circuit_workings, factor_workings, run_workings
from rigcalc.study.settle import Design, Pick, next_sizes, settle
from rigcalc.study.tree import start_powers_w
from rigcalc.tables.conductors import ConductorSize, conductor_sizes
from rigcalc.tables.rule_sets import RuleSet
from rigcalc.tables.size_text import parse_size


def network_study(rig: Rig, rules: RuleSet) -> NetworkStudy:
    """Conductors and protection of the whole rig by one rule set."""
    design = settle(rig, rules)
    runs = {run.id: _run(design, run) for run in design.tree.order}
    circuits = tuple(_circuit(design, device, runs) for device in rig.devices)
    return NetworkStudy(
        rule_set=rules.id,
        available=bool(rules.ampacity_tables or rules.members),
        runs=tuple(runs.values()),
        circuits=circuits,
        blocks=tuple(_block(design, block.id, circuits) for block in rig.blocks),
        unprotected=tuple(run.id for run in rig.runs if design.owners[run.id] is None and not _starter_feed(rig, run)),
        unconnected=_unconnected(rig, design),
        fault=design.fault[1],
        node_v={BANK: rig.bank.lowest_working_v} | {run.to_id: design.end_v[run.id] for run in rig.runs},
    )


def _starter_feed(rig: Rig, run: Run) -> bool:
    """A cranking feed ends at its motor; one that feeds anything else is a feeder like any other."""
    return run.purpose == "cranking" and run.to_id in {load.id for load in rig.loads}


def _unconnected(rig: Rig, design: Design) -> tuple[str, ...]:
    """What takes power but hangs on nothing; loads behind an inverter need no run of their own."""
    needing = [load.id for load in rig.loads if load.feed == "direct"]
    needing += [one.id for one in rig.inverters] + [one.id for one in rig.converters]
    return tuple(node for node in needing if node not in design.tree.reached)


def _run(design: Design, run: Run) -> RunStudy:
    pick, limit = design.picks[run.id], design.limits[run.id]
    stated, ambiguous = parse_size(run.conductor) if run.conductor else (None, ())
    smaller, _ = next_sizes(pick.size)
    below = _tried(design, pick, smaller)
    unknown = tuple(leaf.id for leaf in design.tree.below[run.id] if not leaf.known)
    solved = run.id not in design.unsolved
    way = design.tree.ways[run.id]
    source_v, _ = design.source_v(run.id)
    start_v = design.end_v[way[-2].id] if len(way) > 1 else source_v
    return RunStudy(
        run_id=run.id,
        name=run.name,
        way=tuple(one.id for one in way),
        loads=_fed(design, run),
        use=limit.use,
        design_current_a=design.current_a[run.id],
        source_v=start_v,
        load_v=design.end_v[run.id],
        solved=solved,
        largest_power_w=None if solved else _largest_power_w(design, way, source_v),
        drop_limit_percent=limit.percent,
        drop_limit_source=limit.source,
        drop_limit_status=limit.status,
        stated=run.conductor if stated else None,
        ambiguous=ambiguous,
        unknown=unknown,
        choice=None if unknown and not run.conductor else pick.check,
        smaller=below if pick.check else _tried(design, pick, pick.size),
        decided_by=_decided_by(stated is not None, below),
        more=Later(lambda: _more(design, pick)),
    )


def _more(design: Design, pick: Pick) -> RunMore:
    """What the run's own page shows beside its choice."""
    return RunMore(
        larger=_tried(design, pick, next_sizes(pick.size)[1]),
        other_series=_other_series(design, pick),
        factors=factor_workings(design, pick),
        workings=run_workings(design, pick),
    )


def _largest_power_w(design: Design, way: tuple[Run, ...], source_v: float) -> float:
    """V²/4R: the most the way passes, at half the source voltage."""
    ohms = sum(loop_ohm(run, design.picks[run.id].size, design.picks[run.id].temperature_c) for run in way)
    return source_v**2 / (4 * ohms)


def _tried(design: Design, pick: Pick, size: ConductorSize | None) -> SizeCheck | None:
    return None if size is None else check(size, pick.demand, design.rules)


def _other_series(design: Design, pick: Pick) -> SizeCheck | None:
    """The smallest size of the other series that passes the same limits on its own figures."""
    other = "mm2" if pick.size.series == "AWG" else "AWG"
    like = min(conductor_sizes(other), key=lambda size: abs(size.area_mm2 - pick.size.area_mm2))
    found = choose(pick.demand, design.rules, other, like)
    return None if found is None or found.fails else found


def _decided_by(stated: bool, smaller: SizeCheck | None) -> str:
    if stated:
        return "stated"
    if smaller is None or not smaller.fails or smaller.fails == ("not available",):
        return "smallest of the table"
    return smaller.fails[0]


def _circuit(design: Design, device: Device, studied: dict[str, RunStudy]) -> CircuitStudy:
    run = next(one for one in design.rig.runs if one.id == device.run_id)
    if device.conductor == "negative":
        return _in_return(design, device, run)
    kept = design.devices[device.id]
    runs = tuple(one.id for one in design.tree.order if design.owners[one.id] is device)
    most_a, because, thinnest = _most(design, device, runs)
    rating_a = kept.rating_a if kept.rating_stated or _inside(kept, most_a, studied, runs) else None
    limit = distance_limit(design, run, device)
    return CircuitStudy(
        circuit_id=device.id, run_id=run.id, runs=runs, loads=_fed(design, run), conductor=device.conductor,
        continuous_a=design.current_a[run.id],
        least_a=kept.least_a, most_a=most_a, most_because=because, thinnest=thinnest,
        rating_a=rating_a, rating_stated=kept.rating_stated, rating_status=kept.rating_status,
        device_class=kept.class_id, class_stated=kept.class_stated,
        continuous_share=kept.share, rerating=kept.rerating, rerating_read=kept.rerating_read,
        voltage_rating_v=kept.voltage_rating_v,
        interrupting_a=kept.interrupting_a, interrupting_status=kept.interrupting_status,
        prospective_a=design.prospective_a.get(device.id),
        distance_m=device.distance_m, distance_limit_m=limit[0], distance_source=limit[1],
        start_opens=start_opens(kept.class_id, rating_a, _starts(design, run)) if rating_a else None,
        grown=any(studied[one].decided_by == "fuse" for one in runs),
        work_out=Later(lambda: circuit_workings(design, device, kept, most_a, because)),
    )  # fmt: skip


def _fed(design: Design, run: Run) -> tuple[str, ...]:
    return tuple(leaf.id for leaf in design.tree.below[run.id])


def _inside(kept: Protection, most_a: float | None, studied: dict[str, RunStudy], runs: tuple[str, ...]) -> bool:
    """Whether the rating that was looked up lies in a window whose both edges are known."""
    if kept.rating_a is None or most_a is None or any(studied[one].unknown for one in runs):
        return False
    return kept.rating_a <= most_a


def _in_return(design: Design, device: Device, run: Run) -> CircuitStudy:
    """A device in the return conductor protects nothing; it is kept so that a rule can say so."""
    return CircuitStudy(
        circuit_id=device.id, run_id=run.id, runs=(), loads=_fed(design, run),
        conductor=device.conductor, continuous_a=design.current_a[run.id], least_a=0.0, most_a=None, most_because="",
        thinnest=None, rating_a=device.rating_a, rating_stated=device.rating_a is not None,
        rating_status="stated in the rig", device_class=device.device_class,
        class_stated=device.device_class is not None, continuous_share=0.8, rerating=1.0, rerating_read=True,
        voltage_rating_v=device.voltage_rating_v, interrupting_a=device.interrupting_a,
        interrupting_status="stated in the rig", prospective_a=None, distance_m=device.distance_m,
        distance_limit_m=None, distance_source="", start_opens=None, grown=False,
    )  # fmt: skip


def _most(design: Design, device: Device, runs: tuple[str, ...]) -> tuple[float | None, str, str | None]:
    """Upper edge of the window, what sets it, and the run of the thinnest conductor."""
    edges: list[tuple[float, str]] = []
    thinnest, least_a = None, None
    for run_id in runs:
        pick = design.picks[run_id]
        limit_a = pick.check.fuse_limit_a if pick.check else None
        if limit_a is None:
            return None, f"what {pick.size.name} in {run_id} may carry is not available from a read source", None
        if least_a is None or limit_a < least_a:
            thinnest, least_a = run_id, limit_a
    if least_a is not None:
        edges.append((least_a, f"conductor of {thinnest}, {design.picks[thinnest or ''].size.name}"))
    edges += [
        (load.max_fuse_a, f"the maker's largest fuse for {load.name}")
        for load in _loads_at_the_end_of(design, runs)
        if load.max_fuse_a is not None
    ]
    holder_a = design.devices[device.id].holder_a
    if holder_a is not None:
        edges.append((holder_a, "the fuse holder"))
    if least_a is None:
        return None, "not available from a read source", None
    most_a, because = min(edges)
    return most_a, because, thinnest


def _loads_at_the_end_of(design: Design, runs: tuple[str, ...]) -> list[Load]:
    ends = (design.picks[run_id].demand.run.to_id for run_id in runs)
    return [design.loads[node] for node in ends if node in design.loads]


def distance_limit(design: Design, run: Run, device: Device) -> tuple[float | None, str]:
    """How far from its source the rule set lets the device sit."""
    situation = "general"
    if run.purpose == "charging":
        situation = "charging_source"
    elif run.sheathed:
        situation = "battery_sheathed" if run.from_id == BANK else "sheathed"
    row = design.rules.distance(situation)
    if row is None:
        return None, "not available from a read source"
    return row.distance_m, f"{row.source} {row.locator}"


def _starts(design: Design, run: Run) -> list[tuple[float, float]]:
    """Current while each load on the run starts on top of all others, and for how long."""
    starts = []
    for leaf in design.tree.below[run.id]:
        volts = design.end_v[design.tree.feeding[leaf.id].id]
        for power_w, seconds in start_powers_w(design.rig, leaf):
            extra_a = (power_w - leaf.power_w) / volts
            starts.append((design.current_a[run.id] + max(0.0, extra_a), seconds))
    return starts


def _block(design: Design, block_id: str, circuits: tuple[CircuitStudy, ...]) -> BlockStudy:
    block = next(one for one in design.rig.blocks if one.id == block_id)
    feeder = design.tree.feeding.get(block_id)
    owner = design.owners[feeder.id] if feeder else None
    circuit = next((one for one in circuits if owner and one.circuit_id == owner.id), None)
    return BlockStudy(
        block_id=block_id,
        name=block.name,
        load_a=design.current_a[feeder.id] if feeder else 0.0,
        rating_a=block.rating_a,
        feeder_circuit=circuit.circuit_id if circuit else None,
        feeder_rating_a=circuit.rating_a if circuit else None,
    )
