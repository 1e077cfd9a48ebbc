"""The rule sets a design is checked by: which table, factor, formula and limit each one uses, and by which clause.

Rule sets are arguments, never globals, and are not mixed clause by clause. The choices are data here; the reason
for each is a `Clause` in ``data/rule_clauses.csv``.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import ClassVar, Literal

from rigcalc.errors import InputError
from rigcalc.tables import Row, load
from rigcalc.tables.conductors import MinConductorSize, conductor, min_conductor_size
from rigcalc.tables.overcurrent import OcpDistance, ocp_distance
from rigcalc.tables.voltage_drop import VoltageDropLimit, voltage_drop_limit

Topic = Literal[
    "scope", "ampacity", "ambient", "bundling", "drop", "fuse", "distance", "min_size", "chassis", "terminal"
]
TOPICS: tuple[Topic, ...] = (
    "scope", "ampacity", "ambient", "bundling", "drop", "fuse", "distance", "min_size", "chassis", "terminal",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Clause(Row):
    """What a rule set says on one topic, in a sentence, with the clause behind it."""

    KEY: ClassVar[tuple[str, ...]] = ("rule_set", "topic")
    rule_set: str
    topic: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleSet:
    """One set of rules.

    Attributes
    ----------
    kind, region
        What it is for and where; ``any`` only for the strictest of all.
    series : str
        Conductor series its ampacity table is printed in.
    ampacity_tables : tuple of (float, str)
        Table from an insulation temperature upwards, coolest first; empty where none is available. [°C]
    ambient_method : str
        ``engine_note`` (factors for engine spaces only), ``nec_table``, or ``formula``.
    bundling : str
        ``cfr_abyc`` (from 3 conductors), ``nec`` (from 4), or ``typed`` (a factor must be typed).
    drop_form : str
        ``circular_mil`` (K = 10.75), ``table_8`` (resistance at 75 °C), ``iec_annex_g``, or ``iso``.
    fuse_ratio : float
        Highest protective device over ampacity.
    next_size_up_ratio : float or None
        Highest ratio to which the next standard rating may be taken; None where it may not.
    small_conductor_limits : bool
        Whether 14, 12 and 10 AWG have device limits of their own.
    chassis_return_allowed : bool or None
        None where the rules do not state it.
    terminal_severity : str
        ``stop`` or ``warn`` when a terminal would run hotter than its rating.
    counterpart : str or None
        Rule set whose table serves the other conductor series.
    members : tuple of str
        Rule sets that the strictest of all combines; empty for the others.
    """

    id: str
    title: str
    kind: Literal["boat", "vehicle", "cabin", "any"]
    region: Literal["north_america", "iec", "any"]
    series: Literal["AWG", "mm2"]
    ampacity_tables: tuple[tuple[float, str], ...] = ()
    ambient_method: Literal["engine_note", "nec_table", "formula"]
    bundling: Literal["cfr_abyc", "nec", "typed"]
    drop_form: Literal["circular_mil", "table_8", "iec_annex_g", "iso"]
    fuse_ratio: float = 1.0
    next_size_up_ratio: float | None = None
    small_conductor_limits: bool = False
    chassis_return_allowed: bool | None
    terminal_severity: Literal["stop", "warn"] = "warn"
    counterpart: str | None = None
    members: tuple[str, ...] = ()

    def __hash__(self) -> int:
        return hash(self.id)

    @property
    def next_size_up(self) -> bool:
        """Whether the next standard rating above the ampacity may be taken."""
        return self.next_size_up_ratio is not None

    def ampacity_table(self, insulation_c: float) -> str | None:
        """Name of the ampacity table for an insulation temperature; None where no read source has one."""
        return next((table for from_c, table in reversed(self.ampacity_tables) if insulation_c >= from_c), None)

    def clause(self, topic: Topic) -> Clause:
        """What these rules say on a topic, with source, locator and status."""
        return _clauses()[self.id, topic]

    @property
    def clauses(self) -> tuple[Clause, ...]:
        """All clauses, in the order of `TOPICS`."""
        return tuple(self.clause(topic) for topic in TOPICS)

    @property
    def documents(self) -> tuple[tuple[str, str, str], ...]:
        """Each document, clause and status behind these rules, once."""
        return tuple(dict.fromkeys((row.source, row.locator, row.status) for row in self.clauses))

    def drop_limit(self, use: str) -> VoltageDropLimit | None:
        """Drop limit for a use; None where none is available from a read source; strictest of all: the smallest."""
        limits = [voltage_drop_limit(name, use) for name in self.members or (self.id,)]
        return min((row for row in limits if row), key=lambda row: row.limit_pct, default=None)

    def distance(self, situation: str) -> OcpDistance | None:
        """Longest conductor between source and protection; strictest of all: the shortest; None where not read."""
        names = self.members or (self.id,)
        rows = [ocp_distance(name, situation) or ocp_distance(name, "general") for name in names]
        return min((row for row in rows if row), key=lambda row: row.distance_m, default=None)

    def min_size(self, situation: str, series: str) -> MinConductorSize | None:
        """Smallest size for a ``single`` or ``sheathed`` conductor, stated in that series; may be from memory."""
        rows = [min_conductor_size(name, situation) for name in self.members or (self.id,)]
        stated = [row for row in rows if row and conductor(row.size).series == series]
        return max(stated, key=lambda row: conductor(row.size).area_mm2, default=None)


@cache
def _clauses() -> dict[tuple[str, str], Clause]:
    return {(row.rule_set, row.topic): row for row in load("rule_clauses", Clause)}


_BS7671 = ((70.0, "ampacity_bs7671_4d1a"), (90.0, "ampacity_bs7671_4e1a"))
_NEC = ((60.0, "ampacity_nec_310_16"),)
_NA_VEHICLE = RuleSet(
    id="na_vehicle",
    title="Vehicle, North America (NFPA 70 310.16, 552.10 by analogy)",
    kind="vehicle",
    region="north_america",
    series="AWG",
    ampacity_tables=_NEC,
    ambient_method="nec_table",
    bundling="nec",
    drop_form="table_8",
    small_conductor_limits=True,
    chassis_return_allowed=True,
    terminal_severity="stop",
    counterpart="iec_vehicle",
)
_IEC_VEHICLE = RuleSet(
    id="iec_vehicle",
    title="Vehicle, IEC (IEC 60364-7-721 with BS 7671 tables)",
    kind="vehicle",
    region="iec",
    series="mm2",
    ampacity_tables=_BS7671,
    ambient_method="formula",
    bundling="typed",
    drop_form="iec_annex_g",
    chassis_return_allowed=True,
    counterpart="na_vehicle",
)
_SETS = (
    RuleSet(
        id="us_boat",
        title="Boat, United States (33 CFR 183 with ABYC E-11 practice)",
        kind="boat",
        region="north_america",
        series="AWG",
        ampacity_tables=((60.0, "ampacity_33cfr183425"),),
        ambient_method="engine_note",
        bundling="cfr_abyc",
        drop_form="circular_mil",
        next_size_up_ratio=1.5,
        chassis_return_allowed=False,
        counterpart="iec_vehicle",
    ),
    RuleSet(
        id="eu_small_craft",
        title="Small craft, Europe (ISO 13297)",
        kind="boat",
        region="iec",
        series="mm2",
        ambient_method="formula",
        bundling="typed",
        drop_form="iso",
        chassis_return_allowed=False,
    ),
    _NA_VEHICLE,
    _IEC_VEHICLE,
    replace(
        _NA_VEHICLE, id="na_cabin", title="Cabin, North America (NFPA 70)", kind="cabin",
        chassis_return_allowed=None, counterpart="iec_cabin",
    ),
    replace(
        _IEC_VEHICLE, id="iec_cabin", title="Cabin, IEC (IEC 60364 with BS 7671 tables)", kind="cabin",
        chassis_return_allowed=None, counterpart="na_cabin",
    ),
)  # fmt: skip
_STRICTEST = RuleSet(
    id="strictest_of_all",
    title="Strictest of all",
    kind="any",
    region="any",
    series="AWG",
    ambient_method="formula",
    bundling="typed",
    drop_form="iec_annex_g",
    small_conductor_limits=True,
    chassis_return_allowed=False,
    terminal_severity="stop",
    counterpart="iec_vehicle",
    members=tuple(rules.id for rules in _SETS),
)
RULE_SETS: dict[str, RuleSet] = {rules.id: rules for rules in (*_SETS, _STRICTEST)}


def rule_set(rule_set_id: str) -> RuleSet:
    """The rule set of that id.

    Examples
    --------
    >>> rule_set("iec_vehicle").ampacity_table(85), rule_set("eu_small_craft").ampacity_table(105)
    ('ampacity_bs7671_4d1a', None)
    >>> rule_set("us_boat").clause("ampacity").locator
    'Table 5'
    """
    if rule_set_id not in RULE_SETS:
        raise InputError("Rule set", rule_set_id, f"one of {', '.join(RULE_SETS)}")
    return RULE_SETS[rule_set_id]


def rule_set_for(kind: str, region: str) -> RuleSet:
    """The rule set that the kind of rig and its country choose.

    Parameters
    ----------
    kind : str
        boat, vehicle or cabin.
    region : str
        north_america or iec.

    Examples
    --------
    >>> rule_set_for("vehicle", "north_america").id
    'na_vehicle'
    """
    for rules in _SETS:
        if (rules.kind, rules.region) == (kind, region):
            return rules
    given = f"{kind} in {region}"
    raise InputError("Kind of rig and region", given, "boat, vehicle or cabin, in north_america or iec")
