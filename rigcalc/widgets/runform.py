"""The inputs of one run: lengths, return, surroundings, and the conductor as printed on the cable."""

from __future__ import annotations

from typing import Any

from rigcalc.errors import InputError
from rigcalc.model.edit import Change, change
from rigcalc.rules.parts import run_study
from rigcalc.tables.size_text import parse_size
from rigcalc.widgets.forms import Box
from rigcalc.widgets.partform import PartForm
from rigcalc.widgets.session import Session
from rigcalc.widgets.wiring import slider_at

_LENGTH = {"slider": (0.0, 15.0, 0.1), "slider_us": (0.0, 50.0, 0.5)}
_RETURNS = (("conductor", "by a conductor"), ("chassis", "through the chassis"))
_LAID = (
    ("", "not stated: enclosed"),
    ("enclosed", "enclosed: conduit, trunking, panel"),
    ("insulated_wall", "in an insulated wall"),
    ("clipped", "clipped to a surface"),
    ("free_air", "in free air"),
)
_PURPOSES = (
    ("power", "power"),
    ("sense", "sensing and monitoring"),
    ("charging", "a charging source"),
    ("cranking", "cranking an engine"),
)
BOXES = (
    Box("name", "Name", kind="text"),
    Box("length_out_m", "Length out", help="along the conductor", **_LENGTH),  # type: ignore[arg-type]
    Box("length_back_m", "Length back", help="along its own way", **_LENGTH),  # type: ignore[arg-type]
    Box("return_path", "Return", kind="choice", choices=_RETURNS),
    Box("chassis_resistance_ohm", "Resistance of the chassis, there and bonds", help="measured; mohm is understood"),
    Box("drop_limit_percent", "Drop allowed, from the bank on", slider=(1.0, 10.0, 0.5)),
    Box("ambient_c", "Warmest air along the run", slider=(20.0, 70.0, 1.0)),
    Box("conductors_together", "Current-carrying conductors together", kind="count", help="a pair alone is 2"),
    Box("grouping_factor", "Grouping factor", kind="number", help="from your standard; say in the note which"),
    Box("insulation_c", "Insulation is made for", help="printed on the cable; empty: the coolest of the tables"),
    Box("terminal_c", "Terminals are marked", help="empty: unmarked"),
    Box("installation", "Laid", kind="choice", choices=_LAID),
    Box("engine_space", "Through an engine space", kind="check"),
    Box("sheathed", "Sheathed up to its fuse", kind="check", help="in a sheath, conduit or enclosure"),
    Box("conductor", "Conductor, as printed on the cable", kind="text", placeholder="10 AWG, 6 mm2; empty: choose"),
    Box("return_conductor", "Return conductor, if another size", kind="text", placeholder="empty: the same"),
    Box("colour", "Colour of the supply wire", kind="text", placeholder="empty: by the scheme"),
    Box("return_colour", "Colour of the return wire", kind="text", placeholder="empty: by the scheme"),
    Box("purpose", "Used for", kind="choice", choices=_PURPOSES),
    Box("note", "Note", kind="note", placeholder=""),
)
_SIZES = ("conductor", "return_conductor")


class RunForm(PartForm):
    """The form of the run that is picked; what belongs to the other kind of return is left out."""

    def __init__(self, session: Session) -> None:
        super().__init__(session, "runs", BOXES)

    def specs(self) -> list[Any]:
        """The run's fields, each empty one saying what is then taken."""
        chassis = self.part.return_path == "chassis"
        out = "return_conductor" if chassis else "chassis_resistance_ohm"
        return [spec | self._taken(spec) for spec in super().specs() if spec["key"] != out]

    def _taken(self, spec: Any) -> dict[str, Any]:
        """What stands for an empty box, and where its slider then is."""
        key = spec["key"]
        if key == "length_back_m" and self.part.return_path == "chassis":
            return {"help": "none: the chassis returns; a length makes it a conductor"}
        if key == "ambient_c" and not spec["text"]:
            return {"help": "empty: the rig's hot ambient", **self._slider(key, self.session.rig.ambient_hot_c)}
        if key == "drop_limit_percent" and not spec["text"]:
            limit = run_study(self.session.study, self.part_id).drop_limit_percent
            if limit is None:
                return {"help": "empty: the rules have no read limit for this use"}
            return {"help": f"empty: {limit:.3g} % by the rules", **self._slider(key, limit)}
        return {}

    def _slider(self, key: str, value: float) -> dict[str, Any]:
        return slider_at(self.part, self.boxes[key], value, self.session.rig.units)

    def changes(self, key: str, text: str | bool) -> tuple[Change, ...]:
        """As any form, but a conductor must be a size, and a run has one return."""
        if key in _SIZES and isinstance(text, str) and text.strip():
            parse_size(text)
        if key == "return_path":
            return (self._return(str(text)),)
        found = super().changes(key, text)
        if key == "length_back_m" and self.part.return_path == "chassis" and str(text).strip():
            fields = (("return_path", "conductor"), ("chassis_resistance_ohm", None), *found[0].fields)
            return (Change("runs", self.part_id, fields),)
        return found

    def _return(self, path: str) -> Change:
        if path == "conductor" and self.part.length_back_m is None:
            raise InputError("Length back", None, "a length: type it, and the return is a conductor")
        return change("runs", self.part_id, return_path=path, length_back_m=None, return_conductor=None)
