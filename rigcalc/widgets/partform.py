"""A form bound to one part of the session's rig."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from rigcalc.errors import InputError
from rigcalc.model.edit import Change
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
        As in a `Change`: "bank", "rig", or a list of the rig and an id; without an id the form is empty.
    boxes : sequence of Box
        The fields, in order.
    title : str
        Heading of the form.

    Notes
    -----
    The page calls `refresh` after each change; only boxes that differ are sent. A form over something else than
    the part's own fields overrides `specs`, `changes` and `said`.
    """

    def __init__(self, session: Session, kind: str, boxes: Sequence[Box], title: str = "", part_id: str = "") -> None:
        self.session, self.kind, self.part_id = session, kind, part_id
        self.boxes = {box.field: box for box in boxes}
        # (part id, key) -> text that is not in the rig and what is wrong with it; and what the rig stated then
        self._waiting: dict[tuple[str, str], tuple[str | bool, str]] = {}
        self._stated: dict[tuple[str, str], tuple[object, str]] = {}
        self.fields = Fields(self._specs(), title)
        self.fields.on_edit(self.edit)

    @property
    def part(self) -> Any:
        """The part as it is now."""
        return part_of(self.session.rig, self.kind, self.part_id)

    def specs(self) -> list[Any]:
        """The fields of the part as the rig states them."""
        return [spec_of(self.part, box, self.session.rig.units) for box in self.boxes.values()]

    def changes(self, key: str, text: str | bool) -> tuple[Change, ...]:
        """What an edit changes; `InputError` where it cannot be used."""
        return (change_of(self.kind, self.part_id, self.boxes[key], text, self.session.rig.units),)

    def said(self, error: InputError, key: str, text: str | bool) -> InputError:
        """What is wrong with an edit, in the words of its box."""
        return in_words(error, self.boxes[key], text)

    def point_at(self, part_id: str, boxes: Sequence[Box] | None = None) -> None:
        """Show another part of the same kind; with ``boxes``, other fields."""
        if boxes is not None:
            self.boxes = {box.field: box for box in boxes}
        self.part_id = part_id
        self.fields.replace(self._specs())

    def edit(self, key: str, text: str | bool) -> None:
        """One edited box: a change of the rig, or `InputError` with the text kept where it was typed."""
        at = (self.part_id, key)
        try:
            self.session.apply(*self.changes(key, text))
        except InputError as error:
            said = self.said(error, key, text)
            stated = {spec["key"]: spec.get("text") for spec in self.specs()}
            self._waiting[at], self._stated[at] = (text, str(said)), (stated.get(key), self.session.rig.units)
            raise said from None
        self._waiting.pop(at, None)
        self.refresh()

    def forget(self) -> None:
        """Drop texts that could not be used."""
        self._waiting.clear()

    def refresh(self, more: Mapping[str, Mapping[str, Any]] | None = None) -> None:
        """Show the part as it is now; ``more`` adds to some boxes, as a help text."""
        changes: dict[str, dict[str, Any]] = {}
        specs = self._specs()
        if [spec["key"] for spec in specs] != [spec["key"] for spec in self.fields.specs]:
            self.fields.replace(specs)
        for spec in specs:
            key, wanted = spec["key"], dict(spec) | dict((more or {}).get(spec["key"], {}))
            now = self.fields.spec(key)
            parts = {name: value for name, value in wanted.items() if name not in ("key", "kind")}
            changes |= {key: parts} if any(now.get(name) != value for name, value in parts.items()) else {}
        if changes:
            self.fields.update_many(changes)

    def _empty(self) -> bool:
        return not self.part_id and self.kind not in ("rig", "bank")

    def _specs(self) -> list[Any]:
        """The fields with what waits in them; a text that failed waits until the rig states something else there."""
        if self._empty():
            return []
        specs = self.specs()
        for spec in specs:
            at = (self.part_id, spec["key"])
            stated, units = self._stated.get(at, (None, ""))
            if units == self.session.rig.units and stated != spec.get("text"):
                self._waiting.pop(at, None)
            if at in self._waiting:
                spec |= dict(zip(("text", "error"), self._waiting[at], strict=True))
            else:
                self._stated.pop(at, None)
        return specs
