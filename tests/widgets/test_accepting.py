"""Accepting a finding: with reason, name and date; a stop gets a note and stays a stop."""

from __future__ import annotations

import pytest

from rigcalc.model import rig_from_data
from rigcalc.study import study
from rigcalc.widgets.overcurrent import OvercurrentPage
from rigcalc.widgets.session import Session
from tests.rigs import small_data
from tests.widgets.hands import press, type_in, viewed


def stopped() -> OvercurrentPage:
    """The lamp's fuse sits too far from its source."""
    data = small_data()
    data["devices"][1]["distance_m"] = 2.0
    return shown_with(data)


def warned() -> OvercurrentPage:
    """The lamp's fuse breaks little more than the short circuit at it."""
    data = small_data()
    short_a = study(rig_from_data(data)).network.circuits[1].prospective_a
    data["devices"][1]["interrupting_a"] = 1.02 * short_a
    return shown_with(data)


def shown_with(data) -> OvercurrentPage:
    return viewed(OvercurrentPage(Session(rig_from_data(data))))


def fill(shown: OvercurrentPage, **texts: str) -> None:
    for key, text in texts.items():
        type_in(shown.accepting.form, key, text)
    press(shown.accepting.buttons, "keep")


GIVEN = {"reason": "measured on site", "name": "A. Builder", "date": "2026-05-01"}


def test_a_warning_is_accepted_and_leaves_the_count():
    shown = warned()
    key = next(f"{one.rule}/{one.subject}" for one in shown.session.findings if one.severity == "warning")
    assert "▲ 1 warning" in shown.header.html
    press(shown.findings, "accept", key)
    assert shown.accepting.box.children == (shown.accepting.form, shown.accepting.buttons)
    fill(shown, **GIVEN)
    assert shown.accepting.box.children == ()
    kept = shown.session.rig.accepted[0]
    assert f"{kept.rule}/{kept.subject}" == key
    assert "Accepted by A. Builder, 2026-05-01: measured on site" in shown.findings.html
    assert "warning" not in shown.header.html
    row = shown.circuits.table.row(kept.subject)
    assert row["cells"]["state"] == "▲ warning, accepted"


def test_a_stop_gets_a_note_and_is_still_counted():
    shown = stopped()
    press(shown.findings, "accept", "P02/F2")
    assert "A stop stays a stop" in shown.accepting.buttons.html
    fill(shown, **GIVEN)
    assert "Still a stop. Note by A. Builder" in shown.findings.html
    assert "■ 1 stop" in shown.header.html


def test_another_reason_replaces_the_first_and_it_can_be_taken_back():
    shown = stopped()
    press(shown.findings, "accept", "P02/F2")
    fill(shown, **GIVEN)
    press(shown.findings, "accept", "P02/F2")
    assert shown.accepting.form.text("reason") == "measured on site"
    fill(shown, reason="moved next week")
    assert [one.reason for one in shown.session.rig.accepted] == ["moved next week"]
    press(shown.findings, "unaccept", "P02/F2")
    assert shown.session.rig.accepted == ()
    shown.session.undo()
    assert len(shown.session.rig.accepted) == 1


@pytest.mark.parametrize(
    ("key", "text", "said"),
    [
        ("reason", "  ", "Needed."),
        ("name", "", "Needed."),
        ("date", "soon", "a date such as"),
        ("date", "2026-02-30", "a date such as"),
        ("reason", "x" * 81, "at most 80 characters"),
    ],
)
def test_what_is_missing_or_wrong_is_said_under_its_field(key, text, said):
    shown = stopped()
    press(shown.findings, "accept", "P02/F2")
    fill(shown, **(GIVEN | {key: text}))
    assert said in shown.accepting.form.spec(key)["error"]
    assert shown.session.rig.accepted == ()
    assert shown.accepting.form.text(key) == text


def test_cancel_changes_nothing_and_the_name_is_remembered():
    shown = stopped()
    press(shown.findings, "accept", "P02/F2")
    press(shown.accepting.buttons, "close")
    assert shown.accepting.box.children == ()
    press(shown.findings, "accept", "P02/F2")
    fill(shown, **GIVEN)
    press(shown.findings, "unaccept", "P02/F2")
    press(shown.findings, "accept", "P02/F2")
    assert shown.accepting.form.text("name") == "A. Builder"
    assert shown.accepting.form.text("reason") == ""


def test_text_is_escaped():
    shown = stopped()
    press(shown.findings, "accept", "P02/F2")
    fill(shown, reason="<img>", name="<b>me</b>", date="2026-05-01")
    assert "<img>" not in shown.findings.html
    assert "&lt;b&gt;me&lt;/b&gt;" in shown.findings.html


def test_a_remedy_is_found_and_applied():
    shown = stopped()
    press(shown.findings, "remedy", "P02/F2")
    assert "Apply" in shown.findings.html
    press(shown.findings, "apply", "P02/F2")
    assert not any(one.stops for one in shown.session.findings)
