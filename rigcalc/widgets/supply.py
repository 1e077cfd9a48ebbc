"""One load's supply both ways beside each other: as it is wired, and by a pair of its own."""

from __future__ import annotations

from rigcalc.study.network_results import SupplyWay
from rigcalc.study.supplies import supply
from rigcalc.units import significant
from rigcalc.widgets.forms import Box
from rigcalc.widgets.kit import Fields, Markup, Sheet, column, h
from rigcalc.widgets.partform import PartForm
from rigcalc.widgets.session import Session
from rigcalc.widgets.sheets import row, table
from rigcalc.widgets.wiring import show_choice

LENGTHS = (
    Box("own_pair_out_m", "Its own pair: length out", help="empty: the wired way from the battery bus on"),
    Box("own_pair_back_m", "Its own pair: length back", help="empty: as long as the way out"),
)


class SupplyPanel:
    """Worked out only once a load is chosen."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.load_id = ""
        choice = Fields(
            [{"key": "load", "label": "Load", "kind": "choice", "text": "", "choices": []}], "Two ways to supply a load"
        )
        choice.on_edit(lambda _key, load_id: self.choose(load_id))
        self.which = choice
        self.lengths = PartForm(session, "loads", LENGTHS)
        self.sheet = Sheet()
        self.box = column(self.which, self.sheet)

    def choose(self, load_id: str) -> None:
        """Compare both ways for another load."""
        self.load_id = load_id
        self.lengths.point_at(load_id)
        self.refresh()

    def refresh(self) -> None:
        """Show both ways of the load that is chosen."""
        loads = [(load.id, load.name) for load in self.session.rig.loads if load.feed == "direct"]
        if self.load_id not in {load_id for load_id, _ in loads}:
            self.load_id = ""
            self.lengths.point_at("")
        show_choice(self.which, "load", self.load_id, [("", "choose a load to compare"), *loads])
        self.lengths.refresh()
        wanted = (self.which, *((self.lengths.fields,) if self.load_id else ()), self.sheet)
        if self.box.children != wanted:
            self.box.children = wanted
        self.sheet.show(self._compared() if self.load_id else Markup(""))

    def _compared(self) -> Markup:
        found = supply(self.session.study, self.load_id)
        ways = [way for way in (found.through_block, found.own_pair) if way is not None]
        return both_ways(ways)


def both_ways(ways: list[SupplyWay]) -> Markup:
    """Two ways of supply beside each other."""
    if not ways:
        return h("<p>No run reaches it, and no length of a pair of its own is stated.</p>")
    rows = [
        row("Conductors", [_lines(way.conductors) for way in ways]),
        row("Fuses", [_lines(way.fuses) for way in ways]),
        row("Drop, bank at its lowest", [_drop(way) for way in ways]),
        row("Joints", [str(way.joints) for way in ways]),
        row("Copper", ["none passes" if way.copper_kg is None else f"{significant(way.copper_kg)} kg" for way in ways]),
        row("Always live", [_live(way.always_live) for way in ways]),
        row("Stops", [_lines(tuple(f"■ {text}" for text in way.stops)) for way in ways]),
    ]
    notes = dict.fromkeys(note for way in ways for note in way.notes)
    return table("Both ways of supply", ("Compared", *(way.title for way in ways)), rows, " ".join(notes))


def _lines(texts: tuple[str, ...]) -> Markup:
    return h("<td>{}</td>", [h("{}{}", Markup("<br>") if at else "", text) for at, text in enumerate(texts)] or "none")


def _drop(way: SupplyWay) -> str:
    if way.drop_v is None or way.drop_percent is None:
        return "■ the power does not get through"
    return f"{significant(way.drop_v)} V, {significant(way.drop_percent, 2)} %"


def _live(always: bool | None) -> str:
    return "main switch not stated" if always is None else "yes, before the main switch" if always else "no"
