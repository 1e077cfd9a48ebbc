"""Capacity of one unit at other rates, as rows of the page on autonomy. Invented figures."""

from __future__ import annotations

from typing import Any

from rigcalc.widgets.autonomy import AutonomyPage
from tests.widgets.test_autonomy_page import page


class TestRates:
    def table(self, shown: AutonomyPage, **content: Any) -> None:
        shown.rates.table._handle(content)

    def test_a_row_counts_once_both_cells_are_there(self):
        shown = page()
        self.table(shown, type="add")
        self.table(shown, type="edit", id="new", key="over_h", text="60 min")
        assert shown.session.rig.bank.rate_points == ()
        self.table(shown, type="edit", id="new", key="capacity_ah", text="90")
        point = shown.session.rig.bank.rate_points[0]
        assert (point.over_h, point.capacity_ah) == (1.0, 90.0)
        assert shown.rates.table.row("0")["cells"] == {"over_h": "60 min", "capacity_ah": "90 Ah"}

    def test_what_cannot_be_used_stays_in_its_cell(self):
        shown = page({"rate_points": [{"over_h": 1.0, "capacity_ah": 90.0}]})
        for text in ("lots", ""):
            self.table(shown, type="edit", id="0", key="capacity_ah", text=text)
            assert shown.rates.table.row("0")["errors"]["capacity_ah"].startswith("Capacity is ")
            assert shown.rates.table.row("0")["cells"]["capacity_ah"] == text
            assert shown.session.rig.bank.rate_points[0].capacity_ah == 90.0
        self.table(shown, type="edit", id="0", key="capacity_ah", text="92 Ah")
        assert shown.rates.table.row("0")["errors"]["capacity_ah"] == ""
        assert shown.session.rig.bank.rate_points[0].capacity_ah == 92.0

    def test_more_ampere_hours_at_a_faster_rate_are_refused(self):
        shown = page({"rate_points": [{"over_h": 5.0, "capacity_ah": 95.0}, {"over_h": 1.0, "capacity_ah": 90.0}]})
        self.table(shown, type="edit", id="1", key="capacity_ah", text="99")
        assert "more Ah for more hours" in shown.rates.table.row("1")["errors"]["capacity_ah"]

    def test_rows_are_taken_out_drafts_too(self):
        shown = page({"rate_points": [{"over_h": 1.0, "capacity_ah": 90.0}]})
        self.table(shown, type="add")
        self.table(shown, type="remove", id="new")
        assert shown.rates.table.order == ["0"]
        self.table(shown, type="remove", id="0")
        assert shown.session.rig.bank.rate_points == ()
        assert shown.rates.table.order == []

    def test_between_stated_rates_the_capacity_is_known(self):
        """25 W behind 12.8 V take 1.95 A: between 100 Ah over 20 h (5 A) and 110 Ah over 100 h (1.1 A)."""
        steady = {"id": "hub", "name": "Hub", "provenance": "measured", "power_w": 25.0, "daily_use_h": 24.0}
        shown = page({"rate_points": [{"over_h": 100.0, "capacity_ah": 110.0}]}, [steady])
        assert "no rates around this current" not in shown.content.html
