"""Connecting what no run reaches yet, and the buses and blocks where runs meet."""

from __future__ import annotations

from collections.abc import Callable

from rigcalc.errors import InputError, need
from rigcalc.model.edit import Change
from rigcalc.model.network import BANK
from rigcalc.widgets.forms import Box, value_of
from rigcalc.widgets.kit import ColumnSpec, RowSpec, Sheet, Table, column, h
from rigcalc.widgets.parttable import PartTable
from rigcalc.widgets.session import Session
from rigcalc.widgets.wiring import next_id, places, sources

OUT, BACK = Box("length_out_m", "Length out"), Box("length_back_m", "Length back")
_LENGTHS = {box.field: box for box in (OUT, BACK)}
_COLUMNS: tuple[ColumnSpec, ...] = (
    {"key": "part", "label": "Not connected", "kind": "read"},
    {"key": "from", "label": "From", "kind": "choice"},
    {"key": "length_out_m", "label": "Length out", "kind": "quantity", "help": "Along the conductor"},
    {"key": "length_back_m", "label": "Length back", "kind": "quantity", "help": "Along the return conductor"},
)
BUTTONS = (("buses", "bus", "Add a bus"), ("blocks", "block", "Add a block"))


class NotConnected:
    """A row for each part that no run reaches; its two lengths make a run to it, with a device of its own."""

    def __init__(self, session: Session, connected: Callable[[str], object]) -> None:
        self.session, self._connected = session, connected
        self._waiting: dict[str, dict[str, str]] = {}
        self._errors: dict[tuple[str, str], str] = {}
        self.table = Table(_COLUMNS, (), "Not connected: type both lengths to lay a run", "", (), across=True)
        self.table.on_edit(self.edit)

    def open_parts(self) -> dict[str, str]:
        """Id and name of every part that takes power or passes it on, and that no run reaches."""
        rig, names = self.session.rig, places(self.session.rig)
        fed = {run.to_id for run in rig.runs}
        meeting = [part_id for kind, part_id in rig.parts() if kind in ("buses", "blocks") and part_id not in fed]
        lost = [node for node in self.session.study.network.unconnected if node not in fed]
        return {node: names[node] for node in (*meeting, *lost)}

    def edit(self, node: str, key: str, text: str) -> None:
        """One edited cell; with both lengths there the run is laid."""
        waiting = self._waiting.setdefault(node, {})
        waiting[key] = text
        self._errors.pop((node, key), None)
        if all(waiting.get(field, "").strip() for field in _LENGTHS):
            self._lay(node, waiting, key)
        elif key in _LENGTHS and text.strip():
            self._value(node, key, text)
        self.refresh()

    def _value(self, node: str, key: str, text: str) -> tuple[float, str | None]:
        try:
            value, typed = value_of(_LENGTHS[key], text, self.session.rig.units)
            need(float(value) >= 0, _LENGTHS[key].label, text, "0 or more")
            return float(value), typed
        except InputError as error:
            self._errors[node, key] = str(error)
            raise

    def _lay(self, node: str, waiting: dict[str, str], key: str) -> None:
        lengths = {field: self._value(node, field, waiting[field]) for field in _LENGTHS}
        rig, run_id = self.session.rig, next_id(self.session.rig, "W")
        start = waiting.get("from") or self._first_source(node)
        run = Change(
            "runs",
            run_id,
            (
                ("name", self._name(start, node)),
                ("from_id", start),
                ("to_id", node),
                *((field, value) for field, (value, _) in lengths.items()),
                ("typed", {field: typed for field, (_, typed) in lengths.items() if typed}),
            ),
            new=True,
        )
        in_block = start in {block.id for block in rig.blocks}
        distance = (("distance_m", 0.0),) if in_block else ()
        device = Change("devices", next_id(rig, "F"), (("run_id", run_id), *distance), new=True)
        try:
            self.session.apply(run, device)
        except InputError as error:
            self._errors[node, key] = str(error)
            raise
        self._waiting.pop(node, None)
        self._connected(run_id)

    def _name(self, start: str, node: str) -> str:
        """A run to a device is called after it, a feeder after both its ends."""
        names, rig = places(self.session.rig), self.session.rig
        feeder = node in {part.id for part in rig.buses} | {part.id for part in rig.blocks}
        return f"{names[start]} to {names[node]}"[:80] if feeder else names[node]

    def _first_source(self, node: str) -> str:
        """A load starts at the first block that is fed, else the first bus; a bus or block at the bank or first bus."""
        rig = self.session.rig
        fed = {run.to_id for run in rig.runs}
        blocks = [block.id for block in rig.blocks if block.id in fed and block.id != node]
        buses = [bus.id for bus in rig.buses if bus.id in fed and bus.id != node]
        meeting = {part.id for part in rig.buses} | {part.id for part in rig.blocks}
        return next(iter(buses if node in meeting else [*blocks, *buses]), BANK)

    def refresh(self) -> None:
        """A row for each part that is still open."""
        parts = self.open_parts()
        self._waiting = {node: held for node, held in self._waiting.items() if node in parts}
        self._errors = {at: text for at, text in self._errors.items() if at[0] in parts}
        self.table.set_rows([self._row(node, name) for node, name in parts.items()])

    def _row(self, node: str, name: str) -> RowSpec:
        held = self._waiting.get(node, {})
        choices = [choice for choice in sources(self.session.rig) if choice[0] != node]
        missing = [box.label.lower() for field, box in _LENGTHS.items() if not held.get(field, "").strip()]
        half = missing[0] if len(missing) == 1 else ""
        field = "length_back_m" if half == BACK.label.lower() else "length_out_m"
        return RowSpec(
            id=node,
            cells={"part": name, "length_out_m": "", "length_back_m": "", "from": self._first_source(node)} | held,
            errors={key: text for (at, key), text in self._errors.items() if at == node},
            other={"length_out_m": "", "length_back_m": "", field: f"now the {half}" if half else ""},
            choices={"from": choices},
        )


class Meeting:
    """Buses and blocks: their names, what feeds them; one with nothing on it can be taken out."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.buttons = Sheet(
            h(
                '<div class="rig-bar">{}</div>',
                [h('<button type="button" data-act="{}">{}</button> ', kind, text) for kind, _, text in BUTTONS],
            )
        )
        self.buttons.on_act(lambda kind, _arg: self.add(kind))
        self.tables = {kind: self._table(kind, title) for kind, title in (("buses", "Buses"), ("blocks", "Blocks"))}
        self.box = column()

    def _table(self, kind: str, title: str) -> PartTable:
        rating = (Box("rating_a", "Rating", help="The current it is made for"),) if kind == "blocks" else ()
        columns = (
            Box("name", "Name", kind="text"),
            *rating,
            ColumnSpec(key="fed", label="Fed by", kind="read", words=True),
            ColumnSpec(key="feeds", label="Feeds", kind="read", words=True),
        )
        made = PartTable(self.session, kind, columns, self._cells, caption=title, actions=("remove",))
        made.table.on_remove(lambda part_id: self.remove(kind, part_id))
        return made

    def _cells(self, part: object) -> dict[str, str]:
        node = part.id  # type: ignore[attr-defined]
        runs = self.session.rig.runs
        fed = next((run.id for run in runs if run.to_id == node), "■ nothing")
        return {"fed": fed, "feeds": ", ".join(run.id for run in runs if run.from_id == node) or "nothing"}

    def add(self, kind: str) -> None:
        """A new bus or block, not connected yet."""
        word = next(word for one, word, _ in BUTTONS if one == kind)
        new_id = next_id(self.session.rig, "X")
        self.session.apply(Change(kind, new_id, (("name", f"{word.capitalize()} {new_id}"),), new=True))

    def remove(self, kind: str, part_id: str) -> None:
        """Take a bus or block out; one with runs on it stays."""
        on_it = [run.id for run in self.session.rig.runs if part_id in (run.from_id, run.to_id)]
        if on_it:
            allowed = f"nothing on it first: remove {', '.join(on_it)}"
            error = InputError(self.tables[kind].name(part_id), "in use", allowed)
            self.tables[kind].table.update(part_id, errors={"name": str(error)})
            return
        self.session.apply(Change(kind, part_id, gone=True))

    def refresh(self) -> None:
        """Show both tables as they are now; one without rows is left out."""
        for one in self.tables.values():
            one.refresh()
        wanted = tuple(one.table for kind, one in self.tables.items() if getattr(self.session.rig, kind))
        if self.box.children != wanted:
            self.box.children = wanted
