"""What a finding says is so: no figure from memory passes unsaid, no sentence claims what its case does not hold."""

from __future__ import annotations

from typing import Any

import pytest

from rigcalc.model import rig_from_data
from rigcalc.rules import Finding, findings, remedy
from rigcalc.study import study
from tests.rigs import small_data
from tests.rules.cases import Data, Edit, bank, both, cold_box, device, free_fuse, inverter, lamp, run, sense_run, top
from tests.rules.test_not_stated import behind_converter


def heard(*edits: Edit) -> tuple[Finding, ...]:
    data = small_data()
    both(*edits)(data)
    return findings(study(rig_from_data(data)))


def of(found: tuple[Finding, ...], rule: str, subject: str) -> list[Finding]:
    return [one for one in found if (one.rule, one.subject) == (rule, subject)]


def the(found: tuple[Finding, ...], rule: str, subject: str) -> Finding:
    (one,) = of(found, rule, subject)
    return one


READING = {"energy_wh": 200.0, "over_h": 24.0, "at": "ac_behind_inverter"}
BY_READING = lamp(reading=READING, power_w=None, daily_use_h=None)


@pytest.mark.parametrize("rule", ["P08", "P10"])
def test_devices_that_pass_by_memory_only_are_said_in_one_line(rule: str) -> None:
    strips = both(device(1, device_class="bolted_strip"), device(2, device_class="bolted_strip", rating_a=None))
    one = the(heard(lamp(max_fuse_a=None), strips), rule, "rig")
    assert one.state == "not stated"
    assert "F1 and F2" in one.sentence
    assert "confirm on the maker's sheet" in one.sentence
    on_the_parts = {"interrupting_a": 5000.0, "voltage_rating_v": 32.0}
    stated = both(device(1, **on_the_parts), device(2, **on_the_parts))
    assert not of(heard(lamp(max_fuse_a=None), strips, stated), rule, "rig")


def test_a_voltage_from_memory_that_decides_is_said() -> None:
    on_48_v = both(
        top(system_v=48), bank(series=4, lowest_working_v=48.0, highest_charge_v=57.6), lamp(lowest_working_v=42.0)
    )
    low = the(heard(on_48_v, lamp(max_fuse_a=None), device(2, device_class="bolted_strip")), "P10", "F2")
    assert "from memory" in low.sentence
    typed = the(heard(device(2, device_class="bolted_strip", voltage_rating_v=6.0)), "P10", "F2")
    assert "from memory" not in typed.sentence


LEAD = bank(chemistry="agm", cells_per_unit=6, unit_short_circuit_a=700.0)


@pytest.mark.parametrize(
    ("cranking_a", "breaks_a", "stops"),  # ABYC E-11, Table V-A, 12 and 24 V: main and branch breakers
    [
        (650.0, (1500.0, 750.0), ()),
        (650.0, (1499.0, 749.0), ("F1", "F2")),
        (800.0, (3000.0, 1000.0), ("F2",)),
        (1100.0, (2999.0, 1500.0), ("F1",)),
        (2200.0, (5000.0, 2500.0), ()),
        (2201.0, (20_000.0, 19_999.0), ("F1", "F2")),  # above the table what the maker states decides
    ],
)
def test_a_lead_bank_asks_by_its_cranking_current(
    cranking_a: float, breaks_a: tuple[float, float], stops: tuple[str, ...]
) -> None:
    ratings = both(device(1, interrupting_a=breaks_a[0]), device(2, interrupting_a=breaks_a[1]))
    short = 30_000.0 if cranking_a > 2200 else 200.0
    found = heard(LEAD, bank(cranking_a=cranking_a, unit_short_circuit_a=short), ratings)
    assert tuple(one.subject for one in found if one.rule == "P08" and one.stops) == stops


def test_a_lithium_bank_asks_nothing_by_cranking_current() -> None:
    assert not of(heard(bank(cranking_a=2000.0)), "P08", "F2")


def test_an_idle_inverter_of_a_load_known_by_a_reading_has_no_hours_to_offer() -> None:
    curve: dict[str, float | None] = {"efficiency_10": 0.8, "efficiency_50": 0.9, "efficiency_100": 0.88}
    large = inverter(idle_w=5.0, on_h=24.0, efficiency=None, **curve)
    data = small_data()
    both(large, BY_READING)(data)
    done = study(rig_from_data(data))
    one = the(findings(done), "L07", "inv")
    assert one.candidates == ()
    assert remedy(done, one) is None
    assert the(heard(large), "L07", "inv").candidates


def test_a_load_without_a_tag_has_a_known_energy() -> None:
    tagless = the(heard(lamp(provenance=None)), "L01", "lamp")
    assert "count as a guess" in tagless.sentence
    assert "its energy is not known" not in tagless.sentence
    assert "its energy is not known" in the(heard(lamp(power_w=None, provenance=None)), "L01", "lamp").sentence


def test_the_size_named_beside_a_high_current_is_of_the_current_its_run_carries() -> None:
    chosen = both(free_fuse, lamp(power_w=2500.0), run(1, conductor=None), run(2, conductor=None))
    data = small_data()
    chosen(data)
    done = study(rig_from_data(data))
    largest = max(done.network.runs, key=lambda one: one.design_current_a)
    said = the(findings(done), "D01", "rig").sentence
    assert "It needs" not in said
    assert f"{largest.run_id} ({largest.name}), carries {largest.design_current_a:.0f} A" in said


def test_behind_a_converter_the_bank_is_not_blamed() -> None:
    far: Edit = lambda data: data["runs"][2].update(length_out_m=75.0, length_back_m=75.0)  # noqa: E731
    found = [one for one in heard(behind_converter, far) if one.subject == "W3" and one.rule in ("W03", "W05")]
    assert [one.rule for one in found] == ["W03"]
    assert "bank low" not in found[0].sentence
    dead: Edit = lambda data: data["runs"][2].update(length_out_m=700.0, length_back_m=700.0)  # noqa: E731
    assert "bank low" not in the(heard(behind_converter, dead), "W05", "W3").sentence


def sensing_feeds_the_lamp(data: Data) -> None:
    """The lamp hangs on the thin lead itself, with no device before it."""
    data["runs"][1] |= {"from_id": "bank", "purpose": "sense"}
    data["devices"].pop()


def test_a_sense_run_that_feeds_power_says_what_it_carries() -> None:
    assert "carries next to nothing" in the(heard(sense_run), "P07", "W3").sentence
    loaded = the(heard(sensing_feeds_the_lamp), "P07", "W2").sentence
    assert "next to nothing" not in loaded
    assert "It carries 4." in loaded
    assert "is always live" in loaded
    switched = the(heard(sensing_feeds_the_lamp, top(main_switch_run="W2")), "P07", "W2").sentence
    assert "whenever the main switch is on" in switched


def test_a_device_in_the_return_names_the_one_before_it() -> None:
    behind = the(heard(device(2, conductor="negative")), "P15", "F2").sentence
    assert "F1 in W1 (Bank to block)" in behind
    assert "nothing in its supply" not in behind
    alone = the(heard(lambda data: data["devices"].pop(0), device(1, conductor="negative")), "P15", "F2").sentence
    assert "nothing in its supply" in alone


def unwired_output(data: Data) -> None:
    """Two lamps on the converter, neither with a run."""
    behind_converter(data)
    data["runs"].pop()
    data["devices"].pop()
    data["loads"].append(data["loads"][0] | {"id": "lamp2", "name": "Second lamp"})


def test_a_converter_without_output_wiring_says_so_once() -> None:
    one = the(heard(unwired_output), "W01", "dc")
    assert one.state == "not stated"
    assert "from Converter to Lamp and Second lamp is not described" in one.sentence
    assert not of(heard(behind_converter), "W01", "dc")


@pytest.mark.parametrize(
    ("fields", "states", "says"),
    [
        ({"cycles": None, "duty_cycle": None}, {"L03": "not stated"}, "whether it switches itself on and off"),
        ({"cycles": None, "duty_ambient_c": None}, {"L03": "not stated", "L04": "not stated"}, "air temperature"),
        ({"duty_ambient_c": None}, {"L03": "found", "L04": "not stated"}, "air temperature"),
        ({}, {}, ""),
    ],
)
def test_a_cold_box_that_says_too_little_is_not_silent(fields: Any, states: dict[str, str], says: str) -> None:
    found = [one for one in heard(cold_box, lamp(duty_cycle=0.3), lamp(**fields)) if one.rule in ("L03", "L04")]
    assert {one.rule: one.state for one in found if "runs all" not in one.sentence} == states
    assert all(says in one.sentence for one in found if one.rule in states and "runs all" not in one.sentence)


def test_a_typed_grouping_factor_above_the_printed_one_is_a_warning() -> None:
    """NFPA 70 Table 310.15(C)(1): 0.8 for four to six current-carrying conductors."""
    over = the(heard(run(2, conductors_together=6, grouping_factor=1.0)), "W01", "rig")
    assert (over.severity, over.measured, over.limit) == ("warning", "1 typed", "at most 0.8")
    assert not of(heard(run(2, conductors_together=6, grouping_factor=0.8)), "W01", "rig")
    unread = both(top(rule_set="iec_vehicle"), run(2, conductors_together=6, grouping_factor=1.0))
    assert not [one for one in heard(unread, run(2, conductor="2.5 mm2")) if one.subject == "rig" and one.rule == "W01"]
