"""Workings as they stand folded under their numbers."""

from __future__ import annotations

from rigcalc.study.results import Working
from rigcalc.widgets.workings import folded, status_tag, steps, working

DROP = Working("Voltage drop of W7", "ΔU = I · R", "5.3 A · 0.04 Ω", "0.21 V", "IEC 60228:2004", "Table 3", "secondary")


def test_a_working_shows_equation_numbers_result_source_locator_and_status():
    html = working(DROP)
    assert "<summary>Working: voltage drop of W7</summary>" in html
    assert "<p>ΔU = I · R</p><p>= 5.3 A · 0.04 Ω = <strong>0.21 V</strong></p>" in html
    assert "IEC 60228:2004 · Table 3" in html
    assert '<span class="rig-tag">secondary</span>' in html


def test_a_figure_from_memory_is_marked_in_more_than_colour():
    for status in ("memory", "memory - doubtful", "not stated", "outside the table"):
        assert f'<span class="rig-tag rig-warn">▲ {status}</span>' in status_tag(status)
    assert "▲" not in status_tag("primary")


def test_without_an_equation_the_numbers_speak():
    html = steps([Working("Idle", "", "not stated: idle draw", "0 Wh", status="not stated")])
    assert "<p>not stated: idle draw: <strong>0 Wh</strong></p>" in html
    assert "= " not in html


def test_several_steps_under_one_title_keep_their_names_and_nothing_gives_nothing():
    html = folded("Working: the day", [DROP, Working("Sum", "E = Σ", "1 + 2", "3")], "day")
    assert html.count("<details") == 1
    assert 'data-key="working day"' in html
    assert "<strong>Voltage drop of W7</strong>" in html
    assert "<strong>Sum</strong>" in html
    assert folded("Working: nothing", []) == ""


def test_what_people_typed_is_escaped():
    html = working(Working("Day of <b>lamp", "E", "<script>", "1 Wh", "typed & read"))
    assert "<script>" not in html
    assert "<b>" not in html
    assert "typed &amp; read" in html
