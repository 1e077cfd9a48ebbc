"""Changing a rig: every change builds a new rig and passes the same checks as a file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from rigcalc.errors import InputError
from rigcalc.model.file import rig_data, rig_from_data
from rigcalc.model.network import BANK
from rigcalc.model.rig import PART_KINDS, WHOLE_RIG, Rig


@dataclass(frozen=True, slots=True)
class Change:
    """Fields of one part set to new values; a value of None unstates the field.

    ``kind`` is the rig's own key ("runs", "devices", "loads", ...), or "bank" or "rig", which have no ``id``.
    With ``new`` true the part is added; with ``gone`` true it is taken out.
    """

    kind: str
    id: str
    fields: tuple[tuple[str, Any], ...] = ()
    new: bool = False
    gone: bool = False


def change(kind: str, part_id: str = "", **fields: Any) -> Change:
    """A `Change` that sets fields."""
    return Change(kind, part_id, tuple(fields.items()))


def changed(rig: Rig, *changes: Change) -> Rig:
    """The rig with the changes made, checked as a whole once all of them are in.

    Parameters
    ----------
    rig : Rig
        Stays as it is.
    changes : Change
        In order. What was accepted about a part that is gone goes with it.

    Raises
    ------
    InputError
        Where a part is not there, or the changed rig is not valid.

    Examples
    --------
    >>> from rigcalc.model.new import new_rig
    >>> changed(new_rig("Van"), change("bank", temperature_c=5.0)).bank.temperature_c
    5.0
    """
    data = rig_data(rig)
    for one in changes:
        _apply(data, one)
    if rig.accepted:
        _forget(data, rig)
    return rig_from_data(data)


def _forget(data: dict[str, Any], rig: Rig) -> None:
    """Take out what the rig had accepted about parts that are not there any more."""
    there = {BANK, WHOLE_RIG} | {part.get("id") for kind in PART_KINDS for part in data.get(kind, [])}
    lost = [one.model_dump(mode="json", exclude_unset=True) for one in rig.accepted if one.subject not in there]
    if lost and isinstance(data.get("accepted"), list):
        data["accepted"] = [one for one in data["accepted"] if one not in lost]
        if not data["accepted"]:
            del data["accepted"]


def accepting(rig: Rig, rule: str, subject: str, reason: str, name: str, date: str) -> Change:
    """Accept a finding with a reason; one already given for it is replaced. On a stop it is only a note."""
    given = {"rule": rule, "subject": subject, "reason": reason, "name": name, "date": date}
    return Change("rig", "", (("accepted", [*_accepted(rig, rule, subject), given]),))


def no_longer_accepting(rig: Rig, rule: str, subject: str) -> Change:
    """Take an acceptance back."""
    return Change("rig", "", (("accepted", _accepted(rig, rule, subject) or None),))


def _accepted(rig: Rig, rule: str, subject: str) -> list[dict[str, Any]]:
    """Every acceptance but the one of this rule and subject."""
    kept = [one for one in rig.accepted if (one.rule, one.subject) != (rule, subject)]
    return [one.model_dump(mode="json", exclude_unset=True) for one in kept]


def _apply(data: dict[str, Any], one: Change) -> None:
    if one.kind in ("rig", "bank"):
        return _set(data if one.kind == "rig" else data["bank"], one)
    if one.kind not in PART_KINDS:
        raise InputError("Kind of part", one.kind, f"rig, bank, {', '.join(PART_KINDS)}")
    parts: list[dict[str, Any]] = data.setdefault(one.kind, [])
    at = next((i for i, part in enumerate(parts) if part["id"] == one.id), None)
    if one.new:
        parts.append({"id": one.id})
        at = len(parts) - 1
    if at is None:
        raise InputError(f"Id in {one.kind}", one.id, "the id of a part of this rig")
    if one.gone:
        del parts[at]
        return None
    return _set(parts[at], one)


def _set(part: dict[str, Any], one: Change) -> None:
    """Set the fields; the text typed for a field goes with its old value, unless the change brings a new one."""
    typed, fields = dict(part.get("typed", {})), dict(one.fields)
    brought = fields.pop("typed", None)
    for field, value in fields.items():
        typed.pop(field, None)
        if value is None:
            part.pop(field, None)
        else:
            part[field] = value
    if brought is not None and not isinstance(brought, dict):
        raise InputError("typed", brought, "an object with keys")
    typed |= brought or {}
    part.pop("typed", None)
    if typed:
        part["typed"] = typed
