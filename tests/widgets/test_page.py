"""What every page does: it takes up what the browser kept, and says what other pages have found."""

from __future__ import annotations

from rigcalc.model import write_rig
from rigcalc.widgets.conductors import ConductorsPage
from rigcalc.widgets.overcurrent import OvercurrentPage
from rigcalc.widgets.page import RULES_OF, _others
from rigcalc.widgets.session import Session, open_rig
from tests.rigs import small, small_data
from tests.widgets.hands import press, viewed, words


def test_undo_never_goes_behind_the_rig_that_the_browser_kept():
    shown = viewed(ConductorsPage(open_rig()))
    kept = small(name="My own rig")
    shown.store._handle({"type": "restored", "text": write_rig(kept)})
    assert shown.session.rig == kept
    assert "Undo" not in shown.bar.html
    press(shown.bar, "undo")
    assert shown.session.rig == kept


def test_findings_of_other_pages_are_counted_and_linked():
    data = small_data()
    data["bank"]["wanted_autonomy_days"] = 9.0
    data["devices"][1]["distance_m"] = 3.0
    said = viewed(ConductorsPage(Session(small(**data)))).findings.html
    assert '<a href="30-battery-autonomy.ipynb">Battery autonomy</a>: <span class="rig-warn">▲ 1 warning' in said
    assert (
        '<a href="50-overcurrent-protection.ipynb">Overcurrent protection</a>: <span class="rig-stop">■ 1 stop' in said
    )
    assert "Conductors</a>" not in said
    own = words(viewed(OvercurrentPage(Session(small()))).findings.html)
    assert "On other pages" not in own


def test_every_page_but_the_own_one_is_among_the_others():
    for page in RULES_OF:
        assert {other for other, _ in _others(page)} == set(RULES_OF) - {page}


def test_a_fuse_current_from_memory_is_said_before_the_circuits():
    shown = viewed(OvercurrentPage(Session(small())))
    assert shown.recalled.html == ""
    bank = small_data()["bank"]
    del bank["unit_short_circuit_a"]
    said = words(viewed(OvercurrentPage(Session(small(bank=bank)))).recalled.html)
    assert said.startswith("▲ What the bank gives into a dead short is not stated. Up to ")
