"""What a study says of conductors and protection: frozen records, each number with its unit in the name."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from rigcalc.study.results import Later, Working


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
    more: Later[RunMore] = field(compare=False, repr=False)

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
    rerating_read: bool  # False: what heat takes of its class there is in no read source
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
    fault: Working  # the bank's resistance behind every short circuit, and how it is known
    node_v: dict[str, float] = field(default_factory=dict)
