"""A remedy in words: what is done, and what it does, in figures taken from the changed rig's study."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from rigcalc.model.edit import Change
from rigcalc.rules.finding import Finding
from rigcalc.rules.parts import circuit, rig_run, run_study
from rigcalc.rules.words import apart, days_apart, quantity
from rigcalc.study import Study
from rigcalc.study.network_results import CircuitStudy
from rigcalc.tables.overcurrent import device_class
from rigcalc.tables.size_text import parse_size

_WINDOW_RULES = ("P03", "P04", "P05", "P06", "P13")


def done(after: Study, one: Change) -> str:
    """A change as an instruction: "use 6 AWG for W7"."""
    if one.new:
        run_id = dict(one.fields)["run_id"]
        return f"put {_device(circuit(after, one.id))} at the start of {run_id}"
    field, value = one.fields[0]
    return _DONE[one.kind, field](after, one.id, value)


def _device(one: CircuitStudy) -> str:
    title = device_class(one.device_class).title.split(",")[0] if one.device_class else "device"
    rating = "" if one.rating_a is None else f"{one.rating_a:g} A "
    return f"a {rating}{title[:1].lower()}{title[1:]}"


def _conductor(after: Study, run_id: str, size: Any) -> str:
    choice = run_study(after, run_id).choice
    if size is None:
        return f"leave the conductor of {run_id} to be chosen ({choice.size if choice else 'none fits'})"
    return f"use {size} for {run_id}"


def _back(after: Study, run_id: str, size: Any) -> str:
    return f"use {size or 'the same conductor'} for the return of {run_id}"


def _rating(after: Study, device_id: str, rating_a: Any) -> str:
    now = circuit(after, device_id).rating_a
    if rating_a is None:
        return f"leave the rating of {device_id} to be chosen ({f'{now:g} A' if now else 'none fits'})"
    return f"fit {rating_a:g} A at {device_id}"


def _return_path(after: Study, run_id: str, _: Any) -> str:
    length_m = rig_run(after, run_id).length_back_m or 0.0
    return f"run a return conductor of {quantity(after, length_m, 'm')} for {run_id}"


def _on_h(after: Study, inverter_id: str, hours_h: Any) -> str:
    name = next(one.name for one in after.rig.inverters if one.id == inverter_id)
    return f"switch {name} on for only {quantity(after, hours_h, 'h')} a day"


_DONE: dict[tuple[str, str], Callable[[Study, str, Any], str]] = {
    ("runs", "conductor"): _conductor,
    ("runs", "return_conductor"): _back,
    ("runs", "colour"): lambda after, part_id, value: f"take the scheme's own colours for {part_id}",
    ("runs", "sheathed"): lambda after, part_id, value: f"run {part_id} in a sheath as far as its device",
    ("runs", "return_path"): _return_path,
    ("devices", "rating_a"): _rating,
    ("devices", "device_class"): lambda after, part_id, value: f"fit {_device(circuit(after, part_id))} at {part_id}",
    ("devices", "distance_m"): lambda after, part_id, value: (
        f"move {part_id} to {quantity(after, value, 'm')} from its source"
    ),
    ("devices", "conductor"): lambda after, part_id, value: f"move {part_id} from the return into the supply",
    ("bank", "parallel"): lambda after, part_id, value: f"use {value} strings in parallel",
    ("bank", "depth_of_discharge"): lambda after, part_id, value: (
        f"count on {quantity(after, 100 * value, 'percent', 2)} of the bank's capacity"
    ),
    ("inverters", "on_h"): _on_h,
    ("rig", "chassis_bond"): lambda after, part_id, value: f"use {value} for the bond to the chassis",
}


def effect(before: Study, after: Study, finding: Finding, changes: tuple[Change, ...]) -> str:
    """What the changes did, after a colon; empty where the rule has no figure of its own."""
    added = next((one.id for one in changes if one.new and one.kind == "devices"), None)
    if added or finding.rule in _WINDOW_RULES:
        return _window(after, added or finding.subject)
    if finding.rule not in _FIGURES:
        return ""
    what, suffix, figure = _FIGURES[finding.rule]
    was, now = _value(figure, before, finding.subject), _value(figure, after, finding.subject)
    if now is None or was == now:
        return ""
    if was is None:
        return f": {what} is {quantity(after, now, suffix, 2) if suffix else f'{now:.3g} days'}"
    digits = 2 if suffix == "percent" else 3
    old, new = apart(after, was, now, suffix, digits) if suffix else days_apart(was, now)
    return f": {what} {'rises' if now > was else 'falls'} from {old} to {new}"


def _value(figure: Callable[[Study, str], float | None], study: Study, subject: str) -> float | None:
    try:
        return figure(study, subject)
    except StopIteration:  # the part was not there before the change
        return None


def _window(after: Study, circuit_id: str) -> str:
    one = circuit(after, circuit_id)
    if one.rating_a is None or one.most_a is None:
        return ""
    least, most = quantity(after, one.least_a, "a"), quantity(after, one.most_a, "a")
    return f": {one.rating_a:g} A lies between the {least} its load needs and the {most} it may be"


def _ampacity(study: Study, run_id: str) -> float | None:
    choice = run_study(study, run_id).choice
    return choice.ampacity_a if choice else None


def _terminal(study: Study, run_id: str) -> float | None:
    choice = run_study(study, run_id).choice
    return choice.terminal_a if choice else None


def _drop(study: Study, run_id: str) -> float | None:
    one = run_study(study, run_id)
    return one.choice.way_drop_percent if one.choice and one.solved else None


def _area(study: Study, run_id: str) -> float | None:
    choice = run_study(study, run_id).choice
    return choice.area_mm2 if choice else None


def _return_area(study: Study, run_id: str) -> float | None:
    typed = rig_run(study, run_id).return_conductor
    size = parse_size(typed)[0] if typed else None
    return size.area_mm2 if size else _area(study, run_id)


def _load_v(study: Study, node: str) -> float | None:
    return study.network.node_v.get(node)


_Figure = tuple[str, str, Callable[[Study, str], float | None]]
_FIGURES: dict[str, _Figure] = {
    "B01": ("the autonomy", "", lambda study, _: study.autonomy.autonomy_d),
    "B02": ("the autonomy", "", lambda study, _: study.autonomy.autonomy_d),
    "B05": ("the voltage left", "v", _load_v),
    "B22": ("the autonomy of the aged bank", "", lambda study, _: study.autonomy.autonomy_strict_d),
    "L07": (
        "the idle energy",
        "wh",
        lambda study, subject: next(one.idle_wh for one in study.energy.inverters if one.inverter_id == subject),
    ),
    "P02": ("the unprotected length", "m", lambda study, subject: circuit(study, subject).distance_m),
    "P08": ("what it can break", "a", lambda study, subject: circuit(study, subject).interrupting_a),
    "P10": ("its voltage rating", "v", lambda study, subject: circuit(study, subject).voltage_rating_v),
    "P17": (
        "its feeder device",
        "a",
        lambda study, subject: next(one.feeder_rating_a for one in study.network.blocks if one.block_id == subject),
    ),
    "W01": ("what it may carry", "a", _ampacity),
    "W02": ("what it may carry", "a", _ampacity),
    "W03": ("the drop", "percent", _drop),
    "W05": ("the drop", "percent", _drop),
    "W06": ("what it may carry", "a", _ampacity),
    "W07": ("its copper", "mm2", _area),
    "W10": ("its copper", "mm2", _return_area),
    "W21": ("what its terminals allow", "a", _terminal),
}
