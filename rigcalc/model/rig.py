"""The whole rig: one file a person owns, everything else is computed from it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, Self

from pydantic import Field, model_validator

from rigcalc.errors import InputError
from rigcalc.model.bank import Bank
from rigcalc.model.base import Celsius, Date, Entry, Id, Name, Note
from rigcalc.model.loads import Converter, Inverter, Load
from rigcalc.model.network import BANK, Block, Bus, Device, Run
from rigcalc.tables.design_rules import design_rule

RuleSetId = Literal[
    "us_boat", "eu_small_craft", "na_vehicle", "iec_vehicle", "na_cabin", "iec_cabin", "strictest_of_all"
]  # fmt: skip
WHOLE_RIG = "rig"  # the subject of a finding about no single part
_IDS_NAMED = 40
PART_KINDS = ("day_types", "inverters", "converters", "loads", "buses", "blocks", "runs", "devices")


class DayType(Entry):
    """A kind of day that recurs: travel, camp, winter."""

    id: Id
    name: Name


class Acceptance(Entry):
    """A finding someone accepts with a reason. A stop is not accepted by it; the text stays as a note."""

    rule: Id
    subject: Id
    reason: Name
    name: Name
    date: Date


class Rig(Entry):
    """A rig file, version 1."""

    format: Literal["rigcalc-rig"] = "rigcalc-rig"
    version: Literal[1] = 1
    name: Name
    revision: Name | None = None
    date: Date | None = None
    note: Note = ""
    rule_set: RuleSetId = "na_vehicle"
    units: Literal["metric", "us"] = "metric"
    system_v: Literal[12, 24, 48] = 12
    ambient_usual_c: Celsius
    ambient_hot_c: Celsius = Field(description="Warmest air the rig is designed for")
    colour_scheme: Literal["abyc", "iso", "iec", "na_vehicle"] | None = Field(None, description="Colours of the wires")
    chassis_bond: Name | None = Field(None, description="Conductor from battery negative to chassis, as printed on it")
    main_switch_run: Id | None = Field(None, description="The run the main switch is in")
    day_types: tuple[DayType, ...] = Field((), max_length=20, fail_fast=True)
    bank: Bank
    inverters: tuple[Inverter, ...] = Field((), max_length=50, fail_fast=True)
    converters: tuple[Converter, ...] = Field((), max_length=200, fail_fast=True)
    loads: tuple[Load, ...] = Field((), max_length=500, fail_fast=True)
    buses: tuple[Bus, ...] = Field((), max_length=200, fail_fast=True)
    blocks: tuple[Block, ...] = Field((), max_length=200, fail_fast=True)
    runs: tuple[Run, ...] = Field((), max_length=1000, fail_fast=True)
    devices: tuple[Device, ...] = Field((), max_length=1000, fail_fast=True)
    accepted: tuple[Acceptance, ...] = Field((), max_length=1000, fail_fast=True)

    def parts(self) -> Iterator[tuple[str, str]]:
        """Kind and id of everything that has an id of its own."""
        yield "bank", BANK
        for kind in PART_KINDS:
            for part in getattr(self, kind):
                yield kind, part.id

    @model_validator(mode="after")
    def _whole(self) -> Self:
        if self.ambient_hot_c < self.ambient_usual_c:
            raise InputError("ambient_hot_c", self.ambient_hot_c, f"at least ambient_usual_c, {self.ambient_usual_c:g}")
        _same_voltage(self)
        kinds = _unique_ids(self)
        _references(self, kinds)
        _tree(self)
        return self


def _same_voltage(rig: Rig) -> None:
    if not 0.9 * rig.system_v <= rig.bank.nominal_v <= 1.1 * rig.system_v:
        given = f"{rig.bank.nominal_v:g} V from {rig.bank.series} units of {rig.bank.cells_per_unit} cells"
        raise InputError("Bank voltage", given, f"cells in series that make the system's {rig.system_v} V")


def _unique_ids(rig: Rig) -> dict[str, str]:
    kinds: dict[str, str] = {}
    for kind, part_id in rig.parts():
        if part_id in kinds:
            raise InputError(f"Id in {kind}", part_id, f"an id used once; {kinds[part_id]} has it too")
        kinds[part_id] = kind
    return kinds


def _references(rig: Rig, kinds: dict[str, str]) -> None:
    def check(what: str, ref: str | None, *allowed: str) -> None:
        if ref is not None and kinds.get(ref) not in allowed:
            raise InputError(what, ref, f"an id from {', '.join(allowed)}")

    for load in rig.loads:
        feeder = "converters" if load.feed == "converter" else "inverters"
        check(f"fed_by of load {load.id}", load.fed_by, feeder)
        for use in load.day_use:
            check(f"day_use of load {load.id}", use.day_type, "day_types")
    for run in rig.runs:
        check(f"from_id of run {run.id}", run.from_id, "bank", "buses", "blocks", "converters")
        check(f"to_id of run {run.id}", run.to_id, "buses", "blocks", "converters", "inverters", "loads")
        if (run.return_path == "chassis") == (run.length_back_m is not None):
            raise InputError(
                f"length_back_m of run {run.id}", run.length_back_m, "a length, or none where the chassis returns"
            )
    for device in rig.devices:
        check(f"run_id of device {device.id}", device.run_id, "runs")
    check("main_switch_run", rig.main_switch_run, "runs")
    for one in rig.accepted:
        design_rule(one.rule)
        if one.subject not in kinds and one.subject != WHOLE_RIG:
            ids, more = list(kinds)[:_IDS_NAMED], len(kinds) - _IDS_NAMED
            allowed = f"one of {WHOLE_RIG}, {', '.join(ids)}{f' and {more} more' if more > 0 else ''}"
            raise InputError(f"Subject of the acceptance of {one.rule}", one.subject, allowed)


def _tree(rig: Rig) -> None:
    """Each node is fed by one run, and following the runs back never goes round."""
    source: dict[str, str] = {}
    for run in rig.runs:
        if run.to_id in source:
            raise InputError(f"to_id of run {run.id}", run.to_id, "a node that no other run feeds")
        source[run.to_id] = run.from_id
    for node in source:
        if node in _way_back(node, source)[1:]:
            raise InputError("Runs", f"a ring through {node}", "runs that lead away from the bank")
    places: set[tuple[str, str]] = set()
    for device in rig.devices:
        place = (device.run_id, device.conductor)
        if place in places:
            given = f"two in the {device.conductor} conductor of run {device.run_id}"
            raise InputError("Devices", given, "one a conductor of a run")
        places.add(place)
    _as_fed(rig, source)


def _way_back(node: str, source: dict[str, str]) -> list[str]:
    """The node and all nodes before it, nearest first, up to the bank or once round a ring."""
    way, seen = [node], {node}
    while (at := source.get(way[-1])) is not None:
        way.append(at)
        if at in seen:
            break
        seen.add(at)
    return way


def _as_fed(rig: Rig, source: dict[str, str]) -> None:
    """What a load says feeds it, and the runs to it, say the same."""
    converters = {one.id for one in rig.converters}
    for load in rig.loads:
        way = _way_back(load.id, source)
        over = next((node for node in way[1:] if node in converters), None)
        if load.feed in ("inverter", "inverter_adapter") and load.id in source:
            allowed = f"a load without a run, as inverter {load.fed_by} feeds it by mains wiring"
            raise InputError("to_id of a run", load.id, allowed)
        if load.feed == "converter" and load.id in source and over != load.fed_by and (over or way[-1] == BANK):
            raise InputError(f"fed_by of load {load.id}", load.fed_by, f"{over or BANK}, which its runs lead back to")
        if load.feed == "direct" and over is not None:
            raise InputError(f"feed of load {load.id}", "direct", f"converter, as its runs lead back to {over}")
    for one in [*(c.id for c in rig.converters), *(i.id for i in rig.inverters)]:
        behind = next((node for node in _way_back(one, source)[1:] if node in converters), None)
        if behind is not None:
            raise InputError(f"Way to {one}", f"through {behind}", "runs that lead to the bank, past no converter")
