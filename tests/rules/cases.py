"""For each rule the smallest rig that breaks it, made from the small rig by the change named here, and its cure."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from tests.rigs import small_data

Data = dict[str, Any]
Edit = Callable[[Data], object]


@dataclass(frozen=True)
class Case:
    """A rule broken. Without a ``cure`` of its own the finding must come with a remedy that cures it."""

    rule: str
    subject: str
    severity: str
    trip: Edit
    cure: Edit | None = None
    says: str = ""  # words the sentence must contain
    remedy: str = ""  # the remedy's sentence

    def broken(self) -> Data:
        """The rig that breaks the rule."""
        data = small_data()
        self.trip(data)
        return data

    def cured(self) -> Data:
        """The same rig with the change a person would make."""
        data = self.broken()
        assert self.cure is not None
        self.cure(data)
        return data


def lamp(**fields: Any) -> Edit:
    """Fields of the lamp; None takes a field out."""
    return lambda data: _set(data["loads"][0], fields)


def bank(**fields: Any) -> Edit:
    return lambda data: _set(data["bank"], fields)


def top(**fields: Any) -> Edit:
    return lambda data: _set(data, fields)


def run(number: int, **fields: Any) -> Edit:
    return lambda data: _set(data["runs"][number - 1], fields)


def device(number: int, **fields: Any) -> Edit:
    return lambda data: _set(data["devices"][number - 1], fields)


def block(**fields: Any) -> Edit:
    return lambda data: _set(data["blocks"][0], fields)


def both(*edits: Edit) -> Edit:
    def edit(data: Data) -> None:
        for one in edits:
            one(data)

    return edit


def without_device(number: int) -> Edit:
    return lambda data: data["devices"].pop(number - 1)


def _set(part: Data, fields: Data) -> None:
    for key, value in fields.items():
        if value is None:
            part.pop(key, None)
        else:
            part[key] = value


def inverter(**fields: Any) -> Edit:
    """The lamp behind an inverter that W2 feeds."""
    whole = {"id": "inv", "name": "Inverter", "rated_w": 100.0, "on_h": 4.0, "efficiency": 0.85, "idle_w": 1.0}

    def edit(data: Data) -> None:
        _set(whole, fields)
        data["inverters"] = [dict(whole)]
        _set(data["runs"][1], {"to_id": "inv"})
        _set(data["loads"][0], {"feed": "inverter", "fed_by": "inv", "max_fuse_a": None})
        _set(data["devices"][1], {"rating_a": None})

    return edit


def second_lamp(data: Data) -> None:
    """A second lamp on the block, its conductor and fuse left to be chosen."""
    data["loads"].append(data["loads"][0] | {"id": "lamp2", "name": "Second lamp"})
    data["runs"].append({k: v for k, v in data["runs"][1].items() if k != "conductor"} | {"id": "W3", "to_id": "lamp2"})
    data["devices"].append({"id": "F3", "run_id": "W3", "distance_m": 0.0})


def sense_run(data: Data) -> None:
    """A thin run from the bank to a monitor, with no device."""
    data["buses"] = [{"id": "M1", "name": "Monitor"}]
    thin = {"id": "W3", "name": "Monitor lead", "from_id": "bank", "to_id": "M1", "purpose": "sense"}
    data["runs"].append(data["runs"][1] | thin)


def always_live(data: Data) -> None:
    """The same run with a small fuse at its start."""
    sense_run(data)
    data["devices"].append({"id": "F3", "run_id": "W3", "distance_m": 0.0})


def without_inverter(data: Data) -> None:
    """The lamp of `inverter` fed directly again."""
    del data["inverters"]
    _set(data["runs"][1], {"to_id": "lamp"})
    _set(data["loads"][0], {"feed": None, "fed_by": None})


cold_box = lamp(
    name="Fridge",
    cycles=True,
    daily_use_h=24.0,
    duty_cycle=0.6,
    duty_ambient_c=20.0,
    cold_box={"inside_c": 4.0},
    circuit_use="other",
)
free_fuse = both(lamp(max_fuse_a=None), device(2, rating_a=None))
on_24_v = both(
    top(system_v=24), bank(series=2, lowest_working_v=24.0, highest_charge_v=28.8), lamp(lowest_working_v=21.0)
)

CASES = (
    Case("L01", "rig", "advice", lamp(provenance="guess"), lamp(provenance="measured"), says="Measure Lamp first"),
    Case("L03", "lamp", "warning", lamp(cycles=True, duty_cycle=0.4), lamp(duty_ambient_c=20.0)),
    Case("L03", "lamp", "warning", lamp(cycles=True, duty_ambient_c=20.0), lamp(duty_cycle=0.4)),
    Case("L04", "lamp", "warning", both(cold_box, top(ambient_hot_c=35.0)), lamp(duty_cycle=0.3), says="runs all"),
    Case("L05", "lamp", "stop", lamp(daily_use_h=25.0), lamp(daily_use_h=2.5), says="25.0 h a day; a day has 24.0 h"),
    Case("L05", "lamp", "stop", lamp(daily_use_h=None, events_per_day=300.0, event_min=5.0), lamp(events_per_day=3.0)),
    Case("L07", "inv", "warning", inverter(idle_w=None), lambda data: data["inverters"][0].update(idle_w=1.0)),
    Case("L07", "inv", "advice", inverter(idle_w=6.0, on_h=24.0), remedy="Switch Inverter on for only 4.00 h a day"),
    Case("L08", "rig", "advice", lamp(standby_w=2.0), lamp(standby_w=None), says="never off: Lamp"),
    Case("B01", "bank", "warning", bank(wanted_autonomy_days=6.0), says="5.1 days at this use; 6.0 days are wanted"),
    Case("B02", "bank", "warning", bank(depth_of_discharge=0.95), says="95 %"),
    Case("B03", "bank", "stop", bank(unit_discharge_max_a=4.0), bank(unit_discharge_max_a=50.0)),
    Case(
        "B03",
        "bank",
        "stop",
        both(bank(unit_discharge_max_a=5.0, unit_peak_a=8.0), lamp(starting_power_w=120.0)),
        bank(unit_peak_a=20.0),
        says="When Lamp starts",
    ),
    Case(
        "B03",
        "bank",
        "stop",
        both(
            bank(unit_discharge_max_a=5.0, unit_peak_a=20.0, unit_peak_s=1.0),
            lamp(starting_power_w=120.0, starting_s=2.0),
        ),
        bank(unit_peak_s=5.0),
        says="for longer than its peak limit holds",
    ),
    Case(
        "B03",
        "bank",
        "warning",
        both(bank(unit_discharge_max_a=5.0), lamp(starting_power_w=120.0)),
        bank(unit_peak_a=20.0, unit_peak_s=5.0),
        says="is not stated",
    ),
    Case("B05", "lamp", "warning", lamp(lowest_working_v=11.6), says="may stop"),
    Case("B22", "bank", "advice", bank(wanted_autonomy_days=4.5)),
    Case("W01", "W2", "stop", both(free_fuse, lamp(power_w=300.0))),
    Case("W02", "W2", "stop", both(free_fuse, lamp(power_w=200.0), run(2, engine_space=True)), says="engine space"),
    Case("W03", "W2", "warning", run(2, length_out_m=30.0, length_back_m=30.0)),
    Case("W05", "W2", "stop", run(2, length_out_m=60.0, length_back_m=60.0), says="cannot deliver"),
    Case("W05", "W2", "warning", run(2, length_out_m=13.0, length_back_m=13.0), says="bank low"),
    Case(
        "W06", "W1", "stop", both(free_fuse, lamp(power_w=400.0), run(2, conductor=None), second_lamp), says="W2 and W3"
    ),
    Case("W07", "W2", "warning", both(top(rule_set="us_boat"), run(2, conductor="18 AWG")), says="16 AWG"),
    Case("W07", "W2", "warning", both(top(rule_set="us_boat"), run(2, return_conductor="18 AWG")), says="return"),
    Case("W09", "W2", "stop", run(2, conductor="6"), says='"6"'),
    Case("W09", "W2", "stop", run(2, return_conductor="6"), says="return conductor"),
    Case("W09", "rig", "stop", top(chassis_bond="6"), top(chassis_bond="6 AWG")),
    Case("W10", "W2", "stop", run(2, return_conductor="16 AWG"), remedy="Use 14 AWG for the return of W2"),
    Case("W11", "rig", "stop", run(2, return_path="chassis", length_back_m=None), says="no conductor bonds it"),
    Case("W11", "rig", "stop", top(chassis_bond="10 AWG"), remedy="Use 8 AWG for the bond to the chassis."),
    Case(
        "W11",
        "W2",
        "stop",
        both(top(rule_set="us_boat"), run(2, return_path="chassis", length_back_m=None)),
        says="hull",
    ),
    Case("W21", "W2", "stop", both(free_fuse, lamp(power_w=200.0), run(2, insulation_c=90.0, terminal_c=60.0))),
    Case("P01", "W1", "stop", without_device(1), says="W1 (Bank to block)"),
    Case("P02", "F1", "stop", device(1, distance_m=0.6), says="0.600 m"),
    Case("P03", "F2", "stop", both(lamp(max_fuse_a=None), device(2, rating_a=20.0)), says="14 AWG allows 15.0 A"),
    Case("P03", "F2", "stop", lamp(max_fuse_a=5.0, power_w=30.0), says="maker of Lamp"),
    Case("P04", "F2", "warning", device(2, rating_a=5.0), says="for hours"),
    Case("P04", "F2", "warning", lamp(starting_power_w=300.0, starting_s=5.0, max_fuse_a=None), says="start"),
    Case("P05", "F2", "stop", both(free_fuse, lamp(power_w=150.0)), says="No rating fits"),
    Case("P06", "F1", "stop", without_device(2), says="14 AWG"),
    Case("P07", "W3", "stop", sense_run, says="always live"),
    Case("P08", "F2", "stop", bank(unit_short_circuit_a=3000.0), says="can break 1000 A"),
    Case("P08", "F2", "warning", bank(unit_short_circuit_a=1200.0), says="Little is left"),
    Case("P10", "F2", "stop", device(2, voltage_rating_v=14.0), says="highest charging voltage of 14.4 V"),
    Case("P10", "F2", "stop", device(2, voltage_rating_v=6.0), says="nominal voltage of 12.0 V"),
    Case(
        "P12", "F2", "advice", device(1, device_class="blade", rating_a=15.0), says="F1 before it", remedy="Fit 7.5 A"
    ),
    Case("P13", "F2", "warning", lamp(power_w=90.0), says="75 %"),
    Case("P13", "F2", "warning", device(2, holder_rating_a=8.0), says="holder"),
    Case(
        "P14",
        "rig",
        "info",
        both(always_live, top(main_switch_run="W1")),
        run(3, from_id="X2"),
        says="does not cut off W3",
    ),
    Case("P15", "F2", "stop", device(2, conductor="negative"), says="stays live"),
    Case("P17", "X2", "warning", block(rating_a=45.0), says="F1 before it"),
    Case("P17", "X2", "stop", block(rating_a=3.0), block(rating_a=60.0), says="together"),
    Case("A01", "inv", "warning", inverter(rated_w=60.0), lambda data: data["inverters"][0].update(rated_w=100.0)),
    Case("A05", "inv", "info", inverter(), without_inverter, says="licensed electrician"),
    Case(
        "D02",
        "rig",
        "warning",
        both(
            top(system_v=48), bank(series=4, lowest_working_v=48.0, highest_charge_v=61.0), lamp(lowest_working_v=42.0)
        ),
        bank(highest_charge_v=58.0),
        says="end at 60",
    ),
    Case("D04", "W2", "warning", both(top(colour_scheme="abyc"), run(2, colour="yellow")), says="reverses it"),
    Case(
        "D04",
        "rig",
        "warning",
        both(top(colour_scheme="iso"), inverter()),
        top(colour_scheme="abyc"),
        says="black means",
    ),
    Case(
        "D01",
        "rig",
        "advice",
        both(free_fuse, lamp(power_w=2500.0), run(1, conductor=None), run(2, conductor=None)),
        on_24_v,
    ),
    Case(
        "D07",
        "rig",
        "info",
        lambda data: None,
        both(run(1, ambient_c=30.0), run(2, ambient_c=30.0), bank(wiring_efficiency=0.99)),
    ),
)
