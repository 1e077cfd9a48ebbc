"""Rigs that hold loads, feeders and a bank, and nothing to wire. Invented figures unless a test says otherwise."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from rigcalc.model import Rig, rig_from_data
from rigcalc.study.autonomy import autonomy_study
from rigcalc.study.energy import energy_study
from rigcalc.study.results import AutonomyStudy, EnergyStudy, LoadEnergy
from tests.rigs import small_data

CURVE = {"efficiency_10": 0.85, "efficiency_50": 0.93, "efficiency_100": 0.91}


def load(load_id: str = "one", **fields: Any) -> dict[str, Any]:
    """A load of 100 W for 5 h, measured, fed directly."""
    return {
        "id": load_id,
        "name": load_id.title(),
        "provenance": "measured",
        "power_w": 100.0,
        "daily_use_h": 5.0,
    } | fields


def unstated(load_id: str = "one", **fields: Any) -> dict[str, Any]:
    """A load that says no more than its name."""
    return {"id": load_id, "name": load_id.title()} | fields


def inverter(inverter_id: str = "inv", **fields: Any) -> dict[str, Any]:
    """2000 W, on 10 h a day, with a loss curve unless one efficiency is given."""
    form = {} if "efficiency" in fields else CURVE
    return {"id": inverter_id, "name": "Inverter", "rated_w": 2000.0, "on_h": 10.0} | form | fields


def converter(converter_id: str = "dc", efficiency: float = 0.92) -> dict[str, Any]:
    return {"id": converter_id, "name": "Converter", "output_v": 5.0, "efficiency": efficiency}


def lead(**fields: Any) -> dict[str, Any]:
    """12 V of lead-acid, half of it to be used, no wear counted."""
    bank = small_data()["bank"] | {
        "chemistry": "agm",
        "cells_per_unit": 6,
        "depth_of_discharge": 0.5,
        "end_of_life_fraction": 1.0,
        "lowest_working_v": 11.5,
    }
    return bank | fields


def rig_of(*loads: dict[str, Any], bank: dict[str, Any] | None = None, **top: Any) -> Rig:
    """A rig with these loads; ``bank`` replaces fields of the small rig's bank, ``top`` keys of the rig."""
    data = small_data() | {"loads": list(loads), "runs": [], "devices": [], "blocks": []} | top
    data["bank"] |= bank or {}
    return rig_from_data(data)


def energy_of(*loads: dict[str, Any], **top: Any) -> EnergyStudy:
    return energy_study(rig_of(*loads, **top))


def autonomy_of(*loads: dict[str, Any], **top: Any) -> AutonomyStudy:
    rig = rig_of(*loads, **top)
    return autonomy_study(rig, energy_study(rig))


def row_of(study: EnergyStudy, load_id: str = "one") -> LoadEnergy:
    return next(row for row in study.rows if row.load_id == load_id)


def way(study: EnergyStudy, path: str, load_id: str = "one") -> float | None:
    """Battery energy of one way of feeding one load."""
    return next(cost.battery_wh for cost in study.paths if (cost.load_id, cost.path) == (load_id, path))


def numbers(least: float, most: float) -> st.SearchStrategy[float]:
    """Numbers as people type them: six decimals, no dust."""
    return st.floats(least, most).map(lambda value: round(value, 6))


_POWERS, _HOURS = numbers(1, 400), numbers(0, 24)
_FEEDS = st.sampled_from(
    [
        {"feed": "direct"},
        {"feed": "converter", "fed_by": "dc"},
        {"feed": "inverter", "fed_by": "inv"},
        {"feed": "inverter_adapter", "fed_by": "inv", "adapter_efficiency": 0.85},
    ]
)
_MAYBE = {
    "standby_w": numbers(0, 1),
    "starting_power_w": numbers(1, 2000),
    "alternates_with": st.just("never together"),
    "cold_box": st.builds(lambda inside: {"inside_c": inside}, numbers(-20, 8)),
    "duty_cycle": numbers(0.05, 1),
    "duty_ambient_c": numbers(10, 40),
    "quantity": st.integers(1, 5),
}


@st.composite
def loads(draw: st.DrawFn, most: int = 5) -> list[dict[str, Any]]:
    """Loads that state their power, hours and feed, and some of the rest."""
    found = []
    for at in range(draw(st.integers(1, most))):
        extra = draw(st.fixed_dictionaries({}, optional=_MAYBE))
        known = draw(st.sampled_from(["measured", "label", "guess", None]))
        provenance = {} if known is None else {"provenance": known}
        stated = {"power_w": draw(_POWERS), "daily_use_h": draw(_HOURS)}
        found.append({"id": f"l{at}", "name": f"Load {at}"} | stated | provenance | draw(_FEEDS) | extra)
    return found


@st.composite
def partly_stated(draw: st.DrawFn) -> list[dict[str, Any]]:
    """Loads with any of their facts left out, readings among them."""
    reading = st.fixed_dictionaries(
        {
            "energy_wh": numbers(0, 5000),
            "over_h": numbers(0.1, 100),
            "at": st.sampled_from(["wall_plug", "ac_behind_inverter", "dc_at_appliance", "at_battery"]),
        },
        optional={"ambient_c": numbers(-10, 40)},
    )
    facts = {"power_w": _POWERS, "daily_use_h": numbers(0, 40), "reading": reading, "cycles": st.booleans()}
    ranges = {"daily_low_wh": numbers(0, 500), "daily_high_wh": numbers(500, 5000)}
    found = []
    for at in range(draw(st.integers(0, 4))):
        extra = draw(st.fixed_dictionaries({}, optional=facts | ranges | _MAYBE))
        found.append({"id": f"l{at}", "name": f"Load {at}"} | draw(_FEEDS) | extra)
    return found


FED = {"inverters": [inverter()], "converters": [converter()]}
