"""Page 30: how long the bank lasts without charging."""

from __future__ import annotations

from collections.abc import Sequence

from ipywidgets.widgets.widget import Widget
from ipywidgets.widgets.widget_box import Box as Container

from rigcalc.errors import InputError, need
from rigcalc.model.edit import change
from rigcalc.units import parse
from rigcalc.widgets import autonomy_curves, autonomy_results
from rigcalc.widgets.bankforms import DAY, LIMITS, MADE_OF, BankForm, RateTable
from rigcalc.widgets.energy_results import wh
from rigcalc.widgets.forms import with_unit
from rigcalc.widgets.kit import Fields, FieldSpec, Markup, Plot, Sheet, SliderSpec
from rigcalc.widgets.page import PageView
from rigcalc.widgets.session import Session

_USE = "use_wh"


def autonomy_page(session: Session) -> Container:
    """The page over a session, ready to be shown."""
    return AutonomyPage(session).view()


class AutonomyPage(PageView):
    """The bank at the left, how long it lasts at the right; a use a day can be tried without being saved."""

    page_id = "30-battery-autonomy"
    question = "How long does the bank last without charging?"
    topics = ("B", "D01", "D02")

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.tried_wh: float | None = None
        self.running: list[str] = []
        self.try_use = Fields([self._use_spec()], "What if (not saved)")
        self.try_use.on_edit(self._tried)
        self.forms = [
            BankForm(session, DAY, "The day designed for"),
            BankForm(session, MADE_OF, "Bank"),
            BankForm(session, LIMITS, "Voltages and limits"),
        ]
        self.rates = RateTable(session)
        self.together = Fields(self._load_specs(), "Run together (not saved)")
        self.together.on_edit(self._ticked)
        self.by_use, self.by_temperature = Plot(), Plot()
        self.lasting, self.content, self.needed, self.currents = Sheet(), Sheet(), Sheet(), Sheet()
        self.runtime, self.workings = Sheet(), Sheet()
        self.needed.on_act(self._take_strings)

    def inputs(self) -> Sequence[Widget]:
        """A use only tried, the day designed for, the bank, its rates and limits."""
        day, made_of, limits = (form.fields for form in self.forms)
        return self.try_use, day, made_of, self.rates.table, limits

    def results(self) -> Sequence[Widget]:
        """Days, curves, the bank needed, currents, hours of chosen loads."""
        first = (self.lasting, self.by_use, self.by_temperature, self.content)
        return (*first, self.needed, self.currents, self.runtime, self.together, self.workings)

    def answer_html(self) -> Markup:
        """How long it lasts, in one sentence."""
        return autonomy_results.answer(self.session.study)

    def refresh(self) -> None:
        """Bring all pieces up to the session's study."""
        self._refresh_use()
        study = self.session.study
        self.by_temperature.show(*autonomy_curves.by_temperature(study))
        self.content.show(autonomy_results.content(study))
        self.needed.show(autonomy_results.needed(study))
        self.currents.show(autonomy_results.currents(study))
        self.workings.show(autonomy_results.workings(study))
        for form in self.forms:
            form.refresh()
        self.rates.refresh()
        self._refresh_loads()

    def _refresh_use(self) -> None:
        study = self.session.study
        self.by_use.show(*autonomy_curves.by_use(study, self.tried_wh))
        self.lasting.show(autonomy_results.lasting(study, self.tried_wh))
        spec = self._use_spec()
        if self.tried_wh is None and self.try_use.spec(_USE).get("slider") != spec["slider"]:
            self.try_use.update(_USE, slider=spec["slider"], help=spec["help"])

    def _refresh_loads(self) -> None:
        ids = {load.id for load in self.session.rig.loads}
        self.running = [load_id for load_id in self.running if load_id in ids]
        specs = self._load_specs()
        if [self.together.spec(spec["key"]) if spec["key"] in ids else None for spec in self.together.specs] != specs:
            self.together.replace(specs)
        self.runtime.show(autonomy_results.runtime(self.session.study, self.running))

    def _load_specs(self) -> list[FieldSpec]:
        loads = self.session.rig.loads
        return [FieldSpec(key=one.id, label=one.name, kind="check", text=one.id in self.running) for one in loads]

    def _use_spec(self) -> FieldSpec:
        day_wh = self.session.study.energy.daily_energy_wh
        most = max(100.0, round(3 * day_wh, -2))
        slider = SliderSpec(min=most / 100, max=most, step=most / 100, value=self.tried_wh or day_wh, unit="Wh")
        note = f"The rig's own day takes {wh(day_wh)}. Empty: nothing is tried."
        return FieldSpec(
            key=_USE, label="A day takes", kind="quantity", text="", placeholder="as it is", help=note, slider=slider
        )

    def _tried(self, key: str, text: str) -> None:
        if text.strip():
            value = parse(with_unit(text.strip(), "wh", "metric"), "wh", "Energy a day")
            need(value > 0, "Energy a day", text, "more than 0 Wh")
            self.tried_wh = value
        else:
            self.tried_wh = None
        self._refresh_use()
        day_wh = self.session.study.energy.daily_energy_wh
        self.try_use.update(key, error="", slider={"value": self.tried_wh or day_wh})

    def _ticked(self, load_id: str, ticked: bool) -> None:
        self.running = [one for one in self.running if one != load_id] + ([load_id] if ticked else [])
        self.runtime.show(autonomy_results.runtime(self.session.study, self.running))

    def _take_strings(self, _act: str, count: str) -> None:
        try:
            self.session.apply(change("bank", parallel=int(count)))
        except InputError as error:
            self.files.error = str(error)
