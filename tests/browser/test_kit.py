"""The pieces in a real browser: what is typed stays, answers follow, nothing is lost and nothing is asked outside."""

from __future__ import annotations

import json

import pytest


@pytest.fixture
def kit(kit_server, tab):
    return tab(kit_server[0]).open("00-first")


def length(tab):
    return tab.page.get_by_label("Length out", exact=True)


@pytest.mark.parametrize("width", [1280, 360])
def test_page_is_whole_and_asks_nothing_outside(kit_server, tab, width):
    one = tab(kit_server[0], width=width).open("00-first")
    one.page.wait_for_selector(".rig-drawing .main-svg")
    one.idle()
    assert one.page.title() == "Which conductor? · rigcalc"
    assert one.page.locator("main").count() == 1
    assert one.page.locator("#rigcalc-header nav:visible a[href='10-second.ipynb']").count() + (width == 360) >= 1
    assert one.overflow_px() <= 1
    assert one.axe() == []
    assert one.complaints == []


def test_home_is_the_first_page(kit_server, tab):
    one = tab(kit_server[0])
    one.page.goto(kit_server[0])
    assert one.page.url.endswith("/voila/render/00-first.ipynb")


def test_typed_text_stays_and_the_answer_follows(kit):
    length(kit).fill("6,25 m")
    length(kit).press("Enter")
    kit.page.wait_for_selector("text=20.5 ft")
    assert length(kit).input_value() == "6,25 m"
    assert "6,25 m long" in kit.page.locator(".rig-answer").inner_text()


def test_wrong_text_stays_with_its_error_under_it(kit):
    length(kit).fill("6 ftt wide")
    length(kit).fill("many m")
    length(kit).blur()
    kit.page.wait_for_selector("text=■ Length out is 'many m'; expected a length such as 5.5 m or 18 ft.")
    assert length(kit).input_value() == "many m"
    assert length(kit).get_attribute("aria-invalid") == "true"
    told = kit.page.locator("#" + length(kit).get_attribute("aria-describedby").split()[-1])
    assert "expected a length" in told.inner_text()
    length(kit).fill("7 m")
    length(kit).blur()
    kit.page.wait_for_selector("text=23.0 ft")
    assert length(kit).get_attribute("aria-invalid") is None


def test_text_being_typed_is_not_overwritten(kit):
    length(kit).fill("8 m")
    length(kit).press("Enter")
    length(kit).press_sequentially("m")
    kit.page.wait_for_selector("text=26.2 ft")
    kit.idle()
    assert length(kit).input_value() == "8 mm"


def test_slider_writes_its_text_and_rests_at_its_end_for_a_value_beyond(kit):
    slider = kit.page.get_by_label("Length out, slider")
    slider.focus()
    slider.press("ArrowRight")
    kit.page.wait_for_selector("text=The run is 6.0 m long")
    assert length(kit).input_value() == "6.0 m"
    length(kit).fill("31 m")
    length(kit).press("Enter")
    kit.page.wait_for_selector("text=The run is 31 m long")
    assert (slider.input_value(), length(kit).input_value()) == ("20", "31 m")


def test_fast_slider_ends_on_its_newest_value_without_a_queue(kit_server, tab):
    sent = []
    kit = tab(kit_server[0])
    kit.page.on("websocket", lambda socket: socket.on("framesent", lambda frame: sent.append(str(frame))))
    kit.open("00-first")
    sent.clear()
    kit.page.evaluate(
        """() => { const range = document.querySelector('input[type=range]');
            for (let i = 0; i < 200; i += 1) { range.value = i % 20; range.dispatchEvent(new Event('input')); }
            range.value = 13; range.dispatchEvent(new Event('input')); }"""
    )
    kit.page.wait_for_selector("text=The run is 13.0 m long")
    kit.idle()
    assert length(kit).input_value() == "13.0 m"
    edits = [frame for frame in sent if '"edit"' in frame]
    assert 1 <= len(edits) <= 4, "of 201 moves the newest waits and the others are dropped"


def test_sheet_keeps_open_parts_and_focus_over_an_update(kit):
    kit.page.locator("summary", has_text="Working of -W7").click()
    apply = kit.page.get_by_role("button", name="Apply")
    apply.focus()
    apply.press("Enter")
    kit.page.wait_for_selector("text=applied 1 times")
    assert kit.page.locator("#sum").is_visible()
    assert kit.page.evaluate("document.activeElement.dataset.act") == "apply"


def test_a_failing_callback_is_shown_and_the_page_lives_on(kit):
    kit.page.get_by_role("button", name="Break").click()
    kit.page.wait_for_selector(
        "text=■ This could not be worked out (RuntimeError: on purpose). What was typed is kept."
    )
    kit.page.get_by_role("button", name="Apply").click()
    kit.page.wait_for_selector("text=applied 1 times")
    assert kit.page.locator("text=on purpose").count() == 0


def test_plot_says_it_in_words_and_follows(kit):
    kit.page.wait_for_selector(".rig-drawing .main-svg")
    assert kit.page.locator(".rig-drawing").get_attribute("aria-label") == "Voltage over 5.5 m."
    length(kit).fill("11 m")
    length(kit).press("Enter")
    kit.page.wait_for_selector("figcaption:has-text('Voltage over 11.0 m.')")
    kit.idle()
    assert kit.page.evaluate("document.querySelector('.rig-drawing').data[0].x[1]") == 11


def cell(tab, column, row):
    return tab.page.get_by_label(f"{column}, {row}", exact=True)


def names(tab):
    return [box.input_value() for box in tab.page.locator(".rig-table tbody th input").all()]


def test_table_by_keyboard(kit):
    cell(kit, "Power", "Fridge").fill("60 W")
    cell(kit, "Power", "Fridge").press("Enter")
    assert kit.page.evaluate("document.activeElement.getAttribute('aria-label')") == "Power, Lamp"
    kit.page.wait_for_selector("text=power is 60 W")
    kit.page.get_by_role("button", name="Move down: Fridge").press("Enter")
    kit.page.wait_for_function("document.querySelector('.rig-table tbody tr').dataset.id === '2'")
    assert names(kit) == ["Lamp", "Fridge"]
    kit.page.get_by_role("button", name="Remove: Lamp").press("Enter")
    kit.page.wait_for_function("document.querySelectorAll('.rig-table tbody tr').length === 1")
    kit.page.get_by_role("button", name="Add a load").press("Enter")
    kit.page.wait_for_function("document.activeElement.closest('tr')?.dataset.id === 'new'")
    assert names(kit) == ["Fridge", ""]


def test_table_takes_a_block_from_a_spreadsheet(kit):
    cell(kit, "Load", "Lamp").evaluate(
        """(box, text) => { const clipboardData = new DataTransfer(); clipboardData.setData('text/plain', text);
            box.dispatchEvent(new ClipboardEvent('paste', {clipboardData, bubbles: true, cancelable: true})); }""",
        'Rear lamp\t8 W\n"Pump, ""fresh"""\t48 W\nFan\t12 W\n',
    )
    kit.page.wait_for_function("document.querySelectorAll('.rig-table tbody tr').length === 4")
    assert names(kit) == ["Fridge", "Rear lamp", 'Pump, "fresh"', "Fan"]
    assert cell(kit, "Power", "Rear lamp").input_value() == "8 W"


def test_store_keeps_restores_and_asks_before_taking_another_tabs_version(kit_server, tab, kit):
    length(kit).fill("9 m")
    length(kit).press("Enter")
    kit.page.wait_for_selector("#rigcalc-header :text('kept in this browser, ')")
    other = tab(kit_server[0]).open("10-second")
    other.page.wait_for_selector("text=The run is 9 m long")
    length(other).fill("3 m")
    length(other).press("Enter")
    kit.page.get_by_role("button", name="Load the other tab's version").wait_for()
    assert length(kit).input_value() == "9 m"
    kit.page.get_by_role("button", name="Load the other tab's version").click()
    kit.page.wait_for_selector("text=The run is 3 m long")


def test_store_says_when_it_cannot_keep(kit_server, tab):
    one = tab(kit_server[0])
    one.page.add_init_script(
        "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }"
    )
    one.open("00-first")
    length(one).fill("9 m")
    length(one).press("Enter")
    one.page.wait_for_selector("text=not kept: this browser's room is full. Save the file.")


def test_typing_is_kept_when_a_link_is_followed_at_once(kit):
    length(kit).fill("4 m")
    kit.page.locator("#rigcalc-header a:visible", has_text="Second").click()
    kit.page.wait_for_url("**/10-second.ipynb")
    kit.page.wait_for_selector("text=The run is 4 m long")


def test_files_out_and_in(kit, tmp_path):
    with kit.page.expect_download() as saved:
        kit.page.get_by_role("button", name="Save file").click()
    assert saved.value.suggested_filename == "rig.json"
    assert saved.value.path().read_text(encoding="utf-8") == "5.5 m"
    opened, huge = tmp_path / "mine.json", tmp_path / "huge.json"
    opened.write_text("2.5 m", encoding="utf-8")
    huge.write_bytes(b" " * 10_100_000)
    kit.page.locator("input[type=file]").set_input_files(opened)
    kit.page.wait_for_selector("text=The run is 2.5 m long")
    kit.page.locator("input[type=file]").set_input_files(huge)
    kit.page.wait_for_selector("text=■ huge.json has 10.1 MB; a file of at most 10.0 MB can be opened.")


def test_ten_megabytes_pass(kit, tmp_path):
    large = tmp_path / "large.json"
    large.write_text("1 m" + " " * 9_900_000, encoding="utf-8")
    kit.page.locator("input[type=file]").set_input_files(large)
    kit.page.wait_for_function("document.querySelector('.rig-answer').innerText.startsWith('The run is 1 m')")


def test_a_failing_page_says_so_in_words(kit_server, tab):
    one = tab(kit_server[0])
    one.page.goto(kit_server[0] + "voila/render/20-broken.ipynb")
    one.page.wait_for_selector("text=This page stopped before its end")
    assert "AttributeError" not in one.page.content()
    assert one.axe() == []


def test_page_config_names_no_outside_address(kit):
    config = json.loads(kit.page.locator("#jupyter-config-data").inner_text())
    assert config["fullMathjaxUrl"] is None
    assert all(address.startswith("/") for address in config["rigcalc"].values())
