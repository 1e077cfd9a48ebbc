"""What a study says: plain frozen records, each number with its unit in the name and its working at hand."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

NOT_AVAILABLE = "not available from a read source"


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
    missing: tuple[str, ...] = ()  # what is not stated, in words; such a row counts as 0 Wh
    workings: tuple[Working, ...] = ()
    notes: tuple[str, ...] = ()  # what else to know about a row that counts: each a sentence without a full stop


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
    paths: tuple[PathCost, ...]
    cold_boxes: tuple[ColdBoxCell, ...]
    hot_duty: dict[str, float]  # load id -> duty at the rig's hot ambient
    workings: tuple[Working, ...] = ()


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
    aged_d: float | None  # at the end-of-life capacity
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


@dataclass(frozen=True, slots=True)
class SizeCheck:
    """One conductor size tried on one run, on its own figures."""

    size: str
    area_mm2: float
    current_a: float  # with this size: a constant-power load takes a little more behind less copper
    table_a: float | None  # None: no read figure
    ampacity_a: float | None  # corrected
    terminal_a: float | None
    fuse_limit_a: float | None
    rule_drop_v: float
    rule_drop_percent: float  # this run alone, of the nominal voltage
    way_drop_percent: float  # from the bank to the end of this run
    drop_v: float  # physical, at working temperature
    drop_percent: float
    end_v: float  # at the end of the run, battery at its lowest; below 0 where the power does not get through
    temperature_c: float
    fails: tuple[str, ...]  # "ampacity", "terminal", "drop", "fuse", "voltage", "not available"; empty: passes


@dataclass(frozen=True, slots=True)
class RunMore:
    """What only a look at one run needs: worked out when it is asked for, and once."""

    larger: SizeCheck | None
    other_series: SizeCheck | None
    factors: tuple[Working, ...]
    workings: tuple[Working, ...]


@dataclass(frozen=True, slots=True)
class RunStudy:
    """One run: what it carries and the conductor it needs."""

    run_id: str
    name: str
    way: tuple[str, ...]  # runs from the bank to here, this one last
    loads: tuple[str, ...]  # ids of the loads, inverters and converters it feeds
    use: str
    design_current_a: float
    source_v: float  # at its start, lowest working battery
    load_v: float  # at its end
    solved: bool  # False: the power cannot be delivered
    largest_power_w: float | None  # what would go through, where not solved
    drop_limit_percent: float | None
    drop_limit_source: str
    drop_limit_status: str
    stated: str | None  # the conductor the person typed
    ambiguous: tuple[str, ...]  # what the typed text can mean, where it can mean two things
    unknown: tuple[str, ...]  # what hangs below without a stated power: the current is then at least this
    choice: SizeCheck | None  # None: no size passes, none was read, or the current is not known
    smaller: SizeCheck | None
    decided_by: str  # "ampacity", "terminal", "drop", "fuse", "voltage", "smallest of the table", "stated"
    more: Callable[[], RunMore] = field(compare=False, repr=False)

    @property
    def larger(self) -> SizeCheck | None:
        """The next larger size of the same series."""
        return self.more().larger

    @property
    def other_series(self) -> SizeCheck | None:
        """The smallest size of the other series that passes the same limits on its own figures."""
        return self.more().other_series

    @property
    def factors(self) -> tuple[Working, ...]:
        """Table ampacity and what lowers it."""
        return self.more().factors

    @property
    def workings(self) -> tuple[Working, ...]:
        """Current, ampacity and both drops."""
        return self.more().workings


@dataclass(frozen=True, slots=True)
class CircuitStudy:
    """One protective device, the runs it protects, the loads they feed."""

    circuit_id: str  # the device's id
    run_id: str  # the run the device is in
    runs: tuple[str, ...]
    loads: tuple[str, ...]
    conductor: str  # "positive" or "negative"
    continuous_a: float
    least_a: float  # lower edge of the window
    most_a: float | None  # upper edge
    most_because: str
    thinnest: str | None  # run id of the thinnest conductor
    rating_a: float | None
    rating_stated: bool
    rating_status: str
    device_class: str | None
    class_stated: bool
    continuous_share: float
    rerating: float
    voltage_rating_v: float | None
    interrupting_a: float | None
    interrupting_status: str
    prospective_a: float | None
    distance_m: float | None
    distance_limit_m: float | None
    distance_source: str
    start_opens: bool | None  # a start would open it; None: no gates or no start stated
    grown: bool  # a conductor was made larger so that a fuse fits
    work_out: Callable[[], tuple[Working, ...]] = field(default=tuple, compare=False, repr=False)

    @property
    def workings(self) -> tuple[Working, ...]:
        """Both edges of the window and the short-circuit current, worked out when asked for."""
        return self.work_out()


@dataclass(frozen=True, slots=True)
class BlockStudy:
    """A distribution block's load against its rating and its feeder fuse."""

    block_id: str
    name: str
    load_a: float
    rating_a: float | None
    feeder_circuit: str | None
    feeder_rating_a: float | None


@dataclass(frozen=True, slots=True)
class SupplyWay:
    """One way to supply one load: through the block, or by a pair of its own."""

    title: str
    conductors: tuple[str, ...]
    fuses: tuple[str, ...]
    drop_v: float | None
    drop_percent: float | None
    joints: int
    copper_kg: float | None
    always_live: bool | None
    stops: tuple[str, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Supply:
    """Both ways for one load."""

    load_id: str
    through_block: SupplyWay | None
    own_pair: SupplyWay | None


@dataclass(frozen=True, slots=True)
class NetworkStudy:
    """Conductors and protection."""

    rule_set: str
    available: bool  # the rule set's own sizes come from a read table
    runs: tuple[RunStudy, ...]
    circuits: tuple[CircuitStudy, ...]
    blocks: tuple[BlockStudy, ...]
    unprotected: tuple[str, ...]  # runs fed from a source with no device before or in them
    unconnected: tuple[str, ...]  # loads, inverters and converters that no run reaches
    node_v: dict[str, float] = field(default_factory=dict)
