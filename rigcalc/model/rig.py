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

RuleSetId = Literal[
    "us_boat", "eu_small_craft", "na_vehicle", "iec_vehicle", "na_cabin", "iec_cabin", "strictest_of_all"
]  # fmt: skip


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
    chassis_bond: Name | None = Field(None, description="Conductor from battery negative to chassis, as printed on it")
    main_switch_run: Id | None = Field(None, description="The run the main switch is in")
    day_types: tuple[DayType, ...] = ()
    bank: Bank
    inverters: tuple[Inverter, ...] = ()
    converters: tuple[Converter, ...] = ()
    loads: tuple[Load, ...] = ()
    buses: tuple[Bus, ...] = ()
    blocks: tuple[Block, ...] = ()
    runs: tuple[Run, ...] = ()
    devices: tuple[Device, ...] = ()
    accepted: tuple[Acceptance, ...] = ()

    def parts(self) -> Iterator[tuple[str, str]]:
        """Kind and id of everything that has an id of its own."""
        yield "bank", BANK
        for kind in ("day_types", "inverters", "converters", "loads", "buses", "blocks", "runs", "devices"):
            for part in getattr(self, kind):
                yield kind, part.id

    @model_validator(mode="after")
    def _whole(self) -> Self:
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


def _tree(rig: Rig) -> None:
    """Each node is fed by one run, and following the runs back never goes round."""
    source: dict[str, str] = {}
    for run in rig.runs:
        if run.to_id in source:
            raise InputError(f"to_id of run {run.id}", run.to_id, "a node that no other run feeds")
        source[run.to_id] = run.from_id
    for node in source:
        seen, at = {node}, source[node]
        while at in source:
            if at in seen:
                raise InputError("Runs", f"a ring through {at}", "runs that lead away from the bank")
            seen.add(at)
            at = source[at]
    places = [(d.run_id, d.conductor) for d in rig.devices]
    for place in places:
        if places.count(place) > 1:
            raise InputError(
                "Devices", f"two in the {place[1]} conductor of run {place[0]}", "one a conductor of a run"
            )
