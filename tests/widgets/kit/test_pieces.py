"""Sheet, plot, store, files, head and boxes without a browser."""

from __future__ import annotations

import re

import pytest

from rigcalc.errors import InputError
from rigcalc.widgets.kit import (
    Download,
    Header,
    Page,
    Plot,
    SaveOpen,
    Sheet,
    Stage,
    Store,
    column,
    h,
    two_columns,
)
from rigcalc.widgets.kit.plot import plain
from tests.widgets.kit.conftest import messages


def test_a_button_of_a_sheet_calls_with_its_act_and_arg():
    sheet, heard = Sheet(h("<p>{}</p>", 1)), []
    sheet.on_act(lambda act, arg: heard.append((act, arg)))
    sheet._handle({"type": "act", "act": "apply", "arg": "-W7"})
    sheet._handle({"type": "act", "act": "undo"})
    assert heard == [("apply", "-W7"), ("undo", "")]


def test_a_plot_carries_arrays_and_gaps_as_json():
    np = pytest.importorskip("numpy")
    plot = Plot()
    plot.show({"data": [{"y": np.array([1.0, np.nan])}]}, "Two points.", ["y"], [[1], [None]])
    assert plot.figure == '{"data":[{"y":[1.0,null]}]}'
    assert plot.table == {"columns": ["y"], "rows": [[1], [None]]}
    assert plain({"when": np.datetime64("2026-01-05").astype(object)}) == {"when": "2026-01-05"}


def test_a_plot_leaves_the_template_of_a_plotly_figure_out():
    go = pytest.importorskip("plotly.graph_objects")
    plot = Plot()
    plot.show(go.Figure(go.Scatter(y=[1, 2]), layout={"height": 200}), "Two points.")
    assert plot.figure == '{"data":[{"y":[1,2],"type":"scatter"}],"layout":{"height":200}}'


def test_a_plot_needs_no_plotly_for_a_plain_dict():
    plot = Plot()
    plot.show({"data": [{"y": (1, 2)}], "layout": {"height": 200}}, "Two points.")
    assert (plot.figure, plot.alt, plot.table) == (
        '{"data":[{"y":[1,2]}],"layout":{"height":200}}',
        "Two points.",
        {},
    )


def test_the_store_hands_back_what_the_browser_kept_before_it_is_ready():
    store, heard = Store(), []
    store.on_restored(lambda text: heard.append((text, store.ready)))
    store._handle({"type": "restored", "text": ""})
    store._handle({"type": "restored", "text": "{}"})
    assert heard == [("", False), ("{}", True)]
    store.keep('{"a": 1}')
    assert store.value == '{"a": 1}'


def test_forgetting_tells_the_browser(sent):
    store = Store()
    store.keep("x")
    store.forget()
    assert messages(sent)[-1][0] == {"type": "forget"}
    assert store.value == ""


def test_a_file_is_made_when_it_is_wanted(sent):
    files = SaveOpen({"Save file": lambda: Download("rig.json", "application/json", b"{}")})
    files._handle({"type": "save", "index": 0})
    assert messages(sent) == [({"type": "file", "name": "rig.json", "mime": "application/json"}, [b"{}"])]


def test_an_opened_file_comes_as_text_also_with_a_byte_order_mark():
    files, heard = SaveOpen(), []
    files.on_open(lambda name, text: heard.append((name, text)))
    files._handle({"type": "open", "name": "a.json"}, ["Ω".encode("utf-8-sig")])
    files._handle({"type": "open", "name": "b.json", "text": "{}"})
    assert heard == [("a.json", "Ω"), ("b.json", "{}")]


@pytest.mark.parametrize(
    ("data", "said"),
    [(b"\xff\xfe\x00", "expected text in UTF-8"), (b" " * 10_000_001, "expected 10000000 bytes or less")],
)
def test_a_file_that_cannot_be_read_is_told_beside_the_buttons(data, said):
    files = SaveOpen()
    files.on_open(lambda name, text: pytest.fail("was opened"))
    files._handle({"type": "open", "name": "a.json"}, [data])
    assert said in files.error


def test_an_input_error_of_opening_is_told_and_the_next_success_clears_it():
    files, refuse = SaveOpen(), [True]

    def opened(name, text):
        if refuse:
            raise InputError("Content of a.json", text, "a rig file")

    files.on_open(opened)
    files._handle({"type": "open", "name": "a.json", "text": "?"})
    assert files.error == "Content of a.json is '?'; expected a rig file."
    refuse.clear()
    files._handle({"type": "open", "name": "a.json", "text": "?"})
    assert files.error == ""


STAGES = [
    Stage("Loads", [Page("Load inventory", "10-loads.ipynb"), Page("Daily <energy>", "20-energy.ipynb", current=True)]),
    Stage("Wiring", [Page("Conductors", "40-conductors.ipynb")]),
    Stage("Proof"),
]


def test_the_head_shows_stages_pages_of_the_present_one_and_what_comes_later():
    html = Header(STAGES).html
    rows = html.split('<nav class="rig-steps"')[0]
    assert '<li aria-current="step"><a href="10-loads.ipynb">Loads</a></li>' in rows
    assert '<li aria-current="page"><a href="20-energy.ipynb">Daily &lt;energy&gt;</a></li>' in rows
    assert "<li>Proof <small>later</small></li>" in rows
    assert "Conductors" not in rows
    assert "Step 1 of 3: Loads" in html
    assert "/" not in "".join(re.findall(r'href="([^"]*)"', html)), "links are relative"


def test_the_head_says_which_rig_and_counts_findings_with_mark_and_word():
    header = Header(STAGES, findings_href="90-findings.ipynb")
    header.show_rig("Van & trailer", "12 V", stops=2, warnings=1, advice=0)
    assert "<strong>Van &amp; trailer</strong>" in header.html
    assert '<a class="rig-count rig-stop" href="90-findings.ipynb">■ 2 stops</a>' in header.html
    assert "▲ 1 warning<" in header.html
    assert "●" not in header.html
    assert "data-rig-saved" in header.html


def test_boxes_hold_pieces_and_add_no_layout_of_their_own():
    left, right = Sheet(), Sheet()
    box = column(two_columns(left, right))
    assert box.children[0].children == (left, right)
    assert box.layout is left.layout
