"""What a study says: plain frozen records, each number with its unit in the name and its working at hand."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Generic, TypeVar

NOT_AVAILABLE = "not available from a read source"
T = TypeVar("T")


class Later(Generic[T]):
    """Something worked out when it is first asked for, and once.

    Examples
    --------
    >>> later = Later(lambda: print("working") or 3)
    >>> later() + later()
    working
    6
    """

    __slots__ = ("_made", "_make")

    def __init__(self, make: Callable[[], T]) -> None:
        self._make: Callable[[], T] | None = make

    def __call__(self) -> T:
        if self._make is not None:
            self._made, self._make = self._make(), None
        return self._made


@dataclass(frozen=True, slots=True)
class Working:
    """How one number came about, ready to be shown."""

    what: str  # "Voltage drop of W7"
    equation: str  # "ΔU = I · r · (L_out + L_back)"
    numbers: str  # "5.3 A · 3.63 mΩ/m · (5.5 m + 5.5 m)"
    result: str  # "0.21 V"
    source: str = "own calculation"
    locator: str = ""
    status: str = "computed"


@dataclass(frozen=True, slots=True)
class Spread:
    """Low, likely and high of one quantity."""

    low: float
    likely: float
    high: float

    def times(self, factor: float) -> Spread:
        """The same spread, scaled."""
        return Spread(self.low * factor, self.likely * factor, self.high * factor)


@dataclass(frozen=True, slots=True)
class LoadEnergy:
    """One load's day, at the appliance and at the battery, for the design day."""

    load_id: str
    name: str
    path: str  # "direct", "converter", "inverter", "inverter_adapter"
    provenance: str | None
    running_w: float  # all of the quantity, at the appliance
    battery_running_w: float  # drawn from the battery while running, idle draw left out
    hours_h: float
    appliance_wh: Spread
    battery_wh: Spread
    by_day_type: dict[str, float]  # battery Wh by day type, likely
    work_out: Later[tuple[Working, ...]] = field(compare=False, repr=False)
    missing: tuple[str, ...] = ()  # what is not stated, in words; such a row counts as 0 Wh
    notes: tuple[str, ...] = ()  # what else to know about a row that counts: each a sentence without a full stop

    @property
    def workings(self) -> tuple[Working, ...]:
        """From what is stated to the battery, worked out when asked for."""
        return self.work_out()


@dataclass(frozen=True, slots=True)
class InverterEnergy:
    """One inverter's day: idle is its own row, counted once."""

    inverter_id: str
    name: str
    ac_wh: float
    idle_wh: float
    loss_wh: float  # conversion loss above idle, already inside the rows
    idle_stated: bool
    workings: tuple[Working, ...] = ()
    idle_by_day_type: dict[str, float] = field(default_factory=dict)  # Wh by day type


@dataclass(frozen=True, slots=True)
class PathCost:
    """One load by one way of feeding it."""

    load_id: str
    path: str  # "direct", "converter", "inverter, idle charged to it", "inverter, already on", ...
    battery_wh: float | None
    why_not: str = ""
    working: Working | None = None
    fed_by: str | None = None  # the converter or inverter of this way
    idle_wh: float = 0.0  # part of it that the inverter takes only for being on


@dataclass(frozen=True, slots=True)
class ColdBoxCell:
    """The same box at one set-point and one ambient."""

    load_id: str
    appliance: str  # "fridge" or "freezer"
    inside_c: float
    ambient_c: float
    battery_wh: Spread
    days: Spread  # of this bank, this box alone; low is the worst case
    duty: float | None
    at_cap: bool  # runs all the time and no longer holds its temperature
    working: Working | None = None


@dataclass(frozen=True, slots=True)
class EnergyStudy:
    """The day of the whole rig at the battery terminals."""

    day_type: str | None  # the design day, the largest of the rig's day types
    rows: tuple[LoadEnergy, ...]
    inverters: tuple[InverterEnergy, ...]
    daily_energy_wh: float
    daily_10_wh: float
    daily_90_wh: float
    by_path: dict[str, float]
    by_day_type: dict[str, float]
    guess_share: float
    measure_first: str | None  # the guessed or labelled load whose measurement would settle the most
    adds_most: str | None  # the row that adds most to the range
    every_way: Later[tuple[PathCost, ...]] = field(compare=False, repr=False)
    every_box: Later[tuple[ColdBoxCell, ...]] = field(compare=False, repr=False)
    work_out: Later[tuple[Working, ...]] = field(compare=False, repr=False)
    hot_duty: dict[str, float]  # load id -> duty at the rig's hot ambient

    @property
    def paths(self) -> tuple[PathCost, ...]:
        """Each load by every way of feeding it, worked out when asked for."""
        return self.every_way()

    @property
    def cold_boxes(self) -> tuple[ColdBoxCell, ...]:
        """Each cold box as fridge and as freezer in three rooms, worked out when asked for."""
        return self.every_box()

    @property
    def workings(self) -> tuple[Working, ...]:
        """The day and its range, worked out when asked for."""
        return self.work_out()


@dataclass(frozen=True, slots=True)
class AutonomyStudy:
    """How long the bank lasts without charging."""

    bank_wh: float  # rated, from cells
    capacity_ah: float  # rated
    rate_current_a: float
    capacity_at_rate_ah: float
    rate_known: bool  # the capacity is read between stated rates, or slower than the slowest of several
    rate_status: str  # where the current lies among the stated rates, in words
    temperature_fraction: float
    temperature_status: str
    usable_wh: float
    autonomy_d: float | None  # None where nothing is drawn
    autonomy_10_d: float | None
    autonomy_90_d: float | None
    autonomy_strict_d: float | None
    nominal_d: float | None  # whole capacity, no losses: arithmetic, never the answer
    adds_most: str | None
    needed_wh: float | None
    needed_strings: int | None
    needed_ah: float | None
    running_a: float  # everything that may run at once, at the lowest working voltage
    starting_a: float  # the largest start on top of it
    starting_load: str | None
    limit_a: float | None  # bank's continuous limit; None where not stated or the sharing is not known
    peak_limit_a: float | None
    workings: tuple[Working, ...] = ()
