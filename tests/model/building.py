"""Rigs built at random, valid by construction, and random damage to valid ones."""

from __future__ import annotations

import copy
import os
from typing import Any

from hypothesis import HealthCheck, assume, settings
from hypothesis import strategies as st

from rigcalc.units import parse
from tests.rigs import EXAMPLES, example_data, small_data

FULL = os.environ.get("RIGCALC_TESTS") == "full"
THOROUGH = settings(
    max_examples=5000 if FULL else 150,
    derandomize=not FULL,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
BUILT = settings(THOROUGH, max_examples=5000 if FULL else 40)
STUDIED = settings(THOROUGH, max_examples=600 if FULL else 40)  # a study costs a hundred times a reading
NAMES = sorted(path.stem for path in EXAMPLES.glob("*.json"))

_UNSEEN = {chr(n) for n in (*range(0x80, 0xA0), *range(0x2028, 0x202F), *range(0x2066, 0x206A))}
_letters = st.characters(exclude_categories=("Cs", "Cc"), exclude_characters=_UNSEEN)
names = st.text(_letters, min_size=1, max_size=20).filter(lambda text: text.strip() != "")
notes = st.text(_letters | st.just("\n"), max_size=40)
dates = st.dates().map(lambda day: day.isoformat())


def floats(low: float, high: float, above_0: bool = False) -> st.SearchStrategy[float]:
    """Numbers as a rig may hold them: none of them next to nothing."""
    if above_0:
        return st.floats(0.1, high)
    return st.floats(low, high).filter(lambda value: value == 0 or abs(value) >= 1e-9)


fractions = st.floats(0.001, 1)
sizes = st.sampled_from(["10 AWG", "2/0 AWG", "6 mm2", "6"])


@st.composite
def some(draw: st.DrawFn, **fields: st.SearchStrategy[Any]) -> dict[str, Any]:
    """A random choice of optional fields."""
    chosen = draw(st.sets(st.sampled_from(sorted(fields))))
    return {name: draw(fields[name]) for name in sorted(chosen)}


@st.composite
def lengths(draw: st.DrawFn, field: str) -> dict[str, Any]:
    """A length, as a bare number or with the text it was typed as."""
    if draw(st.booleans()):
        return {field: draw(floats(0, 1000))}
    text = draw(st.sampled_from(["6 ft", "1,5 m", "6 ft 4 in", "18 in", "2 fathoms", "120 cm", "0 m"]))
    return {field: parse(text, "m"), "typed": {field: text}}


@st.composite
def banks(draw: st.DrawFn, system_v: int) -> dict[str, Any]:
    chemistry = draw(st.sampled_from(["flooded", "agm", "gel", "lifepo4"]))
    per_12v = 4 if chemistry == "lifepo4" else 6
    series = draw(st.sampled_from([1, system_v // 12]))
    cells = per_12v * system_v // 12 // series
    nominal_v = cells * series * (3.2 if chemistry == "lifepo4" else 2.0)
    low, high = sorted(draw(st.lists(floats(0.71, 1.39), min_size=2, max_size=2, unique=True)))
    assume(low * nominal_v < high * nominal_v)  # two neighbouring fractions can round to one voltage
    hours = sorted(draw(st.sets(st.integers(1, 1000), max_size=5)))
    capacities = sorted(draw(st.lists(floats(1, 5000), min_size=len(hours), max_size=len(hours))))
    points = [{"over_h": h, "capacity_ah": c} for h, c in zip(hours, capacities, strict=True)]
    return {
        "chemistry": chemistry,
        "cells_per_unit": cells,
        "series": series,
        "parallel": draw(st.integers(1, 24)),
        "unit_capacity_ah": draw(floats(0, 5000, above_0=True)),
        "rate_points": points,
        "temperature_c": draw(floats(-60, 100)),
        "depth_of_discharge": draw(fractions),
        "end_of_life_fraction": draw(fractions),
        "lowest_working_v": low * nominal_v,
        "highest_charge_v": high * nominal_v,
        **draw(some(rated_h=floats(1, 200), largest_share=floats(0.5, 1), unit_short_circuit_a=floats(0, 1e5, True),
                    unit_resistance_ohm=floats(0, 100, True), wanted_autonomy_days=floats(0, 365, above_0=True))),
    }  # fmt: skip


def feeds(inverters: list[str], converters: list[str]) -> st.SearchStrategy[dict[str, Any]]:
    ways: list[st.SearchStrategy[dict[str, Any]]] = [st.just({})]
    if converters:
        ways.append(st.fixed_dictionaries({"feed": st.just("converter"), "fed_by": st.sampled_from(converters)}))
    if inverters:
        ways.append(st.fixed_dictionaries({"feed": st.just("inverter"), "fed_by": st.sampled_from(inverters)}))
        adapter = {"feed": st.just("inverter_adapter"), "fed_by": st.sampled_from(inverters)}
        ways.append(st.fixed_dictionaries(adapter | {"adapter_efficiency": fractions}))
    return st.one_of(ways)


_powers = st.one_of(
    st.just({}),
    st.fixed_dictionaries({"power_w": floats(0, 1e5)}),
    st.fixed_dictionaries({"current_a": floats(0, 1e4), "voltage_v": floats(0, 60, above_0=True)}),
)
_uses = st.one_of(
    st.just({}),
    st.fixed_dictionaries({"daily_use_h": floats(0, 1e4)}),
    st.fixed_dictionaries({"events_per_day": floats(0, 1e4), "event_min": floats(0, 1e5)}),
)
_readings = st.one_of(
    st.fixed_dictionaries(
        {"energy_wh": floats(0, 1e7), "over_h": floats(0, 1e4, above_0=True), "at": st.just("wall_plug")}
    ),
    st.fixed_dictionaries(
        {"charge_ah": floats(0, 1e5, above_0=True), "voltage_v": floats(0, 60, above_0=True), "date": dates,
         "over_h": st.integers(1, 99), "at": st.just("at_battery"), "ambient_c": floats(-60, 250), "meter": names}
    ),
)  # fmt: skip


@st.composite
def loads(draw: st.DrawFn, load_id: str, feed: dict[str, Any], days: list[str]) -> dict[str, Any]:
    use = [{"day_type": day, "daily_use_h": draw(floats(0, 24))} for day in days if draw(st.booleans())]
    return {
        "id": load_id,
        "name": draw(names),
        **feed,
        **draw(_powers),
        **draw(_uses),
        **({"day_use": use} if use else {}),
        **draw(some(note=notes, quantity=st.integers(1, 1000), cycles=st.booleans(), duty_cycle=fractions,
                    provenance=st.sampled_from(["measured", "label", "guess", None]), reading=_readings,
                    cold_box=st.fixed_dictionaries({"inside_c": floats(-60, 60)}), standby_w=floats(0, 1e5),
                    circuit_use=st.sampled_from(["lighting", "pump", "other"]), alternates_with=names)),
    }  # fmt: skip


@st.composite
def runs(draw: st.DrawFn, run_id: str, from_id: str, to_id: str) -> dict[str, Any]:
    out = draw(lengths("length_out_m"))
    chassis = draw(st.booleans())
    back = {"return_path": "chassis"} if chassis else {"length_back_m": draw(floats(0, 1000))}
    return {
        "id": run_id, "name": draw(names), "from_id": from_id, "to_id": to_id, **out, **back,
        **draw(some(conductor=sizes, insulation_c=floats(-60, 250), engine_space=st.booleans(), note=notes,
                    conductors_together=st.integers(1, 200), purpose=st.sampled_from(["power", "sense", "charging"]),
                    installation=st.sampled_from(["enclosed", "clipped"]), drop_limit_percent=floats(0, 100, True))),
    }  # fmt: skip


class Wiring:
    """Runs laid one by one, each from a node that is reached already."""

    def __init__(self, draw: st.DrawFn) -> None:
        self.draw = draw
        self.runs: list[dict[str, Any]] = []
        self.reached = ["bank"]

    def join(self, sources: list[str], node: str) -> None:
        """Lay a run to the node from one of the sources."""
        source = self.draw(st.sampled_from(sources))
        self.runs.append(self.draw(runs(f"W{len(self.runs) + 1}", source, node)))

    def extend(self, nodes: list[str]) -> None:
        """Lay a run to each node, from which further runs may lead on."""
        for node in nodes:
            self.join(self.reached, node)
            self.reached.append(node)

    def join_some(self, nodes: list[str]) -> None:
        for node in nodes:
            if self.draw(st.booleans()):
                self.join(self.reached, node)

    def join_load(self, load: dict[str, Any]) -> None:
        """Lay a run to the load, or none, the way it says it is fed."""
        feed = load.get("feed", "direct")
        if feed in ("direct", "converter") and self.draw(st.booleans()):
            self.join(self.reached if feed == "direct" else [load["fed_by"]], load["id"])


def _ids(draw: st.DrawFn, prefix: str) -> list[str]:
    return [f"{prefix}{n}" for n in range(draw(st.integers(0, 2)))]


def _wired_loads(
    draw: st.DrawFn, wiring: Wiring, inverters: list[str], converters: list[str], days: list[str]
) -> list[dict[str, Any]]:
    rows: list[dict[str, Any]] = []
    for n in range(draw(st.integers(0, 4))):
        rows.append(draw(loads(f"load{n}", draw(feeds(inverters, converters)), days)))
        wiring.join_load(rows[-1])
    return rows


def _devices(draw: st.DrawFn, laid: list[dict[str, Any]]) -> list[dict[str, Any]]:
    return [
        {"id": f"F{n}", "run_id": run["id"],
         **draw(some(device_class=st.sampled_from(["blade", "breaker"]), rating_a=floats(0, 1e5, True),
                     distance_m=floats(0, 1000), interrupting_a=floats(0, 1e5, True)))}
        for n, run in enumerate(laid) if draw(st.booleans())
    ]  # fmt: skip


def _facts(draw: st.DrawFn, system_v: int) -> dict[str, Any]:
    """What a rig says of itself, apart from its parts."""
    return {
        "format": "rigcalc-rig", "version": 1, "name": draw(names), "system_v": system_v,
        "ambient_usual_c": draw(floats(-60, 20)), "ambient_hot_c": draw(floats(20, 250)),
        **draw(some(note=notes, revision=names, date=dates, units=st.sampled_from(["metric", "us"]))),
    }  # fmt: skip


def _inverter(draw: st.DrawFn, inverter_id: str) -> dict[str, Any]:
    curve = {"efficiency_10": 0.8, "efficiency_50": 0.9, "efficiency_100": 0.88}
    efficiency = draw(st.sampled_from([curve, {"efficiency": 0.85}]))
    return {"id": inverter_id, "name": draw(names), "rated_w": 900.0, "on_h": draw(floats(0, 24)), **efficiency}


@st.composite
def rigs(draw: st.DrawFn) -> dict[str, Any]:
    """A whole rig, valid by construction: a tree of runs, each load reached the way it says it is fed."""
    system_v = draw(st.sampled_from([12, 24, 48]))
    days, inverters, converters, buses, blocks = (_ids(draw, kind) for kind in ("day", "inv", "dc", "X", "B"))
    wiring = Wiring(draw)
    wiring.extend([*buses, *blocks])
    wiring.join_some([*inverters, *converters])
    rows = _wired_loads(draw, wiring, inverters, converters, days)
    return {
        **_facts(draw, system_v),
        "day_types": [{"id": day, "name": draw(names)} for day in days],
        "bank": draw(banks(system_v)),
        "inverters": [_inverter(draw, one) for one in inverters],
        "converters": [{"id": one, "name": draw(names), "output_v": 12.0, "efficiency": 0.9} for one in converters],
        "loads": rows,
        "buses": [{"id": one, "name": draw(names)} for one in buses],
        "blocks": [{"id": one, "name": draw(names), **draw(some(rating_a=floats(0, 1e5)))} for one in blocks],
        "runs": wiring.runs,
        "devices": _devices(draw, wiring.runs),
    }


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=10)
    | st.sampled_from([10**400, -1, 1e308, "bank", "W1", "F1", "6 ft", "", "\ud800", "\x00", "<b>x</b>"]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=6,
)  # fmt: skip
_keys = st.sampled_from(
    ["typed", "id", "name", "power_w", "length_out_m", "from_id", "to_id", "fed_by", "feed", "version", "bank", "loads",
     "runs", "parallel", "series", "system_v", "conductor", "powr_w"]
) | st.text(max_size=6)  # fmt: skip


def _places(value: Any) -> list[tuple[Any, Any]]:
    """Every container of the data with each key or index in it."""
    found: list[tuple[Any, Any]] = []
    waiting = [value]
    while waiting:
        one = waiting.pop()
        inside = list(one.items()) if isinstance(one, dict) else list(enumerate(one)) if isinstance(one, list) else []
        found += [(one, key) for key, _ in inside]
        waiting += [child for _, child in inside]
    return found


@st.composite
def damaged(draw: st.DrawFn) -> dict[str, Any]:
    """A valid rig with one to four places deleted, replaced, doubled, inserted or exchanged."""
    data = draw(st.sampled_from(NAMES).map(example_data) | st.builds(small_data) | rigs())
    for _ in range(draw(st.integers(1, 4))):
        places = _places(data)
        if not places:
            break
        holder, key = draw(st.sampled_from(places))
        how = draw(st.sampled_from(["delete", "replace", "insert", "double", "exchange"]))
        if how == "delete":
            del holder[key]
        elif how == "replace":
            holder[key] = draw(json_values)
        elif how == "insert" and isinstance(holder, dict):
            holder[draw(_keys)] = draw(json_values)
        elif how == "double" and isinstance(holder, list):
            holder.append(copy.deepcopy(holder[key]))
        elif how == "exchange":
            other, at = draw(st.sampled_from(places))
            holder[key] = copy.deepcopy(other[at]) if not isinstance(other, list) or at < len(other) else None
    return data
