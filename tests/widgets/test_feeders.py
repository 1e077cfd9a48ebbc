"""Adding inverters and converters, and taking them out, on the page on daily energy. Invented figures."""

from __future__ import annotations

from tests.rigs import small_data
from tests.widgets.hands import press
from tests.widgets.test_energy_page import edit, full, page


class TestAddAndRemove:
    def test_a_converter_is_added_once_it_is_whole(self):
        shown = full()
        press(shown.converters.add, "draft")
        draft = shown.converters.draft
        assert draft is not None
        for key, text in (("name", "Lamp supply"), ("output_v", "24")):
            edit(draft, key, text)
        press(shown.converters.add, "add")
        assert "without efficiency" in shown.converters.add.html
        edit(draft, "efficiency", "2000 %")
        assert "100 %" in draft.fields.spec("efficiency")["error"]
        edit(draft, "efficiency", "93 %")
        press(shown.converters.add, "add")
        assert [one.id for one in shown.session.rig.converters] == ["dc5", "lamp-supply"]
        assert shown.converters.draft is None
        assert shown.converters.forms["lamp-supply"].fields in shown.converters.box.children

    def test_an_inverter_needs_one_form_of_efficiency(self):
        shown = page()
        press(shown.inverters.add, "draft")
        draft = shown.inverters.draft
        assert draft is not None
        for key, text in (("name", "Small"), ("rated_w", "300 W"), ("on_h", "2 h")):
            edit(draft, key, text)
        press(shown.inverters.add, "add")
        assert "three points (10, 50, 100 %) or one efficiency" in shown.inverters.add.html
        edit(draft, "efficiency", "88 %")
        press(shown.inverters.add, "add")
        assert [one.name for one in shown.session.rig.inverters] == ["Small"]

    def test_a_draft_can_be_dropped(self):
        shown = page()
        press(shown.inverters.add, "draft")
        press(shown.inverters.add, "drop")
        assert shown.inverters.draft is None
        assert shown.inverters.box.children == (shown.inverters.add,)

    def test_what_feeds_a_load_stays_and_says_why(self):
        shown = full()
        assert "cannot be taken out: it feeds Kettle &lt;b&gt;" in shown.inverters.buttons["inv"].html

    def test_what_feeds_nothing_goes_with_its_run_and_the_devices_in_it(self):
        data = small_data()
        run = data["runs"][1] | {"id": "W3", "name": "To supply", "to_id": "dc5"}
        device = data["devices"][1] | {"id": "F3", "run_id": "W3"}
        shown = full(runs=[*data["runs"], run], devices=[*data["devices"], device])
        assert "Remove USB supply with run W3, device F3" in shown.converters.buttons["dc5"].html
        press(shown.converters.buttons["dc5"], "remove", "dc5")
        assert not shown.session.rig.converters
        assert "W3" not in [one.id for one in shown.session.rig.runs]
        assert shown.converters.box.children == (shown.converters.add,)
