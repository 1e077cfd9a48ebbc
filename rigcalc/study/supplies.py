"""Two ways to supply one load: as it is wired, and by a pair of its own from the battery bus with an inline fuse.

Both ways are settled with the whole rig around them and judged alike. Worked out when asked for one load, not with
the study.
"""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.errors import need
from rigcalc.formulas.conductor import copper_kg
from rigcalc.model import Device, Load, Rig, Run
from rigcalc.model.network import BANK
from rigcalc.study import Study
from rigcalc.study.network import distance_limit
from rigcalc.study.network_results import Supply, SupplyWay
from rigcalc.study.results import NOT_AVAILABLE
from rigcalc.study.settle import Design, Pick, settle
from rigcalc.tables.overcurrent import device_class
from rigcalc.tables.size_text import parse_size
from rigcalc.units import show

ENDS_OF_A_RUN, CONTACTS_OF_A_FUSE = 4, 2
COUNTED = "Joints: both ends of each conductor out and back, and both contacts of each fuse, from the bank on."
COPPER = "Copper: of the conductors that feed this load alone."
_LAID_ALIKE = {
    "insulation_c", "terminal_c", "ambient_c", "engine_space", "installation", "sheathed", "drop_limit_percent",
}  # fmt: skip
_NOISE = 1 + 1e-9


def supply(study: Study, load_id: str) -> Supply:
    """Both ways of supplying a load that is fed directly.

    Parameters
    ----------
    study : Study
        The study of the rig. [-]
    load_id : str
        A load of the rig with feed "direct". [-]

    Returns
    -------
    Supply
        ``through_block`` is None where no run reaches the load; ``own_pair`` is None where no length of it is known.
    """
    load = next((one for one in study.rig.loads if one.id == load_id), None)
    if load is None or load.feed != "direct":
        need(False, "Load", load_id, "the id of a load that is fed directly")
    assert load is not None
    wired = settle(study.rig, study.rule_set)
    way = wired.tree.ways[wired.tree.feeding[load_id].id] if load_id in wired.tree.reached else ()
    through = _way(wired, way, "As wired", ()) if way else None
    start = _battery_bus(wired, way)
    lengths = _lengths(load, way, start)
    if lengths is None:
        return Supply(load_id, through, None)
    virtual, assumed = _with_pair(wired, load, way, start, lengths[:2])
    design = settle(virtual, study.rule_set)
    pair = design.tree.ways[design.tree.feeding[load_id].id]
    own = _way(design, pair, f"A pair of its own from {_name(study.rig, start)}", (lengths[2], assumed))
    return Supply(load_id, through, own)


def _name(rig: Rig, node: str) -> str:
    return f"{node} ({names[node]})" if node in (names := _meeting(rig)) else "the bank"


def _meeting(rig: Rig) -> dict[str, str]:
    """Names of the nodes where runs meet."""
    return {bus.id: bus.name for bus in rig.buses} | {block.id: block.name for block in rig.blocks}


def _battery_bus(design: Design, way: tuple[Run, ...]) -> str:
    """The first bus or block behind the main fuse, on the load's way or, not wired yet, of the rig; else the bank."""
    meeting = _meeting(design.rig).keys()
    fused = [run for run in way or design.tree.order if run.id in design.tree.devices]
    if way:
        return fused[0].to_id if fused and fused[0].to_id in meeting else BANK
    return next((run.to_id for run in fused if run.from_id == BANK and run.to_id in meeting), BANK)


def _lengths(load: Load, way: tuple[Run, ...], start: str) -> tuple[float, float, str] | None:
    """Length out and back of the pair, and where they come from."""
    out_m, back_m = load.own_pair_out_m, load.own_pair_back_m
    if out_m is not None:
        said = "" if back_m is not None else ", the way back taken as long as the way out"
        return out_m, out_m if back_m is None else back_m, f"Lengths as stated for it{said}."
    starts = [run.from_id for run in way]
    if start not in starts:
        return None
    behind = way[starts.index(start) :]
    sum_out_m = sum(run.length_out_m for run in behind)
    sum_back_m = sum(run.length_out_m if run.length_back_m is None else run.length_back_m for run in behind)
    return sum_out_m, sum_back_m, "Lengths not stated: the sum of the wired way from there on."


def _with_pair(
    design: Design, load: Load, way: tuple[Run, ...], start: str, lengths_m: tuple[float, float]
) -> tuple[Rig, str]:
    """The rig with the load's last run replaced by the pair, its fuse at the bus; and what is assumed of both."""
    rig, old = design.rig, way[-1] if way else None
    pair = Run.model_construct(  # its length may pass what a typed run may have
        id=_free(rig, "pair"),
        name=f"Own pair to {load.name}"[:80],
        from_id=start,
        to_id=load.id,
        length_out_m=lengths_m[0],
        length_back_m=lengths_m[1],
        **(old.model_dump(include=_LAID_ALIKE) if old else {}),
    )
    there = design.tree.devices.get(old.id) if old and old.from_id == start else None
    stated_m = there.distance_m if there else None
    fuse = Device(id=_free(rig, "inline"), run_id=pair.id, distance_m=0.0 if stated_m is None else stated_m)
    runs = tuple(run for run in rig.runs if run is not old)
    devices = tuple(one for one in rig.devices if old is None or one.run_id != old.id)
    laid = f"laid like {old.id}, with no other beside it" if old else "laid as nothing else is stated"
    sits = "right at its start" if stated_m is None else "where the wired one sits"
    changed = rig.model_copy(update={"runs": (*runs, pair), "devices": (*devices, fuse)})
    return changed, f"Assumed: the pair is {laid}; its fuse sits {sits}."


def _free(rig: Rig, word: str) -> str:
    taken = {part_id for _, part_id in rig.parts()}
    return next(name for name in (word, *(f"{word}{n}" for n in range(2, len(taken) + 3))) if name not in taken)


def _way(design: Design, way: tuple[Run, ...], title: str, notes: tuple[str, ...]) -> SupplyWay:
    """One settled way from the bank to the load."""
    last, switch = way[-1], design.rig.main_switch_run
    fuses = [design.tree.devices[run.id] for run in way if run.id in design.tree.devices]
    source_v, nominal_v = design.source_v(last.id)
    drop_v = None if last.id in design.unsolved else source_v - design.end_v[last.id]
    own = [_copper_kg(design.picks[run.id]) for run in way if len(design.tree.below[run.id]) == 1]
    known = [mass for mass in own if mass is not None]
    return SupplyWay(
        title=title,
        conductors=tuple(_conductor(design, run) for run in way),
        fuses=tuple(_fuse(design, device) for device in fuses),
        drop_v=drop_v,
        drop_percent=None if drop_v is None else 100 * drop_v / nominal_v,
        joints=ENDS_OF_A_RUN * len(way) + CONTACTS_OF_A_FUSE * len(fuses),
        copper_kg=sum(known) if len(known) == len(own) else None,
        always_live=None if switch is None else switch not in {run.id for run in way},
        stops=(*_of_runs(design, way), *(text for device in fuses for text in _of_fuse(design, device))),
        notes=(*notes, COUNTED, COPPER),
    )


def _conductor(design: Design, run: Run) -> str:
    check, units = design.picks[run.id].check, design.rig.units
    none = "none passes" if design.rules.ampacity_tables or design.rules.members else NOT_AVAILABLE
    back = "chassis back" if run.length_back_m is None else f"{show(run.length_back_m, 'm', units)} back"
    lengths = f"{show(run.length_out_m, 'm', units)} out, {back}"
    return f"{run.name}: {check.size if check else none}, {lengths}"


def _fuse(design: Design, device: Device) -> str:
    kept = design.devices[device.id]
    rating = "no rating fits" if kept.rating_a is None else f"{kept.rating_a:g} A"
    recalled = ", confirm on the maker's sheet" if kept.rating_status.startswith("memory") else ""
    return f"{device.id}: {rating}, {device_class(kept.class_id).title}{recalled}"


def _copper_kg(pick: Pick) -> float | None:
    """Copper out and back, a chassis left out; None where no size passes. [kg]"""
    run = pick.demand.run
    if pick.check is None:
        return None
    back = parse_size(run.return_conductor)[0] if run.return_conductor else None
    mass_back_kg = copper_kg((back or pick.size).area_mm2, run.length_back_m or 0.0)
    return copper_kg(pick.size.area_mm2, run.length_out_m) + mass_back_kg


def _of_runs(design: Design, way: tuple[Run, ...]) -> Iterator[str]:
    """What stops this way in its conductors."""
    if way[-1].id in design.unsolved:
        yield "The power does not get through with the bank low."
    for run in way:
        check = design.picks[run.id].check
        if design.owners[run.id] is None:
            yield f"Nothing protects {run.id}."
        if check is None and (design.rules.ampacity_tables or design.rules.members):
            yield f"No conductor of the tables passes on {run.id}."
        elif check is not None and check.fails and check.fails != ("not available",):
            yield f"{check.size} on {run.id} fails by {' and '.join(check.fails)}."


def _of_fuse(design: Design, device: Device) -> Iterator[str]:
    """What stops this way in one of its fuses: its rating, what it breaks, its steady current, where it sits."""
    kept, units = design.devices[device.id], design.rig.units
    run = next(one for one in design.rig.runs if one.id == device.run_id)
    short_a, current_a = design.prospective_a.get(device.id), design.current_a[run.id]
    if kept.rating_a is None:
        yield f"No rating of its class fits {device.id}."
    if short_a is not None and kept.interrupting_a is not None and short_a > kept.interrupting_a:
        breaks = show(kept.interrupting_a, "a", units)
        yield f"A dead short at {device.id} would reach about {show(short_a, 'a', units)}; it can break {breaks}."
    steady_a = min(kept.rating_a or 0.0, kept.holder_a or float("inf")) * kept.share * kept.rerating
    if kept.rating_a is not None and current_a > steady_a * _NOISE:
        has, most = show(current_a, "a", units), show(steady_a, "a", units)
        yield f"{device.id} carries {has}; it and its holder stand {most}."
    limit_m, _ = distance_limit(design, run, device)
    if limit_m is not None and device.distance_m is not None and device.distance_m > limit_m:
        has, most = show(device.distance_m, "m", units), show(limit_m, "m", units)
        yield f"{device.id} sits {has} from its source; these rules allow {most}."
