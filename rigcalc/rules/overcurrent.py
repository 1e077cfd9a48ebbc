"""Rules on the rating of each protective device: between what the load needs and what the conductor allows."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from rigcalc.model.edit import change
from rigcalc.rules.finding import Finding
from rigcalc.rules.parts import rig_run, run_study, supply_devices, titled, where
from rigcalc.rules.search import larger_thinnest, new_device, other_classes, other_ratings, ratings_of
from rigcalc.rules.words import RIG, apart, found, listed, not_stated, quantity
from rigcalc.study import Study
from rigcalc.study.network_results import CircuitStudy
from rigcalc.study.overcurrent import CONTINUOUS_SHARE
from rigcalc.tables.design_rules import design_limit, design_rule

_MAKER = {"source": "the maker's largest fuse, as stated in the rig", "locator": "", "status": "primary"}
_NOISE = 1 + 1e-9  # 24 A / 0.8 counts as 30 A


def _conductor_limit_a(study: Study, one: CircuitStudy) -> tuple[float, str] | None:
    """The largest device on the thinnest conductor, and that conductor's size."""
    check = run_study(study, one.thinnest).choice if one.thinnest else None
    return None if check is None or check.fuse_limit_a is None else (check.fuse_limit_a, check.size)


def p03_not_above(study: Study) -> Iterator[Finding]:
    """A stated rating against what its own conductor and its appliances allow."""
    clause, unread = study.rule_set.clause("fuse"), list[str]()
    for one in supply_devices(study):
        if one.rating_a is None:
            continue
        limit = _conductor_limit_a(study, one)
        if limit is None:
            unread.append(one.circuit_id)
        elif one.rating_stated and one.thinnest == one.run_id and one.rating_a > limit[0] * _NOISE:
            has, most = apart(study, one.rating_a, limit[0], "a")
            sentence = f"{where(study, one)} is {has}; {limit[1]} allows {most}. The conductor may burn first."
            cures = other_ratings(study, one)
            yield found(study, "P03", one.circuit_id, sentence, has, f"at most {most}", by=clause, candidates=cures)
        yield from _appliances(study, one, one.rating_a)
    if unread:
        sentence = f"What {listed(unread, 'devices')} may be at most is not known: the ampacity behind was not read."
        yield not_stated(study, "P03", RIG, sentence, by=clause)


def _appliances(study: Study, one: CircuitStudy, rating_a: float) -> Iterator[Finding]:
    """Appliances whose maker asks for a smaller fuse than the nearest one before them."""
    nearest = {rig_run(study, run_id).to_id for run_id in one.runs}
    for load in study.rig.loads:
        if load.id not in nearest or load.max_fuse_a is None or not one.rating_stated:
            continue
        if rating_a > load.max_fuse_a * _NOISE:
            has, most = apart(study, rating_a, load.max_fuse_a, "a")
            sentence = f"{where(study, one)} is {has}; the maker of {load.name} allows {most} at most."
            by, cures = replace(design_rule("P03"), **_MAKER), other_ratings(study, one)
            yield found(study, "P03", one.circuit_id, sentence, has, f"at most {most}", by=by, candidates=cures)


def p04_carries(study: Study) -> Iterator[Finding]:
    """A rating 1.25 times the continuous current, and no start long enough to open it."""
    for one in supply_devices(study):
        if one.rating_a is None:
            continue
        if one.continuous_a > CONTINUOUS_SHARE * one.rating_a * _NOISE:
            has, least = apart(study, one.rating_a, one.continuous_a / CONTINUOUS_SHARE, "a")
            flows = quantity(study, one.continuous_a, "a")
            sentence = f"{where(study, one)} is {has} and carries {flows} for hours: it would open in normal use."
            cures = other_ratings(study, one)
            yield found(study, "P04", one.circuit_id, sentence, has, f"at least {least}", candidates=cures)
        if one.start_opens:
            has = quantity(study, one.rating_a, "a")
            sentence = f"{where(study, one)}, {has}, may open at a start on it: the start lasts longer than it holds."
            limit, cures = "holds through each start", other_ratings(study, one)
            yield found(study, "P04", one.circuit_id, sentence, f"{has}, opens on a start", limit, candidates=cures)


def p05_window(study: Study) -> Iterator[Finding]:
    """A standard rating lies between what the load needs and what conductor, appliance and holder allow."""
    for one in supply_devices(study):
        if one.most_a is None and one.rating_a is not None:
            continue
        most_a = float("inf") if one.most_a is None else one.most_a
        if any(one.least_a <= rating_a * _NOISE and rating_a <= most_a * _NOISE for rating_a in _tried(one)):
            continue
        least = quantity(study, one.least_a, "a")
        edge = f"{quantity(study, most_a, 'a')} at most ({one.most_because})"
        most = "none is made so large" if one.most_a is None else edge
        sentence = f"No rating fits {where(study, one)}: the load needs {least} or more, and {most}."
        cures = (*larger_thinnest(study, one), *other_classes(one))
        limit = f"from {least}, {most}"
        yield found(study, "P05", one.circuit_id, sentence, "no rating fits", limit, candidates=cures)


def _tried(one: CircuitStudy) -> tuple[float, ...]:
    stated = (one.rating_a,) if one.rating_a is not None and one.rating_stated else ()
    return (*ratings_of(one), *stated)


def p06_reduction(study: Study) -> Iterator[Finding]:
    """Where a conductor gets thinner than the one the device is in, the device protects the thinner one too."""
    for one in supply_devices(study):
        limit = _conductor_limit_a(study, one)
        if one.rating_a is None or limit is None or one.thinnest == one.run_id or not one.rating_stated:
            continue
        if one.rating_a > limit[0] * _NOISE:
            thin = run_study(study, one.thinnest or "")
            has, most = apart(study, one.rating_a, limit[0], "a")
            sentence = (
                f"Behind {where(study, one)}, {has}, {titled(thin)} is only {limit[1]}, which allows {most}. "
                "A fault there may burn the conductor before the device opens."
            )
            by, cures = study.rule_set.clause("fuse"), (*new_device(study, thin.run_id), *other_ratings(study, one))
            yield found(study, "P06", one.circuit_id, sentence, has, f"at most {most}", by=by, candidates=cures)


def p12_nearer_first(study: Study) -> Iterator[Finding]:
    """Of two devices in line the nearer one is small enough to open first; where classes differ nothing is said."""
    ratio, limit = design_limit("P12", "ratio").value, design_limit("P12", "ratio")
    for one in supply_devices(study):
        before = _device_before(study, one)
        if before is None or one.rating_a is None or before.rating_a is None or before.device_class != one.device_class:
            continue
        if before.rating_a * _NOISE >= ratio * one.rating_a:
            continue
        has, most = quantity(study, one.rating_a, "a"), quantity(study, before.rating_a / ratio, "a")
        sentence = (
            f"A fault behind {where(study, one)}, {has}, could open {before.circuit_id} before it, "
            f"{quantity(study, before.rating_a, 'a')}, and darken everything there."
        )
        smaller = [a for a in ratings_of(one) if one.least_a <= a <= before.rating_a / ratio]
        cures = tuple((change("devices", one.circuit_id, rating_a=a),) for a in reversed(smaller))
        yield found(study, "P12", one.circuit_id, sentence, has, f"at most {most}", by=limit, candidates=cures)


def _device_before(study: Study, one: CircuitStudy) -> CircuitStudy | None:
    """The nearest device on the way before the device's own run."""
    way = run_study(study, one.run_id).way[:-1]
    return next((other for run_id in reversed(way) for other in supply_devices(study) if other.run_id == run_id), None)
