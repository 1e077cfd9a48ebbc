"""Page 10: what the rig runs, and what each load really uses."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ipywidgets.widgets.widget import Widget
from ipywidgets.widgets.widget_box import Box as Container

from rigcalc.errors import InputError
from rigcalc.model import Load
from rigcalc.model.edit import Change
from rigcalc.model.rows import Removal, copied, day_type_out, free_id, load_out, moved
from rigcalc.widgets import load_results
from rigcalc.widgets.forms import part_of
from rigcalc.widgets.kit import ColumnSpec, Fields, FieldSpec, Markup, RowSpec, Sheet, Table, column, h
from rigcalc.widgets.load_cells import COLUMNS, beside, edited, fed_another_way, feed_choices, said, texts
from rigcalc.widgets.load_forms import DayForm, ReadingForm, RunningForm
from rigcalc.widgets.load_paste import paste
from rigcalc.widgets.page import PageView
from rigcalc.widgets.session import Session

Held = tuple[Any, str, str]  # text of a cell that could not be used, what is wrong, what the rig stated there
_ACTIONS = ("pick", "up", "down", "copy", "remove")
_DAY_COLUMNS: tuple[ColumnSpec, ...] = (
    {"key": "name", "label": "Type of day", "kind": "text"},
    {"key": "day", "label": "A day", "kind": "read"},
)


class LoadsPage(PageView):
    """The load inventory as a table, one load's details at the left, its day and the spread at the right."""

    page_id = "10-load-inventory"
    question = "What do you run, and what does each really use?"
    topics = ("L",)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self.chosen = ""
        self._held: dict[tuple[str, str], Held] = {}
        self.table = Table(COLUMNS, (), "Loads", "Add a load", _ACTIONS, dense=True)
        self.notice, self.one, self.spread = Sheet(live=True), Sheet(), Sheet()
        self.pick = Fields([self._pick_spec()], "Details")
        first = self._choose()
        self.running = RunningForm(session, first, self._tell_also)
        self.reading, self.day = ReadingForm(session, first), DayForm(session, first)
        self.details = column()
        self.days = Table(_DAY_COLUMNS, (), "Types of day", "Add a type of day", ("remove",))
        self._listen()

    def _listen(self) -> None:
        self.table.on_edit(self._edited)
        self.table.on_paste(self._pasted)
        self.table.on_add(self._add)
        self.table.on_copy(self._copy)
        self.table.on_pick(self._pick)
        self.table.on_move(lambda load_id, step: self.session.apply(*moved(self.session.rig, "loads", load_id, step)))
        self.table.on_remove(self._remove)
        self.notice.on_act(self._acted)
        self.pick.on_edit(lambda _key, load_id: self._pick(load_id))
        self.days.on_add(self._add_day)
        self.days.on_edit(self._rename_day)
        self.days.on_remove(self._remove_day)

    def wide(self) -> Sequence[Widget]:
        """The table, and what happened to it."""
        return self.table, self.notice

    def inputs(self) -> Sequence[Widget]:
        """Details of one load."""
        return (self.details,)

    def results(self) -> Sequence[Widget]:
        """The load's day, how figures are known, types of day."""
        words = "Where every day is alike, none is needed. With several, the design counts the largest."
        return self.one, self.spread, self.days, Sheet(h('<p class="rig-quiet">{}</p>', words))

    def answer_html(self) -> Markup:
        """The day in one sentence."""
        return load_results.answer(self.session.study)

    def refresh(self) -> None:
        """Bring all pieces up to the session's study."""
        self.notice.show(Markup(""))
        forms = (self.pick, self.running.fields, self.reading.fields, self.day.fields)
        wanted = forms if self.session.rig.loads else ()
        if self.details.children != wanted:
            self.details.children = wanted
        self._look_at(self.chosen)
        self.table.set_rows([self._row(load) for load in self.session.rig.loads])
        self.spread.show(load_results.spread_table(self.session.study))
        self.days.set_rows(load_results.day_rows(self.session.study))

    # ---- the table ---------------------------------------------------------------------------------

    def _row(self, load: Load) -> RowSpec:
        rig, at = self.session.rig, [load.id for load in self.session.rig.loads].index(load.id)
        days = {day.id: day.name for day in rig.day_types}
        cells, result = texts(load, rig.units), load_results.day_cell(self.session.study.energy.rows[at])
        other = {"power": "", "use": "", "day": result[1]} | beside(load, rig.units, days)
        row = RowSpec(id=load.id, cells=cells | {"day": result[0]}, errors={}, other=other)
        row["picked"] = load.id == self.chosen
        row["choices"] = {"feed": feed_choices(rig)}
        for key in cells:
            text, error, stated = self._held.get((load.id, key), (None, "", ""))
            if error and stated == cells[key]:
                row["cells"][key], row["errors"][key] = text, error
            else:
                self._held.pop((load.id, key), None)
        return row

    def _load(self, load_id: str) -> Load:
        found: Load = part_of(self.session.rig, "loads", load_id)
        return found

    def _edited(self, load_id: str, key: str, text: str) -> None:
        load, before = self._load(load_id), self.session.rig
        self.chosen = load_id
        self._held.pop((load_id, key), None)
        try:
            fields = edited(before, load, key, text)
            wish = Removal((Change("loads", load_id, tuple(fields.items())),), ())
            done = fed_another_way(before, load_id, fields) if key == "feed" else wish
            self.session.apply(*done.changes)
        except InputError as error:
            told = said(error, key, text)
            self._hold(load, key, text, str(told))
            raise told from None
        if self.session.rig is before:
            self.refresh()
        self._tell_also(load.name, done)

    def _hold(self, load: Load, key: str, text: str, error: str) -> None:
        self._held[load.id, key] = (text, error, texts(load, self.session.rig.units)[key])
        feed, _, inverter = text.partition(":")
        if key == "feed" and feed == "inverter_adapter":
            self.running.wanted[load.id] = inverter
        self._look_at(load.id)

    def _pasted(self, load_id: str, key: str, block: list[list[str]]) -> None:
        done = paste(self.session.rig, list(self.table.spread(load_id, key, block)))
        for row_id, key, text, error in done.refused:
            stated = texts(part_of(done.rig, "loads", row_id), done.rig.units)[key]
            self._held[row_id, key] = (text, error, stated)
        self.session.replace(done.rig)
        self.refresh()
        self._tell(done.sentence)

    def _add(self) -> None:
        name = self._new_name("loads", "Load")
        load_id = free_id(self.session.rig, name)
        self.chosen = load_id
        self.session.apply(Change("loads", load_id, (("name", name),), new=True))

    def _new_name(self, kind: str, word: str) -> str:
        names = {part.name for part in getattr(self.session.rig, kind)}
        return next(name for n in range(len(names) + 1, 2 * len(names) + 2) if (name := f"{word} {n}") not in names)

    def _copy(self, load_id: str) -> None:
        self.chosen, changes = copied(self.session.rig, "loads", load_id)
        self.session.apply(*changes)
        self._tell(f"{self._load(load_id).name} was copied. Nothing leads to the copy yet.")

    def _remove(self, load_id: str) -> None:
        name, out = self._load(load_id).name, load_out(self.session.rig, load_id)
        self.session.apply(*out.changes)
        also = f", and with it {_listed(out.also)}" if out.also else ""
        self._tell(f"{name} was removed{also}.", undo=True)

    # ---- types of day ------------------------------------------------------------------------------

    def _add_day(self) -> None:
        name = self._new_name("day_types", "Day")
        day_id = free_id(self.session.rig, name)
        self.session.apply(Change("day_types", day_id, (("name", name),), new=True))

    def _rename_day(self, day_id: str, _key: str, text: str) -> None:
        try:
            self.session.apply(Change("day_types", day_id, (("name", " ".join(text.split())),)))
        except InputError as error:
            raise InputError("Type of day", text, error.allowed) from None

    def _remove_day(self, day_id: str) -> None:
        name, out = part_of(self.session.rig, "day_types", day_id).name, day_type_out(self.session.rig, day_id)
        self.session.apply(*out.changes)
        also = f", and with it {_listed(out.also)}" if out.also else ""
        self._tell(f"The type of day {name} was removed{also}.", undo=True)

    # ---- one load ----------------------------------------------------------------------------------

    def _choose(self) -> str:
        """The chosen load, or the first where there is no such load."""
        ids = [load.id for load in self.session.rig.loads]
        self.chosen = self.chosen if self.chosen in ids else ids[0] if ids else ""
        return self.chosen

    def _pick_spec(self) -> FieldSpec:
        loads = [(load.id, load.name) for load in self.session.rig.loads] or [("", "no load yet")]
        return FieldSpec(key="load", label="Load", kind="choice", text=self.chosen or loads[0][0], choices=loads)

    def _pick(self, load_id: str) -> None:
        self._look_at(load_id)
        self.table.set_rows([self._row(load) for load in self.session.rig.loads])

    def _look_at(self, load_id: str) -> None:
        self.chosen = load_id
        chosen = self._choose()
        for form in (self.running, self.reading, self.day):
            if form.part_id != chosen:
                form.point_at(chosen)
            form.refresh()
        wanted = self._pick_spec()
        if any(self.pick.spec("load").get(name) != value for name, value in wanted.items()):
            self.pick.update("load", text=wanted["text"], choices=wanted["choices"])
        self.one.show(load_results.one_load(self.session.study, chosen))

    # ---- what happened -----------------------------------------------------------------------------

    def _tell_also(self, name: str, out: Removal) -> None:
        if out.also:
            self._tell(f"{name} is fed another way, so {_listed(out.also)} went with the old one.", undo=True)

    def _tell(self, sentence: str, undo: bool = False) -> None:
        button = h(' <button type="button" data-act="undo">Undo</button>') if undo else ""
        self.notice.show(h("<p>{}{}</p>", sentence, button))

    def _acted(self, act: str, arg: str) -> None:
        super()._acted(act, arg)
        if act == "undo":
            self._tell("Undone.")


def _listed(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def loads_page(session: Session) -> Container:
    """The page on the load inventory, ready to be shown."""
    return LoadsPage(session).view()
