"""Nodes, runs and protective devices. The bank is the node ``bank``; loads, inverters and converters are nodes too."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from rigcalc.errors import InputError
from rigcalc.model.base import (
    Amps,
    Celsius,
    Entry,
    Fraction,
    Id,
    Metres,
    Name,
    Note,
    Ohms,
    Percent,
    RatedAmps,
    TypedText,
    Volts,
)
from rigcalc.tables.size_text import parse_size

BANK = "bank"
DeviceClass = Literal[
    "blade", "high_current_blade", "bolted_strip", "stud_block", "current_limiting", "breaker"
]  # fmt: skip


class Bus(Entry):
    """A bus bar or post where runs meet."""

    id: Id
    name: Name


class Block(Entry):
    """A distribution block: one feeder in, a fuse for each branch out."""

    id: Id
    name: Name
    rating_a: Amps | None = None
    branch_class: DeviceClass | None = Field(None, description="The fuse class its ways take")


class Run(Entry):
    """One pair of conductors between two nodes, each length measured along its conductor."""

    id: Id
    name: Name
    note: Note = ""
    from_id: Id
    to_id: Id
    length_out_m: Metres
    length_back_m: Metres | None = Field(None, description="None only where the chassis is the return")
    return_path: Literal["conductor", "chassis"] = "conductor"
    chassis_resistance_ohm: Ohms | None = None
    purpose: Literal["power", "sense", "charging", "cranking"] = "power"
    conductor: TypedText | None = Field(None, description='As printed on the cable: "10 AWG", "6 mm2"; empty: choose')
    return_conductor: TypedText | None = None
    colour: Name | None = Field(None, description="Of the supply wire, where it is not that of the rig's scheme")
    return_colour: Name | None = None
    insulation_c: Celsius | None = None
    terminal_c: Celsius | None = Field(None, description="Temperature marked on the terminals; empty: unmarked")
    ambient_c: Celsius | None = None
    engine_space: bool = False
    conductors_together: Annotated[int, Field(ge=1, le=200)] | None = None
    grouping_factor: Fraction | None = Field(
        None, description="Typed from the standard at hand, with its source in note"
    )
    installation: Literal["insulated_wall", "enclosed", "clipped", "free_air"] | None = None
    sheathed: bool = Field(False, description="In a sheath, conduit or enclosure all the way to its device")
    drop_limit_percent: Percent | None = None

    @model_validator(mode="after")
    def _sizes_exist(self) -> Self:
        for field in ("conductor", "return_conductor"):
            text = getattr(self, field)
            try:
                if text is not None:
                    parse_size(text)
            except InputError as error:
                raise InputError(f"{field} of run {self.id}", text, error.allowed) from None
        return self


class Device(Entry):
    """A fuse or breaker in one conductor of a run. What is not stated is chosen (rating, class) or stays open."""

    id: Id
    run_id: Id
    conductor: Literal["positive", "negative"] = "positive"
    device_class: DeviceClass | None = None
    rating_a: RatedAmps | None = None
    distance_m: Metres | None = Field(None, description="Along the conductor from where the run leaves its source")
    voltage_rating_v: Volts | None = None
    interrupting_a: RatedAmps | None = None
    holder_rating_a: RatedAmps | None = None
    ambient_c: Celsius | None = None
