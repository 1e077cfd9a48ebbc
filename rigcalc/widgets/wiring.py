"""What the pages on wiring share: names of places, free ids, how a run or circuit stands, marked numbers."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from rigcalc.model import Rig, Run
from rigcalc.model.network import BANK
from rigcalc.rules.finding import SEVERITIES, Finding
from rigcalc.widgets.forms import Box, spec_of
from rigcalc.widgets.kit import Fields, Markup, h

MARKS = {"stop": "■ stop", "warning": "▲ warning", "advice": "● advice"}
PASSES, OPEN = "passes", "not all stated"
CLASS_LABELS = {
    "blade": "blade fuse",
    "high_current_blade": "high-current blade fuse",
    "bolted_strip": "bolted strip fuse",
    "stud_block": "stud-mounted block fuse",
    "current_limiting": "current-limiting fuse",
    "breaker": "circuit breaker",
}
DECIDED = {
    "ampacity": "carrying the current",
    "terminal": "the terminals",
    "drop": "voltage drop",
    "fuse": "room for the fuse",
    "voltage": "the device's lowest voltage",
    "smallest of the table": "smallest read",
    "stated": "stated",
}


def places(rig: Rig) -> dict[str, str]:
    """Names of everything a run can start or end at, by id."""
    parts = (*rig.buses, *rig.blocks, *rig.converters, *rig.inverters, *rig.loads)
    return {BANK: "Bank"} | {part.id: part.name for part in parts}  # type: ignore[attr-defined]


def sources(rig: Rig) -> list[tuple[str, str]]:
    """Where a run may start, as choices."""
    parts = (*rig.buses, *rig.blocks, *rig.converters)
    return [(BANK, "Bank"), *((part.id, part.name) for part in parts)]  # type: ignore[attr-defined]


def next_id(rig: Rig, letter: str) -> str:
    """The next free id of a letter: one above the highest in use."""
    taken = {part_id for _, part_id in rig.parts()}
    numbers = [int(name[1:]) for name in taken if name[:1] == letter and name[1:].isdecimal()]
    return f"{letter}{max(numbers, default=0) + 1}"


def slider_at(part: Any, box: Box, value: float, system: str) -> dict[str, Any]:
    """The slider of an empty box, standing at the value that is taken for it."""
    return {"slider": spec_of(part.model_copy(update={box.field: value}), box, system)["slider"]}


def show_choice(fields: Fields, key: str, text: str, choices: list[tuple[str, str]]) -> None:
    """Bring a choice up to date; nothing is sent where it stands so already."""
    now = fields.spec(key)
    if (now.get("text"), now.get("choices")) != (text, choices):
        fields.update(key, text=text, choices=choices)


def run_label(run: Run) -> str:
    """A run as a choice names it."""
    return f"{run.id} · {run.name}"


def state(findings: Iterable[Finding], subjects: Iterable[str]) -> str:
    """The gravest finding about any of the subjects as mark and word, an accepted one as such; a mere note passes."""
    wanted = set(subjects)
    mine = [one for one in findings if one.subject in wanted and one.severity in MARKS]
    counted = [one.severity for one in mine if one.state == "found" and (one.stops or one.accepted is None)]
    if counted:
        return MARKS[min(counted, key=SEVERITIES.index)]
    taken = [one.severity for one in mine if one.state == "found"]
    if taken:
        return f"{MARKS[min(taken, key=SEVERITIES.index)]}, accepted"
    return OPEN if any(one.state != "found" for one in mine) else PASSES


def marked(text: str, failed: bool) -> Markup:
    """A number in a cell; one that misses its limit is marked, in more than colour."""
    return h('<span class="rig-stop">■ {}</span>', text) if failed else h("{}", text)
