"""Rules on each protective device as a part: what it can break, its voltage, its holder and steady current."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from rigcalc.model.network import BANK
from rigcalc.rules.finding import Finding
from rigcalc.rules.parts import rig_run, source_of, supply_devices, voltages, where
from rigcalc.rules.search import other_classes, other_ratings
from rigcalc.rules.words import NO_CLAUSE, PRACTICE, RIG, apart, found, joined, listed, not_stated, quantity
from rigcalc.study import Study
from rigcalc.study.network_results import CircuitStudy
from rigcalc.study.overcurrent import CONTINUOUS_SHARE, breaker_floor_a
from rigcalc.tables import Row
from rigcalc.tables.design_rules import design_limit, design_rule
from rigcalc.tables.overcurrent import battery_aic, device_class, device_limit

_LARGE_BANK = {"source": "ABYC E-11, as quoted", "locator": NO_CLAUSE, "status": "secondary"}
_NOISE = 1 + 1e-9  # 24 A / 0.8 counts as 30 A


def p08_interrupting(study: Study) -> Iterator[Finding]:
    """What the device can break against the largest short-circuit current at it."""
    by_source, recalled = dict[str, list[str]](), list[CircuitStudy]()
    for one in supply_devices(study):
        floor_a = _asked_a(study, one)
        if one.prospective_a is None:
            by_source.setdefault(source_of(study, one.run_id), []).append(one.circuit_id)
        elif one.interrupting_a is None:
            sentence = f"What {where(study, one)} can break is not known, so whether it clears a dead short is open."
            yield not_stated(study, "P08", one.circuit_id, sentence)
        elif one.interrupting_a < floor_a and one.interrupting_a >= one.prospective_a:
            yield _below_floor(study, one, one.interrupting_a, floor_a)
        elif one.prospective_a > design_limit("P08", "warn_share").value * one.interrupting_a:
            yield _breaks_less(study, one, one.prospective_a, one.interrupting_a)
        elif one.interrupting_status.startswith("memory"):
            recalled.append(one)
    yield from _recalled(study, "P08", recalled, "What {} can break")
    names = {converter.id: converter.name for converter in study.rig.converters}
    for source, ids in by_source.items():
        which, name = listed(ids, "devices"), names.get(source, "the bank")
        sentence = f"What {name} gives into a dead short is not known: whether {which} can clear it is open."
        yield not_stated(study, "P08", source, sentence)


def _recalled(study: Study, rule: str, ones: list[CircuitStudy], what: str) -> Iterator[Finding]:
    """Devices that pass only by figures nobody read, in one finding."""
    if ones:
        sentence = f"{what.format(_which(ones))} is from memory: confirm on the maker's sheet before it counts."
        yield not_stated(study, rule, RIG, sentence)


def _which(ones: list[CircuitStudy]) -> str:
    """Devices by id, with their classes."""
    classes = joined(sorted({device_class(one.device_class or "").title for one in ones}))
    return f"{listed([one.circuit_id for one in ones], 'devices')} ({classes})"


def _asked_a(study: Study, one: CircuitStudy) -> float:
    """What a device on the bank is asked to break by the bank's cranking amperes; 0 where nothing is asked. [A]"""
    if source_of(study, one.run_id) != BANK:
        return 0.0
    return breaker_floor_a(study.rig, rig_run(study, one.run_id).from_id == BANK)


def _below_floor(study: Study, one: CircuitStudy, interrupting_a: float, floor_a: float) -> Finding:
    breaks, asked = apart(study, interrupting_a, floor_a, "a")
    cranking_a = study.rig.bank.cranking_a or 0.0
    sentence = (
        f"On a lead bank of {quantity(study, cranking_a, 'a')} cranking, {where(study, one)} is asked to break "
        f"{asked}; it can break {breaks}. It may burst instead of clearing a dead short."
    )
    if one.interrupting_status.startswith("memory"):
        sentence += " What it can break is from memory: take the figure printed on it."
    row: Row = battery_aic(study.rig.system_v, cranking_a) or replace(design_rule("P08"), **_LARGE_BANK)
    limit, cures = f"at least {asked}", other_classes(one)
    return found(study, "P08", one.circuit_id, sentence, breaks, limit, by=row, candidates=cures)


def _breaks_less(study: Study, one: CircuitStudy, prospective_a: float, interrupting_a: float) -> Finding:
    short, breaks = apart(study, prospective_a, interrupting_a, "a")
    passed = prospective_a > interrupting_a
    ending = "It may burst instead of clearing it." if passed else "Little is left in hand."
    sentence = f"A dead short at {where(study, one)} would reach about {short}; it can break {breaks}. {ending}"
    if one.interrupting_status.startswith("memory"):
        sentence += " What it can break is from memory: take the figure printed on it."
    warned = quantity(study, design_limit("P08", "warn_share").value * interrupting_a, "a")
    severity, limit = ("stop", f"at most {breaks}") if passed else ("warning", f"up to {warned} without a warning")
    cures = other_classes(one)
    return found(study, "P08", one.circuit_id, sentence, short, limit, severity=severity, candidates=cures)


def p10_voltage(study: Study) -> Iterator[Finding]:
    """The device's DC voltage rating against the nominal voltage, and against the highest any charger applies."""
    stated = {device.id for device in study.rig.devices if device.voltage_rating_v}
    recalled = []
    for one in study.network.circuits:
        if one.voltage_rating_v is None:
            sentence = f"The DC voltage {where(study, one)} is made for is not stated; a DC arc does not end by itself."
            yield not_stated(study, "P10", one.circuit_id, sentence)
            continue
        nominal_v, highest_v = voltages(study, one.run_id)
        if one.voltage_rating_v < highest_v:
            yield _voltage_low(study, one, one.voltage_rating_v, nominal_v, highest_v, one.circuit_id in stated)
        elif one.circuit_id not in stated and _voltage_recalled(one):
            recalled.append(one)
    yield from _recalled(study, "P10", recalled, "The DC voltage {} is made for")


def _voltage_recalled(one: CircuitStudy) -> bool:
    row = device_limit(one.device_class or "", "max_dc_v")
    return row is not None and row.from_memory


def _voltage_low(
    study: Study, one: CircuitStudy, rating_v: float, nominal_v: float, highest_v: float, stated: bool
) -> Finding:
    law = rating_v < nominal_v
    has, need = apart(study, rating_v, nominal_v if law else highest_v, "v")
    which = "the nominal voltage" if law else "the highest charging voltage"
    sentence = f"{where(study, one)} is made for {has}, less than {which} of {need}: it may not put out its arc."
    if not stated and _voltage_recalled(one):
        sentence += " Its voltage is from memory: take the figure printed on it."
    rule = design_rule("P10")
    by = rule if law else replace(rule, source=PRACTICE, locator=NO_CLAUSE, status="memory")
    limit, cures = f"at least {need}, {which}", other_classes(one)
    return found(study, "P10", one.circuit_id, sentence, has, limit, by=by, candidates=cures)


def p13_steady(study: Study) -> Iterator[Finding]:
    """A holder made for the fuse in it, and a continuous current the class stands in its surroundings."""
    holders = {device.id: device.holder_rating_a for device in study.rig.devices}
    unread = [one for one in supply_devices(study) if one.rating_a is not None and not one.rerating_read]
    if unread:
        which = _which(unread)
        sentence = f"What {which} can carry in the heat there was not read: take it from the maker's sheet."
        yield not_stated(study, "P13", RIG, sentence)
    for one in supply_devices(study):
        if one.rating_a is None or one.device_class is None:
            continue
        usual = device_class(one.device_class).holder_limit_a
        holder_a = usual if holders[one.circuit_id] is None else holders[one.circuit_id]
        if holder_a is not None and one.rating_a > holder_a * _NOISE:
            yield _holder(study, one, one.rating_a, holder_a)
        elif _too_steady(one, one.rating_a):
            yield _steady(study, one, one.rating_a)


def _holder(study: Study, one: CircuitStudy, rating_a: float, holder_a: float) -> Finding:
    has, most = apart(study, rating_a, holder_a, "a")
    sentence = f"{where(study, one)} is {has}; its holder is made for {most} and can melt while the fuse stays whole."
    cures = (*other_ratings(study, one), *other_classes(one))
    return found(study, "P13", one.circuit_id, sentence, f"{has} fuse", f"holder for {most}", candidates=cures)


def _too_steady(one: CircuitStudy, rating_a: float) -> bool:
    """Above the share the class stands, while 1.25 times the current is kept: there the class or the heat decides."""
    allowed_a = one.continuous_share * one.rerating * rating_a
    return allowed_a * _NOISE < one.continuous_a <= CONTINUOUS_SHARE * rating_a * _NOISE


def _steady(study: Study, one: CircuitStudy, rating_a: float) -> Finding:
    has, most = apart(study, one.continuous_a, one.continuous_share * one.rerating * rating_a, "a")
    share = quantity(study, 100 * one.continuous_share, "percent", 2)
    heat = f" and {quantity(study, 100 * one.rerating, 'percent', 2)} of that in its heat" if one.rerating < 1 else ""
    sentence = (
        f"{where(study, one)}, {quantity(study, rating_a, 'a')}, carries {has} for hours; its class stands {share} of "
        f"the rating{heat}, {most}. Its holder would run hot."
    )
    row = device_limit(one.device_class or "", "continuous_share")
    cures = (*other_ratings(study, one), *other_classes(one))
    return found(study, "P13", one.circuit_id, sentence, has, f"at most {most}", by=row, candidates=cures)
