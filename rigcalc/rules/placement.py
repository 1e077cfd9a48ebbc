"""Rules on where protection sits: every source edge has a device, near its source, in the right conductor."""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.model.edit import change
from rigcalc.model.network import BANK
from rigcalc.rules.finding import Finding
from rigcalc.rules.parts import rig_run, run_study, source_of, supply_devices, titled, where
from rigcalc.rules.search import new_device, ratings_of
from rigcalc.rules.words import RIG, Candidates, apart, found, joined, listed, not_stated, quantity
from rigcalc.study import Study
from rigcalc.study.network_results import CircuitStudy, RunStudy


def p01_protected(study: Study) -> Iterator[Finding]:
    """Every conductor fed from a source has a device in it or before it."""
    for one in _first_unprotected(study, sense=False):
        below = [run_id for run_id in study.network.unprotected if one.run_id in run_study(study, run_id).way[:-1]]
        also = f", nor has what hangs on it ({joined(below)})" if below else ""
        sentence = (
            f"{titled(one)} has no fuse or breaker before it or in it{also}. "
            "A chafed conductor would carry all the source can give."
        )
        cures = new_device(study, one.run_id)
        yield found(study, "P01", one.run_id, sentence, "no device", "a device", candidates=cures)


def p07_sense(study: Study) -> Iterator[Finding]:
    """Thin conductors for sensing and monitoring are protected like any other."""
    for one in _first_unprotected(study, sense=True):
        switched = study.rig.main_switch_run in one.way
        live = "is live whenever the main switch is on" if switched else "is always live"
        flows = quantity(study, one.design_current_a, "a")
        carries = f"carries {flows}, and" if one.design_current_a > 0 else "carries next to nothing, but"
        sentence = (
            f"{titled(one)} {live} and has no fuse. It {carries} a short in it would "
            "draw all the source can give: put a small fuse at the source."
        )
        cures = new_device(study, one.run_id)
        yield found(study, "P07", one.run_id, sentence, "no device", "a device", candidates=cures)


def _first_unprotected(study: Study, sense: bool) -> Iterator[RunStudy]:
    """Unprotected runs whose way holds no other unprotected run before them."""
    bare = set(study.network.unprotected)
    for run_id in study.network.unprotected:
        one = run_study(study, run_id)
        if not bare.intersection(one.way[:-1]) and (rig_run(study, run_id).purpose == "sense") is sense:
            yield one


def p02_distance(study: Study) -> Iterator[Finding]:
    """Little conductor lies between a source and its device."""
    clause, unread = study.rule_set.clause("distance"), list[str]()
    for one in supply_devices(study):
        if one.distance_limit_m is None:
            unread.append(one.circuit_id)
        elif one.distance_m is None:
            limit = f"at most {quantity(study, one.distance_limit_m, 'm')}"
            sentence = f"How much conductor lies between the source and {where(study, one)} is not stated."
            yield not_stated(study, "P02", one.circuit_id, sentence, limit, by=clause)
        elif one.distance_m > one.distance_limit_m:
            yield _too_far(study, one, one.distance_m, one.distance_limit_m)
    if unread:
        which = listed(unread, "devices")
        sentence = f"How far {which} may sit from the source was not read in these rules: keep the way short."
        yield not_stated(study, "P02", RIG, sentence, by=clause)


def _too_far(study: Study, one: CircuitStudy, distance_m: float, limit_m: float) -> Finding:
    has, most = apart(study, distance_m, limit_m, "m")
    sentence = (
        f"{has} of conductor lies between the source and {where(study, one)}; these rules allow {most}. "
        "That piece is protected by nothing."
    )
    nearer = (change("devices", one.circuit_id, distance_m=limit_m),)
    sheathed = () if rig_run(study, one.run_id).sheathed else ((change("runs", one.run_id, sheathed=True),),)
    clause = study.rule_set.clause("distance")
    return found(
        study, "P02", one.circuit_id, sentence, has, f"at most {most}", by=clause, candidates=(nearer, *sheathed)
    )


def p15_return(study: Study) -> Iterator[Finding]:
    """No device opens the return alone: what it protects would stay live."""
    covered = {one.run_id for one in study.network.circuits if one.conductor == "positive"}
    for one in study.network.circuits:
        if one.conductor == "negative" and one.run_id not in covered:
            run = rig_run(study, one.run_id)
            before = next((other for other in supply_devices(study) if run.id in other.runs), None)
            only = f"the nearest device in its supply is {where(study, before)}" if before else "nothing in its supply"
            sentence = (
                f"{one.circuit_id} sits in the return of {run.id} ({run.name}) and {only}. "
                f"When {one.circuit_id} opens, everything on the run stays live."
            )
            cure = ((change("devices", one.circuit_id, conductor="positive"),),)
            yield found(study, "P15", one.circuit_id, sentence, "in the return", "in the supply", candidates=cure)


def p17_block(study: Study) -> Iterator[Finding]:
    """A distribution block carries the sum of its branches, and its feeder device holds it to that."""
    for block in study.network.blocks:
        rating_a, feeder_a = block.rating_a, block.feeder_rating_a
        if rating_a is None:
            sentence = f"The current {block.name} is made for is not stated."
            yield not_stated(study, "P17", block.block_id, sentence)
        elif block.load_a > rating_a:
            has, most = apart(study, block.load_a, rating_a, "a")
            sentence = f"The branches of {block.name} take {has} together; it is made for {most}. Split them."
            yield found(study, "P17", block.block_id, sentence, has, f"at most {most}", severity="stop")
        elif feeder_a is not None and feeder_a > rating_a:
            has, most = apart(study, feeder_a, rating_a, "a")
            sentence = (
                f"{block.name} is made for {most}, and {block.feeder_circuit} before it lets {has} through: "
                "it can overheat while the fuse holds."
            )
            cures = _smaller_feeder(study, block.feeder_circuit or "", rating_a)
            limit = f"feeder device at most {most}"
            yield found(study, "P17", block.block_id, sentence, f"{has} before it", limit, candidates=cures)


def _smaller_feeder(study: Study, circuit_id: str, most_a: float) -> Candidates:
    """Feeder ratings the block stands, largest first; the study says whether the load and its starts pass."""

    one = next(circuit for circuit in study.network.circuits if circuit.circuit_id == circuit_id)
    fitting = [rating_a for rating_a in ratings_of(one) if one.least_a <= rating_a <= most_a]
    return tuple((change("devices", circuit_id, rating_a=rating_a),) for rating_a in reversed(fitting))


def p14_main_switch(study: Study) -> Iterator[Finding]:
    """A switch cuts the bank off; what stays live before it, or past it, is listed."""
    switch, from_bank = study.rig.main_switch_run, [run for run in study.rig.runs if run.from_id == BANK]
    if not from_bank:
        return
    if switch is None:
        sentence = "In which run the main switch sits is not stated, so whether anything cuts the bank off is open."
        yield not_stated(study, "P14", RIG, sentence)
        return
    way = run_study(study, switch).way
    live = [
        one for one in study.network.runs if source_of(study, one.run_id) == BANK and not _switched(one, switch, way)
    ]
    if live:
        named = listed([one.run_id for one in live], "runs")
        sentence = f"The main switch in {switch} does not cut off {named}: live at all times, also with the rig stored."
        yield found(study, "P14", RIG, sentence, f"{len(live)} always live", "known and meant", severity="info")


def _switched(one: RunStudy, switch: str, way: tuple[str, ...]) -> bool:
    return switch in one.way or one.run_id in way
