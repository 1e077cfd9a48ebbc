"""The inputs of one circuit: its device, its run's sheath, its block, and what the whole rig states for protection."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from rigcalc.rules.parts import circuit, rig_run
from rigcalc.units import show
from rigcalc.widgets.forms import Box, part_of
from rigcalc.widgets.kit import Fields, column
from rigcalc.widgets.partform import PartForm
from rigcalc.widgets.session import Session
from rigcalc.widgets.wiring import CLASS_LABELS, run_label, show_choice, slider_at

_CLASSES = tuple(CLASS_LABELS.items())
_CONDUCTORS = (("positive", "the supply"), ("negative", "the return"))
DEVICE = (
    Box("device_class", "Class", kind="choice", choices=(("", "choose for me"), *_CLASSES)),
    Box("rating_a", "Rating", help="empty: the smallest that holds the load"),
    Box(
        "distance_m",
        "Distance from the source",
        help="along the conductor, from where the run starts",
        slider=(0.0, 2.0, 0.01),
        slider_us=(0.0, 7.0, 0.1),
    ),
    Box("voltage_rating_v", "Made for, DC volts", help="empty: its class's figure"),
    Box("interrupting_a", "Breaks at most", help="empty: its class's figure; the one printed on it replaces it"),
    Box("holder_rating_a", "Its holder is made for", help="empty: the usual holder, where one is known"),
    Box("ambient_c", "Air around it", help="empty: the rig's hot ambient", slider=(20.0, 70.0, 1.0)),
    Box("conductor", "Sits in", kind="choice", choices=_CONDUCTORS),
)
RUN = (Box("sheathed", "Sheathed up to the fuse", kind="check", help="its run, in a sheath, conduit or enclosure"),)
BLOCK = (
    Box("rating_a", "Made for"),
    Box("branch_class", "Its ways take", kind="choice", choices=(("", "not stated"), *_CLASSES)),
)
BANK = (
    Box(
        "unit_short_circuit_a",
        "Short-circuit current of one unit, by its maker",
        help="empty: a safe-side figure from memory",
    ),
)


class CircuitForms:
    """A choice of circuit and the forms that belong to it."""

    def __init__(self, session: Session, picked: Callable[[str], object]) -> None:
        self.session = session
        self.which = Fields(
            [{"key": "device", "label": "Circuit", "kind": "choice", "text": "", "choices": []}], "One circuit"
        )
        self.which.on_edit(lambda _key, device_id: picked(device_id))
        self.device = PartForm(session, "devices", DEVICE)
        self.run = PartForm(session, "runs", RUN)
        self.block = PartForm(session, "blocks", BLOCK, "Its block")
        self.switch = PartForm(session, "rig", self._switch(), "Main switch")
        self.bank = PartForm(session, "bank", BANK, "Battery bank")
        self.box = column()

    @property
    def picked(self) -> str:
        """The device shown; empty where there is none."""
        return self.device.part_id

    def point_at(self, device_id: str) -> None:
        """Show another circuit."""
        device = part_of(self.session.rig, "devices", device_id) if device_id else None
        run = rig_run(self.session.study, device.run_id) if device else None
        self.device.point_at(device_id)
        self.run.point_at(run.id if run else "")
        self.block.point_at(self._block(run.from_id, run.to_id) if run else "")

    def _block(self, *nodes: str) -> str:
        """The block the run starts at, else the one it feeds."""
        ids = {block.id for block in self.session.rig.blocks}
        return next((node for node in nodes if node in ids), "")

    def _switch(self) -> tuple[Box, ...]:
        runs = tuple((run.id, run_label(run)) for run in self.session.rig.runs)
        return (Box("main_switch_run", "Main switch in", kind="choice", choices=(("", "not stated"), *runs)),)

    def refresh(self) -> None:
        """Show the circuit as it is now."""
        rig = self.session.rig
        runs = {run.id: run for run in rig.runs}
        choices = [(one.id, f"{one.id} · {runs[one.run_id].name}") for one in rig.devices]
        show_choice(self.which, "device", self.picked, choices)
        blocks = {block.id: block for block in rig.blocks}
        if self.block.part_id not in blocks:
            self.point_at(self.picked)
        self.device.refresh(self._taken() if self.picked else None)
        self.run.refresh()
        self.block.refresh()
        self.switch.boxes = {box.field: box for box in self._switch()}
        self.switch.refresh()
        self.bank.refresh()
        forms = [self.device, self.run] if self.picked else []
        forms += [self.block] if self.block.part_id else []
        wanted = (self.which, *(form.fields for form in forms), self.switch.fields, self.bank.fields)
        if self.box.children != wanted:
            self.box.children = wanted

    def _taken(self) -> dict[str, dict[str, Any]]:
        """What stands for each empty box of the device."""
        rig, one = self.session.rig, circuit(self.session.study, self.picked)
        label, units = CLASS_LABELS.get(one.device_class or "", ""), rig.units
        found = {"device_class": f"taken: {label}", "rating_a": "", "voltage_rating_v": "", "interrupting_a": ""}
        if one.rating_a is not None:
            found["rating_a"] = f"empty: {one.rating_a:g} A, the smallest that holds the load"
        if one.voltage_rating_v is not None:
            found["voltage_rating_v"] = f"empty: {show(one.voltage_rating_v, 'v', units)}, its class's figure"
        if one.interrupting_a is not None:
            found["interrupting_a"] = f"empty: {show(one.interrupting_a, 'a', units)}, its class's; its own print wins"
        stated = {field for field in found if getattr(self.device.part, field) is not None}
        helps: dict[str, dict[str, Any]] = {
            field: {"help": text} for field, text in found.items() if field not in stated
        }
        if self.device.part.ambient_c is None:
            slider = slider_at(self.device.part, self.device.boxes["ambient_c"], rig.ambient_hot_c, units)
            helps["ambient_c"] = {"help": "empty: the rig's hot ambient", **slider}
        return helps
