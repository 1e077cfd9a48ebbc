"""Forms of the bank: what it is made of, the day it is designed for, its limits, its capacity at other rates."""

from __future__ import annotations

from typing import Any

from rigcalc.errors import InputError
from rigcalc.model.edit import Change, change
from rigcalc.tables.battery import chemistries, chemistry
from rigcalc.widgets.forms import Box, change_of, in_words, other_of, text_of, value_of
from rigcalc.widgets.kit import ColumnSpec, RowSpec, Table
from rigcalc.widgets.partform import PartForm
from rigcalc.widgets.session import Session

MADE_OF = (
    Box(
        "chemistry",
        "Chemistry",
        kind="choice",
        choices=tuple((row.id, row.title) for row in chemistries()),
        help="Another one sets the cells in a unit to match.",
    ),
    Box("unit_capacity_ah", "Capacity of one unit"),
    Box("rated_h", "Rated over", help="Hours of the discharge the capacity is rated at: 20 h for C20."),
    Box("cells_per_unit", "Cells in a unit", kind="count"),
    Box("series", "Units in a string", kind="count", help="Taken once cells and units make the system's voltage."),
    Box("parallel", "Strings in parallel", kind="count"),
)
DAY = (
    Box("temperature_c", "Temperature of the cells", slider=(-20, 45, 1)),
    Box("depth_of_discharge", "Depth of discharge", kind="percent", slider=(10, 100, 1)),
    Box("end_of_life_fraction", "Replaced at, of its new capacity", kind="percent"),
    Box("wanted_autonomy_days", "Days wanted without charging", kind="number", unit="days", slider=(0.5, 7, 0.5)),
    Box("wiring_efficiency", "Efficiency of the wiring", kind="percent", help="Empty: no loss is counted."),
)
LIMITS = (
    Box("lowest_working_v", "Lowest working voltage", help="Of the whole bank under load, when it counts as empty."),
    Box("highest_charge_v", "Highest charge voltage", help="Of the whole bank, the most any source applies."),
    Box("unit_discharge_max_a", "Continuous current of one unit", help="Of the unit or its management system."),
    Box("unit_peak_a", "Peak current of one unit"),
    Box("unit_peak_s", "Peak allowed for"),
    Box("largest_share", "Current in the busiest string", kind="percent", help="Its share of the whole."),
    Box(
        "unit_short_circuit_a",
        "Short-circuit current of one unit",
        help="From the maker: what it gives into a dead short, not the limit of its management system.",
    ),
    Box("unit_resistance_ohm", "Internal resistance of one unit", help="From the maker, full and warm."),
    Box("cranking_a", "Cold cranking current of the bank"),
)  # fmt: skip
_CHECKED_TOGETHER = ("chemistry", "cells_per_unit", "series", "lowest_working_v", "highest_charge_v")
_RATE = (Box("over_h", "Discharged over"), Box("capacity_ah", "Capacity"))
_DRAFT = "new"


class BankForm(PartForm):
    """Some fields of the bank. Fields that are checked together wait for each other: cells and units in a string."""

    def __init__(self, session: Session, boxes: tuple[Box, ...], title: str) -> None:
        super().__init__(session, "bank", boxes, title)

    def changes(self, key: str, text: str | bool) -> tuple[Change, ...]:
        """The edit, with what waits in the fields that are checked together with it."""
        found = [*super().changes(key, text), *self._cells_of(key, str(text))]
        for other in _CHECKED_TOGETHER if key in _CHECKED_TOGETHER else ():
            waits = self._waiting.get((self.part_id, other))
            if other != key and waits is not None:
                try:
                    found.append(change_of("bank", "", self.boxes[other], waits[0], self.session.rig.units))
                except InputError:
                    continue
        return tuple(found)

    def _cells_of(self, key: str, text: str) -> tuple[Change, ...]:
        """Another chemistry keeps the voltage of a unit as near as whole cells allow; the box shows the new count."""
        bank = self.session.rig.bank
        if key != "chemistry" or not text or text == bank.chemistry:
            return ()
        cells = bank.cells_per_unit * chemistry(text).cells_per_12v / chemistry(bank.chemistry).cells_per_12v
        return (change("bank", cells_per_unit=int(cells)),) if cells == int(cells) else ()


class RateTable:
    """Capacity at other rates, as rows; a new row is in the rig once both of its cells are typed."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self._drafting = False
        self._waiting: dict[tuple[str, str], tuple[str, str]] = {}
        self.table = Table(
            [ColumnSpec(key=box.field, label=box.label, kind="quantity") for box in _RATE],
            (),
            "Capacity of one unit at other rates",
            "Add a rate",
            ("remove",),
        )
        self.table.on_edit(self._edit)
        self.table.on_add(self._add)
        self.table.on_remove(self._remove)
        self.refresh()

    def refresh(self) -> None:
        """Show the rates as they are now."""
        rows = [self._row(str(at), point) for at, point in enumerate(self.session.rig.bank.rate_points)]
        if self._drafting:
            rows.append(self._with_waiting(RowSpec(id=_DRAFT, cells={box.field: "" for box in _RATE})))
        self.table.set_rows(rows)

    def _row(self, row_id: str, point: Any) -> RowSpec:
        system = self.session.rig.units
        cells = {box.field: text_of(point, box, system) for box in _RATE}
        other = {box.field: other_of(point, box, system) for box in _RATE}
        return self._with_waiting(RowSpec(id=row_id, cells=cells, other=other))

    def _with_waiting(self, row: RowSpec) -> RowSpec:
        held = {key: wait for (row_id, key), wait in self._waiting.items() if row_id == row["id"]}
        row["cells"] = dict(row["cells"]) | {key: text for key, (text, _) in held.items()}
        row["errors"] = {box.field: held.get(box.field, ("", ""))[1] for box in _RATE}
        return row

    def _add(self) -> None:
        self._drafting = True
        self.refresh()

    def _remove(self, row_id: str) -> None:
        self._waiting = {}
        if row_id == _DRAFT:
            self._drafting = False
            self.refresh()
            return
        self._state([point for at, point in enumerate(self._points()) if str(at) != row_id])

    def _points(self) -> list[dict[str, Any]]:
        points = self.session.rig.bank.rate_points
        return [point.model_dump(mode="json", exclude_unset=True) for point in points]

    def _state(self, points: list[dict[str, Any]]) -> None:
        self.session.apply(change("bank", rate_points=points or None))
        self.refresh()

    def _edit(self, row_id: str, key: str, text: str) -> None:
        box = next(box for box in _RATE if box.field == key)
        self._waiting[row_id, key] = (text, "")
        try:
            self._try(row_id)
        except InputError as error:
            said = in_words(error, box, text)
            self._waiting[row_id, key] = (text, str(said))
            self.refresh()
            raise said from None

    def _try(self, row_id: str) -> None:
        """The row put into the rig, unless a cell of it is still to come."""
        points, draft = self._points(), row_id == _DRAFT
        point = {} if draft else points[int(row_id)]
        for box in _RATE:
            waits = self._waiting.get((row_id, box.field))
            if waits is not None:
                point = _stated(point, box, waits[0], self.session.rig.units)
        empty = [box for box in _RATE if box.field not in point]
        if draft and empty:
            return
        if empty:
            raise InputError(empty[0].label, None, "a value, or the row removed")
        self._state([*points, point] if draft else [*points[: int(row_id)], point, *points[int(row_id) + 1 :]])
        self._drafting = self._drafting and not draft
        self._waiting = {at: held for at, held in self._waiting.items() if at[0] != row_id}
        self.refresh()


def _stated(point: dict[str, Any], box: Box, text: str, system: str) -> dict[str, Any]:
    value, typed = value_of(box, text, system)
    texts = {key: kept for key, kept in point.get("typed", {}).items() if key != box.field}
    texts |= {box.field: typed} if typed else {}
    found = {key: kept for key, kept in point.items() if key not in (box.field, "typed")}
    return found | ({} if value is None else {box.field: value}) | ({"typed": texts} if texts else {})
