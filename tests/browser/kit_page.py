"""A page that uses every piece of the kit; the browser tests serve it."""

from rigcalc.errors import InputError
from rigcalc.widgets.kit import (
    Download,
    Fields,
    Header,
    Page,
    Plot,
    SaveOpen,
    Sheet,
    Stage,
    Store,
    Table,
    column,
    h,
    two_columns,
)

COLUMNS = [
    {"key": "name", "label": "Load", "kind": "text"},
    {"key": "power", "label": "Power", "kind": "quantity"},
    {"key": "feed", "label": "Fed by", "kind": "choice", "choices": [["dc", "DC"], ["inverter", "Inverter"]]},
    {"key": "night", "label": "At night", "kind": "check"},
    {"key": "note", "label": "Note", "kind": "read"},
]
STAGES = [Stage("Loads", [Page("First", "00-first.ipynb", True), Page("Second", "10-second.ipynb")]), Stage("Paper")]


def number(text):
    """The number a text begins with."""
    try:
        return float(str(text).split()[0].replace(",", "."))
    except (ValueError, IndexError):
        raise InputError("Length out", text, "a length such as 5.5 m or 18 ft") from None


def load(row_id, name, power):
    return {
        "id": row_id,
        "cells": {"name": name, "power": power, "feed": "dc", "night": False, "note": f"row {row_id}"},
    }


class View:
    """The pieces and the little there is between them."""

    def __init__(self):
        slider = {"min": 0, "max": 20, "step": 0.5, "value": 5.5, "unit": "m"}
        self.form = Fields(
            [
                {"key": "out", "label": "Length out", "kind": "quantity", "text": "5.5 m", "slider": slider},
                {
                    "key": "kind",
                    "label": "Insulation",
                    "kind": "choice",
                    "text": "90",
                    "choices": [["70", "70 °C"], ["90", "90 °C"]],
                },
                {"key": "hot", "label": "In the engine room", "kind": "check", "text": False},
            ],
            title="Run -W7",
        )
        rows = [load("1", "Fridge", "62 W"), load("2", "Lamp", "14 W")]
        self.table = Table(COLUMNS, rows, caption="Loads", add_label="Add a load")
        self.header, self.store = Header(STAGES, findings_href="10-second.ipynb"), Store("kit-test")
        self.answer, self.results, self.plot = Sheet(live=True), Sheet(), Plot()
        self.files = SaveOpen({"Save file": lambda: Download("rig.json", "application/json", self.text().encode())})
        self.applied = 0
        self.listen()
        self.show()

    def text(self):
        return self.form.text("out")

    def listen(self):
        self.form.on_edit(self.edited)
        self.results.on_act(self.acted)
        self.files.on_open(lambda name, text: self.take(text))
        self.store.on_restored(lambda text: text and self.take(text))
        self.table.on_edit(lambda *edit: self.table.update(edit[0], cells={"note": f"{edit[1]} is {edit[2]}"}))
        self.table.on_add(lambda: self.add(load("new", "", "")))
        self.table.on_remove(lambda row_id: self.table.set_rows([r for r in self.table.rows if r["id"] != row_id]))
        self.table.on_move(lambda row_id, step: self.table.set_rows(self.table.rows[::-1]))
        self.table.on_paste(self.pasted)

    def edited(self, key, text):
        if key == "out":
            length = number(text)
            self.form.update(key, error=None, other=f"{length / 0.3048:.1f} ft", slider={"value": length})
            self.show()
            self.store.keep(text)

    def take(self, text):
        self.form.update("out", text=text)
        self.show()
        self.store.keep(text)

    def acted(self, act, arg):
        if act == "break":
            raise RuntimeError("on purpose")
        self.applied += 1
        self.show()

    def add(self, row):
        self.table.set_rows([*self.table.rows, row])

    def pasted(self, row_id, key, block):
        for i, (target, cells) in enumerate(self.table.spread(row_id, key, block)):
            if target is None:
                self.add({"id": f"p{i}", "cells": cells})
            else:
                self.table.update(target, cells=cells)

    def show(self):
        length = number(self.text())
        self.header.show_rig("Test <rig>", "12 V", stops=1, warnings=2)
        self.answer.show(h('<p class="rig-answer">The run is <strong>{} long</strong>.</p>', self.text()))
        self.results.show(
            h(
                '<h2>Working</h2><details data-key="w"><summary>Working of -W7</summary><p id="sum">{} m</p></details>'
                '<p><button type="button" data-act="apply" data-arg="-W7">Apply</button> applied {} times'
                ' <button type="button" data-act="break">Break</button></p>',
                length,
                self.applied,
            )
        )
        data = [{"x": [0, length], "y": [12.1, 12.1 - length / 50], "name": "6 mm²"}]
        layout = {"xaxis": {"title": {"text": "Way, m"}}, "yaxis": {"title": {"text": "Voltage, V"}}, "height": 260}
        self.plot.show({"data": data, "layout": layout}, f"Voltage over {length} m.", ["Way, m"], [[0], [length]])

    def view(self):
        left, right = self.form, column(self.results, self.plot)
        return column(self.header, self.store, self.answer, two_columns(left, right), self.table, self.files)


def view():
    """The page, ready to be shown."""
    return View().view()
