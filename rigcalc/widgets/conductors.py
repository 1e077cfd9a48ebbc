"""Which conductor does each run need? The page on conductors."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ipywidgets.widgets.widget import Widget
from ipywidgets.widgets.widget_box import Box as Container

from rigcalc.model.rows import cut_off
from rigcalc.rules.finding import Finding
from rigcalc.rules.parts import rig_run, run_study
from rigcalc.rules.words import joined
from rigcalc.study.compare import other_rule_sets
from rigcalc.study.network_results import RunStudy
from rigcalc.tables.colours import SCHEMES
from rigcalc.tables.rule_sets import RULE_SETS
from rigcalc.widgets import conductor_results as results
from rigcalc.widgets.connect import Meeting, NotConnected
from rigcalc.widgets.forms import Box
from rigcalc.widgets.kit import ColumnSpec, Fields, Markup, Plot, Sheet, column, h
from rigcalc.widgets.page import PageView
from rigcalc.widgets.partform import PartForm
from rigcalc.widgets.parttable import PartTable
from rigcalc.widgets.runform import BOXES, RunForm
from rigcalc.widgets.session import Session
from rigcalc.widgets.wiring import MARKS, run_label, show_choice, sources, state
from rigcalc.widgets.wiring_figures import Level, volts_along_way

_BOXES = {box.field: box for box in BOXES}
COLUMNS: tuple[Box | ColumnSpec, ...] = (
    ColumnSpec(key="id", label="Run", kind="read"),
    _BOXES["name"],
    Box("from_id", "From", kind="choice"),
    ColumnSpec(key="to", label="To", kind="read", words=True),
    Box("length_out_m", "Length out"),
    Box("length_back_m", "Length back"),
    ColumnSpec(key="current", label="Current", kind="read", folds=True),
    ColumnSpec(key="conductor", label="Conductor", kind="read", words=True),
    ColumnSpec(key="drop", label="Drop", kind="read", help="Over the whole way, by the rule's form, of its limit"),
    ColumnSpec(key="state", label="State", kind="read", words=True),
)
_RULES = Box("rule_set", "Rules", kind="choice", choices=tuple((one.id, one.title) for one in RULE_SETS.values()))
_COLOURS = Box("colour_scheme", "Colours of the wires", kind="choice", choices=(("", "not stated"), *SCHEMES.items()))


def conductors_page(session: Session) -> Container:
    """The page over a session, ready to be shown."""
    return ConductorsPage(session).view()


class ConductorsPage(PageView):
    """Runs in a table, what is not connected below it, one run's inputs and what decides its conductor."""

    page_id = "40-conductors"
    question = "Which conductor does each run need?"
    topics = ("W", "A02", "D04")

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.compared = False
        self._mine: list[Finding] = []
        self.runs = PartTable(
            session,
            "runs",
            COLUMNS,
            self._cells,
            caption="Runs",
            actions=("pick", "remove"),
            notes=self._notes,
            fold=True,
            choices=lambda run: {"from_id": [one for one in sources(session.rig) if one[0] != run.to_id]},
        )
        self.runs.table.on_pick(self.pick)
        self.runs.table.on_remove(self.remove)
        self.open = NotConnected(session, self.pick)
        self.open_box = column()
        self.meeting = Meeting(session)
        self.rules = PartForm(session, "rig", [_RULES, _COLOURS])
        self.clauses = Sheet()
        self.which = Fields([{"key": "run", "label": "Run", "kind": "choice", "text": "", "choices": []}], "One run")
        self.which.on_edit(lambda _key, run_id: self.pick(run_id))
        self.form = RunForm(session)
        self.decides, self.more = Sheet(), Sheet()
        self.plot = Plot()
        self.more.on_act(self._compare)

    @property
    def picked(self) -> str:
        """The run whose details are shown; empty where there is none."""
        return self.form.part_id

    def pick(self, run_id: str) -> None:
        """Show another run."""
        self.runs.picked = run_id
        self.form.point_at(run_id)
        self._show()

    def remove(self, run_id: str) -> None:
        """Take a run out with its devices; undo brings them back."""
        self.session.apply(*cut_off(self.session.rig, rig_run(self.session.study, run_id).to_id).changes)

    def wide(self) -> Sequence[Widget]:
        """Runs, what is not connected, buses and blocks."""
        return (self.runs.table, self.open_box, self.meeting.buttons, self.meeting.box)

    def inputs(self) -> Sequence[Widget]:
        """Rules, the choice of a run, and its form."""
        return (self.rules.fields, self.clauses, self.which, self.form.fields)

    def results(self) -> Sequence[Widget]:
        """What decides, the volts, and the rest folded."""
        return (self.decides, self.plot, self.more)

    def answer_html(self) -> Markup:
        """How many runs pass, and what decides the one picked."""
        return results.answer(self.session.study, self.picked or None)

    def refresh(self) -> None:
        """Bring all pieces up to the study, the drawing first: it is what a slider's hand waits for."""
        drawn = self.picked
        if drawn in {run.id for run in self.session.rig.runs}:
            self._volts(run_study(self.session.study, drawn))
        self._mine = [one for one in self.session.findings if one.rule.startswith(self.topics)]
        self._keep_picked()
        if self.picked and self.picked != drawn:
            self._volts(run_study(self.session.study, self.picked))
        self.runs.refresh()
        self.open.refresh()
        wanted = (self.open.table,) if self.open.open_parts() else ()
        if self.open_box.children != wanted:
            self.open_box.children = wanted
        self.meeting.refresh()
        self.rules.refresh()
        self.clauses.show(results.clauses(self.session.study))
        if self.picked:
            choices = [(run.id, run_label(run)) for run in self.session.rig.runs]
            show_choice(self.which, "run", self.picked, choices)
            self.form.refresh()
            self._results(run_study(self.session.study, self.picked))
        else:
            self._nothing()

    def _keep_picked(self) -> None:
        """The picked run as long as it is there; else the gravest, else the first."""
        ids = [run.id for run in self.session.rig.runs]
        if self.picked in ids:
            return
        graded = [state(self._mine, [run_id]) for run_id in ids]
        order = [*MARKS.values()]
        ranks = [order.index(one) if one in order else len(order) for one in graded]
        first = ids[ranks.index(min(ranks))] if ids else ""
        self.runs.picked = first
        self.form.point_at(first)

    def _cells(self, part: Any) -> dict[str, str]:
        study = self.session.study
        return results.cells(study, run_study(study, part.id)) | {"state": state(self._mine, [part.id])}

    def _notes(self, part: Any) -> dict[str, str]:
        chassis = {"length_back_m": "chassis"} if part.return_path == "chassis" else {}
        return {"conductor": results.decider(self.session.study, run_study(self.session.study, part.id)), **chassis}

    def _nothing(self) -> None:
        show_choice(self.which, "run", "", [])
        self.decides.show(h("<p>Connect something above: a length out and a length back lay its run.</p>"))
        self.more.show(Markup(""))
        self.plot.show({"data": [], "layout": {"height": 40}}, "")

    def _results(self, run: RunStudy) -> None:
        study = self.session.study
        self.decides.show(h("{}{}", self._unclear(run), results.decides(study, run)))
        parts = [results.both_drops(study, run), results.workings(study, run), self._others(run)]
        self.more.show(h("{}", parts))

    def _unclear(self, run: RunStudy) -> Markup:
        if not run.ambiguous:
            return Markup("")
        text = f"This can mean {joined(list(run.ambiguous))}: type which. Until then a size is chosen."
        return h('<p class="rig-warn">▲ {}</p>', text)

    def _volts(self, run: RunStudy) -> None:
        study, check = self.session.study, run.choice
        names, volts = results.way_names(study, run), results.way_volts(study, run)
        smaller = None
        if run.solved and check and run.smaller:
            smaller = (run.smaller.size, [*volts[:-1], run.smaller.end_v])
        low = results.device_lowest_v(study, run.run_id)
        lowest = None if low is None else Level("the device works down to", low)
        figure = volts_along_way(names, volts, smaller, lowest, self._limit(run, volts[0]))
        columns, cells = ["Place", "As it is, V"], [[name, f"{v:.2f}"] for name, v in zip(names, volts, strict=True)]
        if smaller:
            columns.append(f"With {smaller[0]}, V")
            cells = [[*one, f"{v:.2f}"] for one, v in zip(cells, smaller[1], strict=True)]
        self.plot.show(figure, results.way_alt(study, run), columns, cells)

    def _limit(self, run: RunStudy, source_v: float) -> Level | None:
        if run.drop_limit_percent is None:
            return None
        nominal_v = results.nominal_v(self.session.study, run)
        return Level(f"drop of {run.drop_limit_percent:.3g} %", source_v - run.drop_limit_percent / 100 * nominal_v)

    def _others(self, run: RunStudy) -> Markup:
        study = self.session.study
        if study.network.available and not self.compared:
            return h('<p><button type="button" data-act="others">Under the other rule sets</button></p>')
        return results.others(other_rule_sets(study, run.run_id))

    def _compare(self, act: str, _arg: str) -> None:
        self.compared = act == "others"
        self._results(run_study(self.session.study, self.picked))
