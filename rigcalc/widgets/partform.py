"""A form bound to one part of the session's rig."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from rigcalc.errors import InputError
from rigcalc.widgets.forms import Box, change_of, in_words, part_of, spec_of
from rigcalc.widgets.kit import Fields
from rigcalc.widgets.session import Session


class PartForm:
    """Boxes over the fields of one part. An edit changes the rig; one that cannot be used stays in its box.

    Parameters
    ----------
    session : Session
        Whose rig it edits.
    kind, part_id : str
        As in a `Change`: "bank", "rig", or a list of the rig and an id.
    boxes : sequence of Box
        The fields, in order.
    title : str
        Heading of the form.

    Notes
    -----
    The page calls `refresh` after each change; only boxes that differ are sent.
    """

    def __init__(self, session: Session, kind: str, boxes: Sequence[Box], title: str = "", part_id: str = "") -> None:
        self.session, self.kind, self.part_id = session, kind, part_id
        self.boxes = {box.field: box for box in boxes}
        self._waiting: dict[tuple[str, str], tuple[str | bool, str]] = {}  # (part id, key) -> text, its error
        self.fields = Fields(self._specs(), title)
        self.fields.on_edit(self.edit)

    def point_at(self, part_id: str, boxes: Sequence[Box] | None = None) -> None:
        """Show another part of the same kind; with ``boxes``, other fields."""
        if boxes is not None:
            self.boxes = {box.field: box for box in boxes}
        self.part_id = part_id
        self.fields.replace(self._specs())

    def edit(self, key: str, text: str | bool) -> None:
        """One edited box: a change of the rig, or `InputError` with the text kept where it was typed."""
        box, at = self.boxes[key], (self.part_id, key)
        try:
            self.session.apply(change_of(self.kind, self.part_id, box, text, self.session.rig.units))
        except InputError as error:
            said = in_words(error, box, text)
            self._waiting[at] = (text, str(said))
            raise said from None
        self._waiting.pop(at, None)
        self.refresh()

    def forget(self) -> None:
        """Drop texts that could not be used."""
        self._waiting.clear()

    def refresh(self, more: Mapping[str, Mapping[str, Any]] | None = None) -> None:
        """Show the part as it is now; ``more`` adds to some boxes, as a help text."""
        changes: dict[str, dict[str, Any]] = {}
        for spec in self._specs():
            key, wanted = spec["key"], dict(spec) | dict((more or {}).get(spec["key"], {}))
            now = self.fields.spec(key)
            parts = {name: value for name, value in wanted.items() if name not in ("key", "kind")}
            changes |= {key: parts} if any(now.get(name) != value for name, value in parts.items()) else {}
        if changes:
            self.fields.update_many(changes)

    def _specs(self) -> list[Any]:
        part, system = part_of(self.session.rig, self.kind, self.part_id), self.session.rig.units
        return [spec_of(part, box, system, **self._held(box.field)) for box in self.boxes.values()]

    def _held(self, key: str) -> dict[str, Any]:
        if (self.part_id, key) not in self._waiting:
            return {}
        text, error = self._waiting[self.part_id, key]
        return {"text": text, "error": error}
