"""Loads, the readings behind them, and the converters that feed them."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from rigcalc.errors import InputError
from rigcalc.formulas.inverter import LossCurve, loss_coefficients
from rigcalc.model.base import (
    AmpHours,
    Amps,
    Celsius,
    Count,
    Date,
    Entry,
    Fraction,
    Hours,
    Id,
    Metres,
    Name,
    Note,
    RatedWatts,
    Seconds,
    Volts,
    WattHours,
    Watts,
)

Provenance = Literal["measured", "label", "guess"]
Feed = Literal["direct", "converter", "inverter", "inverter_adapter"]
CircuitUse = Literal["lighting", "navigation_light", "pump", "electronics", "other"]
PointOfMeasurement = Literal["wall_plug", "ac_behind_inverter", "dc_at_appliance", "at_battery"]


class Reading(Entry):
    """One meter reading over stated hours, with the point it was taken at."""

    energy_wh: WattHours | None = None
    charge_ah: AmpHours | None = None
    voltage_v: Volts | None = Field(None, description="Mean voltage at the meter, needed with a charge in Ah")
    over_h: Annotated[float, Field(ge=0.001, le=10_000, allow_inf_nan=False)]
    at: PointOfMeasurement
    ambient_c: Celsius | None = None
    meter: Name | None = None
    date: Date | None = None

    @model_validator(mode="after")
    def _one_quantity(self) -> Self:
        if (self.energy_wh is None) == (self.charge_ah is None):
            raise InputError(
                "Reading", f"energy {self.energy_wh}, charge {self.charge_ah}", "one of energy_wh, charge_ah"
            )
        if self.charge_ah is not None and self.voltage_v is None:
            raise InputError("voltage_v of the reading", None, "the mean voltage at the meter, with a charge in Ah")
        return self


class ColdBox(Entry):
    """What makes a load a refrigerator or freezer: the temperature it holds."""

    inside_c: Celsius
    as_freezer: bool = False


class DayUse(Entry):
    """Hours of use on one type of day."""

    day_type: Id
    daily_use_h: Hours


class Load(Entry):
    """One row of the load inventory. Power is at the appliance's own terminals."""

    id: Id
    name: Name
    note: Note = ""
    quantity: Annotated[int, Field(ge=1, le=1000)] = 1
    provenance: Provenance | None = None
    power_w: Watts | None = None
    current_a: Amps | None = None
    voltage_v: Volts | None = Field(None, description="Voltage at which current_a was read")
    cycles: bool = Field(False, description="Switches on and off by itself, as a refrigerator does")
    duty_cycle: Fraction | None = None
    duty_ambient_c: Celsius | None = None
    daily_use_h: Hours | None = None
    events_per_day: Count | None = None
    event_min: Count | None = None
    day_use: tuple[DayUse, ...] = Field((), max_length=20, fail_fast=True)
    standby_w: Watts | None = None
    starting_power_w: Watts | None = None
    starting_s: Seconds | None = None
    lowest_working_v: Volts | None = None
    priority: Literal["must", "comfort", "first_to_shed"] | None = None
    daily_low_wh: WattHours | None = Field(None, description="Low case of a day, at the appliance")
    daily_high_wh: WattHours | None = Field(None, description="High case of a day, at the appliance")
    reading: Reading | None = None
    cold_box: ColdBox | None = None
    feed: Feed = "direct"
    fed_by: Id | None = Field(None, description="The converter or inverter that feeds it")
    adapter_efficiency: Fraction | None = Field(None, description="Of the mains adapter, with feed inverter_adapter")
    circuit_use: CircuitUse = "other"
    alternates_with: Name | None = Field(None, description="Loads with the same word here never run together")
    max_fuse_a: Amps | None = Field(None, description="The maker's largest fuse for this appliance")
    own_pair_out_m: Metres | None = Field(None, description="Length out of a pair of its own from the battery bus")
    own_pair_back_m: Metres | None = None

    @model_validator(mode="after")
    def _consistent(self) -> Self:
        _power_stated_once(self)
        _use_stated_once(self)
        _fed_one_way(self)
        return self


def _power_stated_once(load: Load) -> None:
    if load.power_w is not None and load.current_a is not None:
        raise InputError(f"Load {load.id}", "power_w and current_a", "one of the two")
    if load.current_a is not None and load.voltage_v is None:
        raise InputError(f"voltage_v of load {load.id}", None, "the voltage at which current_a was read")
    low, high = load.daily_low_wh, load.daily_high_wh
    if low is not None and high is not None and low > high:
        raise InputError(f"daily_low_wh of load {load.id}", low, f"at most daily_high_wh, which is {high:g}")


def _use_stated_once(load: Load) -> None:
    if load.daily_use_h is not None and load.events_per_day is not None:
        raise InputError(f"Load {load.id}", "daily_use_h and events_per_day", "one of the two")
    if (load.events_per_day is None) != (load.event_min is None):
        raise InputError(f"Load {load.id}", "one of events_per_day, event_min", "both or neither")
    days = [use.day_type for use in load.day_use]
    if len(set(days)) < len(days):
        raise InputError(f"day_use of load {load.id}", ", ".join(days), "each type of day once")


def _fed_one_way(load: Load) -> None:
    if load.feed == "direct" and load.fed_by is not None:
        raise InputError(f"fed_by of load {load.id}", load.fed_by, "nothing for a load fed directly")
    if load.feed != "direct" and load.fed_by is None:
        raise InputError(f"fed_by of load {load.id}", None, f"the id of what feeds it ({load.feed})")
    if (load.feed == "inverter_adapter") != (load.adapter_efficiency is not None):
        raise InputError(
            f"adapter_efficiency of load {load.id}", load.adapter_efficiency, "a value only for feed inverter_adapter"
        )


class Inverter(Entry):
    """DC to AC. Its losses are an idle draw and a part-load curve, or one typed efficiency that includes idle."""

    id: Id
    name: Name
    rated_w: RatedWatts
    idle_w: Watts | None = None
    on_h: Annotated[Hours, Field(le=24)]
    efficiency_10: Fraction | None = Field(None, description="At 10 % of rated power")
    efficiency_50: Fraction | None = None
    efficiency_100: Fraction | None = None
    efficiency: Fraction | None = Field(None, description="One figure for all loads, idle included")
    lowest_input_v: Volts | None = None

    @model_validator(mode="after")
    def _one_form(self) -> Self:
        points = [self.efficiency_10, self.efficiency_50, self.efficiency_100]
        stated = sum(p is not None for p in points)
        if stated not in (0, 3) or (stated == 3) == (self.efficiency is not None):
            raise InputError(
                f"Efficiency of inverter {self.id}", points, "three points (10, 50, 100 %) or one efficiency"
            )
        if self.efficiency_10 and self.efficiency_50 and self.efficiency_100:  # InputError where no losses fit them
            curve = loss_coefficients(self.efficiency_10, self.efficiency_50, self.efficiency_100)
            LossCurve(curve.k0 if self.idle_w is None else self.idle_w / self.rated_w, curve.k1, curve.k2)
        return self


class Converter(Entry):
    """DC to DC, to another voltage or a steadier one."""

    id: Id
    name: Name
    output_v: Volts
    efficiency: Fraction
    rated_w: RatedWatts | None = None
    lowest_input_v: Volts | None = None
