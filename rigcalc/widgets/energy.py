"""Page 20: where a day's energy goes, and what each way of feeding costs."""

from __future__ import annotations

from collections.abc import Sequence

from ipywidgets.widgets.widget import Widget
from ipywidgets.widgets.widget_box import Box as Container

from rigcalc.model import Load
from rigcalc.study.working import figure
from rigcalc.widgets import energy_results, energy_ways, figures
from rigcalc.widgets.feeders import FeederForms
from rigcalc.widgets.forms import Box
from rigcalc.widgets.kit import Fields, FieldSpec, Markup, Plot, Sheet, h
from rigcalc.widgets.page import PageView
from rigcalc.widgets.partform import PartForm
from rigcalc.widgets.session import Session

_AIR = (
    Box("ambient_usual_c", "Air, usual", help="Cold boxes are counted in it.", slider=(-10, 45, 1)),
    Box("ambient_hot_c", "Air, hottest designed for", slider=(0, 60, 1)),
)


class EnergyPage(PageView):
    """The day of the rig at the left as inputs, at the right by load, by way of feeding and by type of day."""

    page_id = "20-daily-energy"
    question = "Where does a day's energy go, and what does each way of feeding cost?"
    topics = ("L06", "L07", "L08", "L03", "L04", "A01", "A05")

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.chosen = ""
        self.pick = Fields([self._pick_spec()], "Load to compare")
        self.pick.on_edit(self._picked)
        self.air = PartForm(session, "rig", _AIR, "Air around the rig")
        self.inverters = FeederForms(session, "inverters")
        self.converters = FeederForms(session, "converters")
        self.bars, self.ways = Plot(), Plot()
        self.loads, self.compare, self.working = Sheet(), Sheet(), Sheet()
        self.cold, self.rest = Sheet(), Sheet()

    def inputs(self) -> Sequence[Widget]:
        """Load to compare, air, inverters, converters."""
        return self.pick, self.air.fields, self.inverters.box, self.converters.box

    def results(self) -> Sequence[Widget]:
        """Bars, tables, the chosen load by each way, cold boxes."""
        return self.bars, self.loads, self.compare, self.ways, self.working, self.cold, self.rest

    def answer_html(self) -> Markup:
        """The day in one sentence."""
        return energy_results.answer(self.session.study)

    def refresh(self) -> None:
        """Bring all pieces up to the session's study."""
        study, load = self.session.study, self._load()
        bars = energy_results.bars(study)  # the plot first: a slider's hand waits for it
        self.bars.show(figures.energy_bars(bars), energy_results.bars_alt(study), *energy_results.bars_rows(bars))
        self._refresh_loads()
        self._refresh_load(load)
        self.cold.show(energy_ways.cold_tables(study))
        parts = (energy_results.way_table, energy_results.day_table, energy_results.day_workings)
        self.rest.show(h("{}", [part(study) for part in parts]))
        self._refresh_inputs()

    def _refresh_inputs(self) -> None:
        wanted = self._pick_spec()
        if any(self.pick.spec("load").get(name) != value for name, value in wanted.items()):
            self.pick.replace([wanted])
        for form in (self.air, self.inverters, self.converters):
            form.refresh()

    def _refresh_loads(self) -> None:
        study = self.session.study
        self.loads.show(h("{}{}", energy_results.load_table(study, self.chosen), energy_results.known(study)))

    def _refresh_load(self, load: Load | None) -> None:
        if load is None:
            self.compare.show(h('<p class="rig-quiet">No loads yet: enter them in the load inventory.</p>'))
            self.ways.show({}, "")
            self.working.show(Markup(""))
            return
        study = self.session.study
        self.compare.show(energy_ways.ways_table(study, load))
        self.working.show(energy_ways.ways_working(study, load.id))
        rows = energy_ways.way_rows(study, load.id)
        columns = ["Way", "The load with its losses, Wh", "The inverter being on for it, Wh"]
        cells = [[name, figure(own), figure(idle)] for name, own, idle in rows]
        self.ways.show(figures.way_bars(rows), energy_ways.ways_alt(study, load), columns, cells)

    def _load(self) -> Load | None:
        """The chosen load, or the first one where it is not there."""
        loads = self.session.rig.loads
        found = next((load for load in loads if load.id == self.chosen), loads[0] if loads else None)
        self.chosen = found.id if found else ""
        return found

    def _pick_spec(self) -> FieldSpec:
        self._load()
        choices = [(load.id, load.name) for load in self.session.rig.loads]
        help_text = "Its ways of feeding stand side by side in the results."
        return FieldSpec(key="load", label="Load", kind="choice", text=self.chosen, choices=choices, help=help_text)

    def _picked(self, _key: str, text: str) -> None:
        self.chosen = text
        load = self._load()
        self._refresh_loads()
        self._refresh_load(load)


def energy_page(session: Session) -> Container:
    """The page over a session, ready to be shown."""
    return EnergyPage(session).view()
