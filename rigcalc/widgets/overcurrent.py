"""Which fuse protects each circuit, and where does it sit? The page on overcurrent protection."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ipywidgets.widgets.widget import Widget
from ipywidgets.widgets.widget_box import Box as Container

from rigcalc.model.edit import Change
from rigcalc.rules.finding import Finding
from rigcalc.rules.parts import circuit, rig_run
from rigcalc.study.network_results import CircuitStudy
from rigcalc.widgets import overcurrent_results as results
from rigcalc.widgets.circuitforms import CircuitForms
from rigcalc.widgets.kit import ColumnSpec, Markup, Plot, Sheet, h
from rigcalc.widgets.page import PageView
from rigcalc.widgets.parttable import PartTable
from rigcalc.widgets.session import Session
from rigcalc.widgets.supply import SupplyPanel
from rigcalc.widgets.wiring import MARKS, next_id, state
from rigcalc.widgets.wiring_figures import fuse_window

COLUMNS: tuple[ColumnSpec, ...] = (
    ColumnSpec(key="device", label="Device", kind="read"),
    ColumnSpec(key="run", label="In run", kind="read", words=True),
    ColumnSpec(key="loads", label="Feeds", kind="read", folds=True, words=True),
    ColumnSpec(
        key="current", label="For hours", kind="read", folds=True, help="Continuous current, the bank at its lowest"
    ),
    ColumnSpec(key="window", label="Window", kind="read", help="From what the load needs to what the conductor allows"),
    ColumnSpec(key="rating", label="Rating", kind="read"),
    ColumnSpec(key="class", label="Class", kind="read", words=True),
    ColumnSpec(key="voltage", label="Made for", kind="read", folds=True, help="Highest DC voltage"),
    ColumnSpec(
        key="breaks", label="Short circuit", kind="read", folds=True, help="Prospective current, of what it can break"
    ),
    ColumnSpec(
        key="distance", label="Distance", kind="read", folds=True, help="From its source, of what the rules allow"
    ),
    ColumnSpec(key="state", label="State", kind="read", words=True),
)


def overcurrent_page(session: Session) -> Container:
    """The page over a session, ready to be shown."""
    return OvercurrentPage(session).view()


class OvercurrentPage(PageView):
    """Circuits in a table, runs that have no device, one circuit's inputs, its window, and both ways of supply."""

    page_id = "50-overcurrent-protection"
    question = "Which fuse protects each circuit, and where does it sit?"
    topics = ("P",)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._mine: list[Finding] = []
        self.circuits = PartTable(
            session,
            "devices",
            COLUMNS,
            self._cells,
            caption="Circuits",
            actions=("pick", "remove"),
            notes=self._notes,
            fold=True,
        )
        self.circuits.table.on_pick(self.pick)
        self.circuits.table.on_remove(lambda one: session.apply(Change("devices", one, gone=True)))
        self.recalled, self.lacking = Sheet(), Sheet()
        self.lacking.on_act(lambda _act, run_id: self.add(run_id))
        self.forms = CircuitForms(session, self.pick)
        self.why, self.faults, self.blocks = Sheet(), Sheet(), Sheet()
        self.plot = Plot()
        self.supply = SupplyPanel(session)

    @property
    def picked(self) -> str:
        """The device whose details are shown; empty where there is none."""
        return self.forms.picked

    def pick(self, device_id: str) -> None:
        """Show another circuit."""
        self.circuits.picked = device_id
        self.forms.point_at(device_id)
        self._show()

    def add(self, run_id: str) -> None:
        """A device in a run, its class and rating left to be chosen; in a block's way it sits at the start."""
        rig = self.session.rig
        run, device_id = rig_run(self.session.study, run_id), next_id(rig, "F")
        distance = (("distance_m", 0.0),) if run.from_id in {block.id for block in rig.blocks} else ()
        self.session.apply(Change("devices", device_id, (("run_id", run_id), *distance), new=True))
        self.pick(device_id)

    def wide(self) -> Sequence[Widget]:
        """Circuits, and the runs without a device of their own."""
        return (self.recalled, self.circuits.table, self.lacking)

    def inputs(self) -> Sequence[Widget]:
        """The circuit's forms."""
        return (self.forms.box,)

    def results(self) -> Sequence[Widget]:
        """Why this rating, its window, faults, blocks, and both ways of supply."""
        return (self.why, self.plot, self.faults, self.blocks, self.supply.box)

    def answer_html(self) -> Markup:
        """How many circuits are fused well, and the one picked."""
        return results.answer(self.session.study, self.picked or None)

    def refresh(self) -> None:
        """Bring all pieces up to the study, the drawing first: it is what a slider's hand waits for."""
        study, drawn = self.session.study, self.picked
        if drawn in {device.id for device in self.session.rig.devices}:
            self._window(circuit(study, drawn))
        self._mine = [one for one in self.session.findings if one.rule.startswith(self.topics)]
        self._keep_picked()
        if self.picked and self.picked != drawn:
            self._window(circuit(study, self.picked))
        self.circuits.refresh()
        self.recalled.show(results.recalled(study))
        self.lacking.show(results.lacking(study))
        self.forms.refresh()
        self.blocks.show(results.blocks(study))
        self.supply.refresh()
        if self.picked:
            self._results(circuit(study, self.picked))
        else:
            self._nothing()

    def _keep_picked(self) -> None:
        """The picked circuit as long as it is there; else the gravest, else the first."""
        ids = [device.id for device in self.session.rig.devices]
        if self.picked in ids:
            return
        graded = [state(self._mine, [one]) for one in ids]
        order = [*MARKS.values()]
        ranks = [order.index(one) if one in order else len(order) for one in graded]
        self.circuits.picked = ids[ranks.index(min(ranks))] if ids else ""
        self.forms.point_at(self.circuits.picked)

    def _cells(self, device: Any) -> dict[str, str]:
        study = self.session.study
        return results.cells(study, circuit(study, device.id)) | {"state": state(self._mine, [device.id])}

    def _notes(self, device: Any) -> dict[str, str]:
        return {"rating": results.rating_note(circuit(self.session.study, device.id))}

    def _results(self, one: CircuitStudy) -> None:
        study = self.session.study
        self.why.show(results.why(study, one))
        self.faults.show(results.faults(study, one))

    def _window(self, one: CircuitStudy) -> None:
        study = self.session.study
        if one.conductor == "negative":
            self.plot.show({"data": [], "layout": {"height": 40}}, results.window_alt(study, one))
            return
        figure = fuse_window(*results.edges(study, one), results.ratings_of(one), one.rating_a)
        self.plot.show(figure, results.window_alt(study, one), ["Edge", "Current"], results.window_rows(study, one))

    def _nothing(self) -> None:
        self.why.show(h("<p>Add a device to a run above, or lay runs on the page on conductors.</p>"))
        self.faults.show(Markup(""))
        self.plot.show({"data": [], "layout": {"height": 40}}, "")
