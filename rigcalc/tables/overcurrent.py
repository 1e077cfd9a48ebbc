"""Overcurrent protective devices: classes, ratings, interrupting ratings, time-current gates, and where they sit."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import ClassVar

from rigcalc.errors import InputError, need
from rigcalc.tables import Row, load


@dataclass(frozen=True, slots=True, kw_only=True)
class DeviceClass(Row):
    """A class of fuse or circuit breaker; its status is that of the class itself.

    Each limit has a status of its own: `device_limit`.
    """

    KEY: ClassVar[tuple[str, ...]] = ("id",)
    id: str
    title: str
    kind: str
    gate_family: str | None

    @property
    def max_dc_v(self) -> float | None:
        """Highest DC voltage of the class; None where it is not known."""
        return _limit_value(self.id, "max_dc_v")

    @property
    def continuous_share(self) -> float | None:
        """Share of the rating it may carry continuously at 25 °C."""
        return _limit_value(self.id, "continuous_share")

    @property
    def holder_limit_a(self) -> float | None:
        """Highest current of the usual holder; None where the holder's own marking decides."""
        return _limit_value(self.id, "holder_limit_a")


@dataclass(frozen=True, slots=True, kw_only=True)
class DeviceLimit(Row):
    """One limit of a device class: max_dc_v, continuous_share or holder_limit_a."""

    KEY: ClassVar[tuple[str, ...]] = ("class_id", "quantity")
    class_id: str
    quantity: str
    value: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Rating(Row):
    """A current rating that a device class is made in."""

    KEY: ClassVar[tuple[str, ...]] = ("class_id", "rating_a")
    class_id: str
    rating_a: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Interrupting(Row):
    """Highest fault current a device class breaks at up to ``up_to_v`` DC; a maker's figure replaces it."""

    KEY: ClassVar[tuple[str, ...]] = ("class_id", "up_to_v")
    class_id: str
    up_to_v: float
    interrupting_a: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Gate(Row):
    """Least and most opening time at a multiple of the rating; None where the gate has no such end."""

    KEY: ClassVar[tuple[str, ...]] = ("family", "rating_from_a", "rating_to_a", "pct_of_rating")
    family: str
    rating_from_a: float
    rating_to_a: float
    pct_of_rating: float
    t_min_s: float | None
    t_max_s: float | None
    note: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Rerating(Row):
    """Share of its rating a fuse carries at an ambient."""

    KEY: ClassVar[tuple[str, ...]] = ("class_id", "ambient_c")
    class_id: str
    ambient_c: float
    fraction: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BatteryAic(Row):
    """Interrupting rating asked of breakers on a lead bank, by its cold-cranking amperes."""

    KEY: ClassVar[tuple[str, ...]] = ("up_to_v", "cca_above")
    up_to_v: float
    cca_above: float
    cca_to: float | None
    main_a: float
    branch_a: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallConductorLimit(Row):
    """Highest protective device on a small conductor, whatever its ampacity."""

    KEY: ClassVar[tuple[str, ...]] = ("size", "rule")
    size: str
    rule: str
    limit_a: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OcpDistance(Row):
    """Longest conductor between a source and its protection.

    ``situation`` is general, sheathed, battery_sheathed or charging_source.
    """

    KEY: ClassVar[tuple[str, ...]] = ("rule_set", "situation")
    rule_set: str
    situation: str
    distance_m: float


def device_classes() -> tuple[DeviceClass, ...]:
    """All device classes."""
    return load("device_classes", DeviceClass)


@cache
def device_class(class_id: str) -> DeviceClass:
    """The device class of that id.

    Examples
    --------
    >>> device_class("blade").max_dc_v, device_class("breaker").max_dc_v
    (32.0, None)
    """
    classes = {row.id: row for row in device_classes()}
    if class_id not in classes:
        raise InputError("Device class", class_id, f"one of {', '.join(classes)}")
    return classes[class_id]


@cache
def device_limit(class_id: str, quantity: str) -> DeviceLimit | None:
    """One limit of a class with its source: max_dc_v, continuous_share or holder_limit_a; None where not known."""
    name, rows = device_class(class_id).id, load("device_limits", DeviceLimit)
    return next((row for row in rows if (row.class_id, row.quantity) == (name, quantity)), None)


def _limit_value(class_id: str, quantity: str) -> float | None:
    row = device_limit(class_id, quantity)
    return row.value if row else None


@cache
def ratings(class_id: str, read_only: bool = False) -> tuple[Rating, ...]:
    """Ratings of a class, smallest first; with ``read_only`` those from memory are left out.

    Examples
    --------
    >>> [row.rating_a for row in ratings("high_current_blade", read_only=True)]
    [40.0, 50.0]
    """
    name = device_class(class_id).id
    rows = [row for row in load("device_ratings", Rating) if row.class_id == name]
    return tuple(sorted((row for row in rows if not (read_only and row.from_memory)), key=lambda row: row.rating_a))


@cache
def interrupting(class_id: str, voltage_v: float, read_only: bool = False) -> Interrupting | None:
    """Interrupting rating of a class at a DC voltage; None where it is not known or the voltage is above the class.

    Examples
    --------
    >>> interrupting("blade", 14.4).interrupting_a, interrupting("blade", 57.6)
    (1000.0, None)
    """
    name = device_class(class_id).id
    need(voltage_v > 0, "Voltage", voltage_v, "above 0 V")
    rows = [r for r in load("device_interrupting", Interrupting) if r.class_id == name and r.up_to_v >= voltage_v]
    row = min(rows, key=lambda r: r.up_to_v, default=None)
    return None if row is None or (read_only and row.from_memory) else row


@cache
def gates(class_id: str, rating_a: float, read_only: bool = False) -> tuple[Gate, ...]:
    """Time-current gates of a class at a rating, one for each multiple, lowest first; empty where none is known.

    A read gate is preferred to one from memory at the same multiple.

    Examples
    --------
    >>> [gate.t_max_s for gate in gates("high_current_blade", 40)]
    [None, 1800.0, 60.0, 7.0, 1.0]
    """
    family = device_class(class_id).gate_family
    best: dict[float, Gate] = {}
    for row in load("time_current_gates", Gate):
        fits = row.family == family and row.rating_from_a <= rating_a <= row.rating_to_a
        if not fits or (read_only and row.from_memory):
            continue
        if row.pct_of_rating not in best or not row.from_memory:
            best[row.pct_of_rating] = row
    return tuple(best[pct] for pct in sorted(best))


@cache
def rerating(class_id: str) -> tuple[Rerating, ...]:
    """Temperature rerating of a class, coolest first; empty where none was read."""
    name = device_class(class_id).id
    return tuple(row for row in load("fuse_temperature_rerating", Rerating) if row.class_id == name)


@cache
def battery_aic(voltage_v: float, cold_cranking_a: float, read_only: bool = True) -> BatteryAic | None:
    """Interrupting ratings asked of main and branch breakers on a lead bank; None beyond the table.

    Examples
    --------
    >>> battery_aic(12, 800).main_a
    3000.0
    """
    need(cold_cranking_a > 0, "Cold-cranking current", cold_cranking_a, "above 0 A")
    rows = [row for row in load("battery_aic", BatteryAic) if row.up_to_v >= voltage_v]
    band_v = min((row.up_to_v for row in rows), default=None)
    for row in rows:
        fits = row.cca_above < cold_cranking_a and (row.cca_to is None or cold_cranking_a <= row.cca_to)
        if row.up_to_v == band_v and fits:
            return None if read_only and row.from_memory else row
    return None


@cache
def small_conductor_limit(size_name: str, rule: str = "240.4(D)", read_only: bool = True) -> SmallConductorLimit | None:
    """Highest device on a small AWG conductor by 240.4(D) or 552.10(E)(1); None where none, or only from memory.

    Examples
    --------
    >>> small_conductor_limit("12 AWG").limit_a, small_conductor_limit("16 AWG")
    (20.0, None)
    """
    for row in load("small_conductor_limits", SmallConductorLimit):
        if (row.size, row.rule) == (size_name, rule):
            return None if read_only and row.from_memory else row
    return None


@cache
def ocp_distance(rule_set_id: str, situation: str, read_only: bool = True) -> OcpDistance | None:
    """Longest conductor between source and protection; None where not available from a read source."""
    for row in load("ocp_distances", OcpDistance):
        if (row.rule_set, row.situation) == (rule_set_id, situation):
            return None if read_only and row.from_memory else row
    return None
