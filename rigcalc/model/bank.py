"""The battery bank: equal units in series and in parallel."""

from __future__ import annotations

import itertools
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from rigcalc.errors import InputError
from rigcalc.model.base import AmpHours, Amps, Celsius, Entry, Fraction, Ohms, RatedAmps, Seconds, Volts

Chemistry = Literal["flooded", "agm", "gel", "lifepo4"]
CELL_V = {"flooded": 2.0, "agm": 2.0, "gel": 2.0, "lifepo4": 3.2}


class RatePoint(Entry):
    """One row of a sheet's table of capacity against hours of discharge."""

    over_h: Annotated[float, Field(ge=0.01, le=1000, allow_inf_nan=False)]
    capacity_ah: AmpHours


class Bank(Entry):
    """Equal units, ``series`` of them in a string, ``parallel`` strings. Figures with unit_ are of one unit."""

    chemistry: Chemistry
    cells_per_unit: Annotated[int, Field(ge=1, le=32)]
    unit_capacity_ah: AmpHours
    rated_h: Annotated[float, Field(ge=0.01, le=200, allow_inf_nan=False)] = Field(
        20.0, description="Hours of the rating, 20 for C20"
    )
    series: Annotated[int, Field(ge=1, le=24)] = 1
    parallel: Annotated[int, Field(ge=1, le=24)] = 1
    rate_points: tuple[RatePoint, ...] = Field((), max_length=50, fail_fast=True)
    temperature_c: Celsius = Field(description="Of the cells, on the day that is designed for")
    depth_of_discharge: Fraction
    end_of_life_fraction: Fraction = Field(description="Share of the new capacity at which the bank is replaced")
    wanted_autonomy_days: Annotated[float, Field(ge=0.01, le=365, allow_inf_nan=False)] | None = None
    wiring_efficiency: Fraction | None = None
    lowest_working_v: Volts = Field(description="Of the whole bank under load, when it counts as empty")
    highest_charge_v: Volts = Field(description="Of the whole bank, the highest any charging source applies")
    unit_discharge_max_a: Amps | None = Field(None, description="Continuous limit of one unit or its BMS")
    unit_peak_a: Amps | None = None
    unit_peak_s: Seconds | None = None
    largest_share: Fraction | None = Field(None, description="Share of the current in the busiest parallel string")
    unit_short_circuit_a: RatedAmps | None = Field(None, description="Maker's short-circuit current of one unit")
    unit_resistance_ohm: Annotated[Ohms, Field(gt=0)] | None = Field(
        None, description="Maker's internal resistance, full and warm"
    )
    cranking_a: RatedAmps | None = Field(None, description="Total cold cranking amperes of the bank")

    @property
    def nominal_v(self) -> float:
        """Cells in series times the nominal cell voltage. [V]"""
        return self.cells_per_unit * self.series * CELL_V[self.chemistry]

    @property
    def capacity_ah(self) -> float:
        """Rated capacity of all strings. [Ah]"""
        return self.unit_capacity_ah * self.parallel

    @model_validator(mode="after")
    def _consistent(self) -> Self:
        if not self.lowest_working_v < self.highest_charge_v:
            raise InputError("lowest_working_v of the bank", self.lowest_working_v, "less than highest_charge_v")
        for what in ("lowest_working_v", "highest_charge_v"):
            value = getattr(self, what)
            if not 0.7 * self.nominal_v <= value <= 1.4 * self.nominal_v:
                raise InputError(
                    f"{what} of the bank", value, f"0.7 to 1.4 times the cells' nominal {self.nominal_v:g} V"
                )
        if self.largest_share is not None and self.parallel > 1 and self.largest_share * self.parallel < 1 - 1e-9:
            allowed = f"at least an even share of the {self.parallel} strings"
            raise InputError("largest_share of the bank", self.largest_share, allowed)
        ordered = sorted(self.rate_points, key=lambda p: p.over_h)
        if any(a.over_h == b.over_h or a.capacity_ah > b.capacity_ah for a, b in itertools.pairwise(ordered)):
            raise InputError(
                "rate_points", [(p.over_h, p.capacity_ah) for p in ordered], "more Ah for more hours, each hour once"
            )
        return self
