"""What people type, held against pint and against the exact definitions of the units."""

from __future__ import annotations

import contextlib
import math
import subprocess
import sys
from functools import cache

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from rigcalc import units
from rigcalc.errors import InputError
from rigcalc.units import SUFFIXES, number, parse, show, significant, suffix_of

#: Each unit of the fast table -> its name in pint.
IN_PINT = {
    "m": "meter", "cm": "centimeter", "mm": "millimeter", "km": "kilometer",
    "ft": "foot", "foot": "foot", "feet": "foot", "'": "foot",
    "in": "inch", "inch": "inch", "inches": "inch", '"': "inch", "yd": "yard",
    "A": "ampere", "a": "ampere", "amp": "ampere", "amps": "ampere", "mA": "milliampere", "kA": "kiloampere",
    "V": "volt", "v": "volt", "volt": "volt", "volts": "volt", "mV": "millivolt",
    "W": "watt", "w": "watt", "watt": "watt", "watts": "watt", "kW": "kilowatt", "mW": "milliwatt", "kw": "kilowatt",
    "Wh": "watt * hour", "wh": "watt * hour", "kWh": "kilowatt * hour", "kwh": "kilowatt * hour",
    "Ah": "ampere * hour", "ah": "ampere * hour", "mAh": "milliampere * hour",
    "h": "hour", "hr": "hour", "hrs": "hour", "hour": "hour", "hours": "hour",
    "min": "minute", "minute": "minute", "minutes": "minute",
    "s": "second", "sec": "second", "second": "second", "seconds": "second", "ms": "millisecond",
    "d": "day", "day": "day", "days": "day",
    "°C": "degC", "C": "degC", "c": "degC", "degC": "degC", "°F": "degF", "F": "degF", "f": "degF", "degF": "degF",
    "ohm": "ohm", "ohms": "ohm", "Ω": "ohm", "mohm": "milliohm", "mΩ": "milliohm",
    "mm²": "millimeter ** 2", "mm2": "millimeter ** 2", "mm^2": "millimeter ** 2",
    "%": "percent", "percent": "percent",
}  # fmt: skip
INSIDE_IN_PINT = {
    "m": "meter", "a": "ampere", "v": "volt", "w": "watt", "wh": "watt * hour", "ah": "ampere * hour", "h": "hour",
    "min": "minute", "s": "second", "c": "degC", "ohm": "ohm", "mm2": "millimeter ** 2", "percent": "percent",
}  # fmt: skip
QUANTITIES = {
    "m": "m", "A": "a", "V": "v", "W": "w", "Wh": "wh", "Ah": "ah", "s": "s", "°C": "c", "°F": "c", "ohm": "ohm",
    "mm²": "mm2", "%": "percent",
}  # fmt: skip


@cache
def pint_registry():
    import pint

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=False)


def by_pint(value: float, unit: str, suffix: str) -> float:
    return float(pint_registry().Quantity(value, IN_PINT[unit]).to(INSIDE_IN_PINT[suffix]).magnitude)


def test_every_row_of_the_fast_table_is_held_against_pint():
    assert set(IN_PINT) == set(units._TYPED)
    assert set(INSIDE_IN_PINT) == set(SUFFIXES)


@pytest.mark.parametrize("unit", sorted(units._TYPED))
def test_a_row_of_the_fast_table_agrees_with_pint(unit):
    suffix = QUANTITIES[units._TYPED[unit][0]]
    suffixes = ("h", "min", "s") if suffix == "s" else (suffix,)
    for one in suffixes:
        for value in (1.0, 2.5, 1234.0, -40.0):
            assert parse(f"{value:g} {unit}", one) == pytest.approx(by_pint(value, unit, one), rel=1e-12, abs=1e-12)
            assert parse(f"{value:g}{unit}", one) == pytest.approx(by_pint(value, unit, one), rel=1e-12, abs=1e-12)


@pytest.mark.parametrize("unit", sorted(units._TYPED))
def test_a_unit_of_another_quantity_is_refused(unit):
    mine = units._TYPED[unit][0]
    for inside, suffix in QUANTITIES.items():
        if inside != mine and {inside, mine} != {"°C", "°F"}:
            with pytest.raises(InputError, match=SUFFIXES[suffix][2].split(" such as ")[0]):
                parse(f"3 {unit}", suffix)


@pytest.mark.parametrize(
    ("text", "suffix", "value"),
    [  # NIST SP 811 (2008), Appendix B.8: foot 3.048 E-01 m, inch 2.54 E-02 m, yard 9.144 E-01 m, all exact
        ("6 ft", "m", 1.8288),
        ("6 ft 4 in", "m", 1.9304),
        ("6 ft 2 in", "m", 1.8796),
        ("6'2\"", "m", 1.8796),
        ("6′ 4″", "m", 1.9304),
        ("1 yd 1 ft 1 in", "m", 1.2446),
        ("18 in", "m", 0.4572),
        ("-6 ft 4 in", "m", -1.9304),
        ("1 m 20 cm", "m", 1.2),
        # NIST SP 811, Appendix B.8: t/°C = (t/°F - 32)/1.8
        ("68 F", "c", 20.0),
        ("32 °F", "c", 0.0),
        ("-40 F", "c", -40.0),
        ("212 degF", "c", 100.0),
        ("20", "c", 20.0),
        ("−5 °C", "c", -5.0),
        # time
        ("20 min", "h", 1 / 3),
        ("1 h 20 min", "h", 4 / 3),
        ("1 min 30 s", "s", 90.0),
        ("40 s", "min", 2 / 3),
        ("2 days", "h", 48.0),
        ("200 ms", "s", 0.2),
        # the comma of much of the world, and the space between thousands
        ("1,5", "m", 1.5),
        ("4,25 A", "a", 4.25),
        ("1 500 W", "w", 1500.0),
        ("1\u202f500,5 W", "w", 1500.5),
        ("0,500 m", "m", 0.5),
        ("1.500 m", "m", 1.5),
        (".5 m", "m", 0.5),
        ("1e-3 ohm", "ohm", 0.001),
        # letters of either case, where case says nothing
        ("1.2 KW", "w", 1200.0),
        ("80 AH", "ah", 80.0),
        ("3 Feet", "m", 0.9144),
        ("0.8 mohm", "ohm", 0.0008),
        ("5 \u2126", "ohm", 5.0),
        ("6mm2", "mm2", 6.0),
        ("6 mm^2", "mm2", 6.0),
        ("3 %", "percent", 3.0),
    ],
)
def test_typed_text_is_read(text, suffix, value):
    assert parse(text, suffix) == pytest.approx(value, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "suffix", "value"),
    [  # any other unit goes to pint; values of NIST SP 811 (2008), Appendix B.8
        ("1 BTU", "wh", 1055.056 / 3600),
        ("1 mile", "m", 1609.344),
        ("300 K", "c", 26.85),
        ("5 Mohm", "ohm", 5e6),
        ("1 kcmil", "mm2", 0.5067075),
        ("500 µohm", "ohm", 5e-4),
        ("3600 coulomb", "ah", 1.0),
    ],
)
def test_a_unit_outside_the_table_goes_to_pint(text, suffix, value):
    assert parse(text, suffix) == pytest.approx(value, rel=2e-6)


@pytest.mark.parametrize(
    ("text", "suffix"),
    [
        ("1,500", "w"),
        ("12,800 Wh", "wh"),
        ("1,500.5 W", "w"),
        ("", "m"),
        (" ", "m"),
        ("six feet", "m"),
        ("m", "m"),
        ("6 4", "m"),
        ("6-4", "m"),
        ("1-2 m", "m"),
        ("6 ft 4", "m"),
        ("4 in 6 ft", "m"),
        ("6 ft 4 ft", "m"),
        ("6 ft -4 in", "m"),
        ("6 ft 20 min", "m"),
        ("1 A 5 mA", "a"),
        ("12.5.3", "m"),
        ("1_000", "w"),
        ("0x10", "m"),
        ("½ m", "m"),
        ("nan", "m"),
        ("inf m", "m"),
        ("1e999", "m"),
        ("1e308 km", "m"),
        ("100 VA", "w"),
        ("1.2 kVA", "w"),
        ("1 dozen", "percent"),
        ("3 rad", "percent"),
        ("6 AWG", "mm2"),
        ("3600 C", "ah"),  # C is a degree in every field; a coulomb is written out
        ("5 m m", "m"),
        ("5 m/0", "m"),
        ("5 __import__", "m"),
        ("5 " + "m*" * 500 + "m", "m"),
        ("9" * 5000, "m"),
        ("\x00", "m"),
        ("\ud800", "m"),
    ],
)
def test_text_without_one_clear_meaning_is_refused(text, suffix):
    with pytest.raises(InputError) as caught:
        parse(text, suffix, "Length of W7")
    assert str(caught.value).startswith("Length of W7 is ")
    assert caught.value.allowed


def test_a_comma_that_can_mean_both_says_which_two():
    with pytest.raises(InputError, match=r"^Power is '1,500'; expected 1500 or 1\.500; the comma can mean both\.$"):
        number("1,500", "Power")


@given(st.text(max_size=30), st.sampled_from(sorted(SUFFIXES)))
def test_any_text_ends_as_a_finite_number_or_an_input_error(text, suffix):
    with contextlib.suppress(InputError):
        assert math.isfinite(parse(text, suffix))


@given(
    st.floats(min_value=1e-4, max_value=1e6) | st.floats(min_value=-1e6, max_value=-1e-4) | st.just(0.0),
    st.sampled_from(sorted(SUFFIXES)),
    st.sampled_from(["metric", "us"]),
    st.integers(2, 6),
)
def test_what_is_shown_reads_back_within_half_its_last_digit(value, suffix, system, digits):
    text = show(value, suffix, system, digits)
    factor, offset = {("m", "us"): (0.3048, 0.0), ("c", "us"): (5 / 9, 32.0)}.get((suffix, system), (1.0, 0.0))
    as_shown = value / factor + offset
    assume(abs(as_shown) > 1e-9 or value == 0)
    digit = 10.0 ** min(0, math.floor(math.log10(abs(as_shown))) - digits + 1) if as_shown else 1.0
    half = 0.5 * digit * 1.000001
    back = parse(text, suffix)
    assert abs(back - value) <= half * factor + 1e-12 * abs(value) + 1e-12


@pytest.mark.parametrize(
    ("value", "suffix", "system", "text"),
    [
        (1.8288, "m", "metric", "1.83 m"),
        (1.8288, "m", "us", "6.00 ft"),
        (20.0, "c", "us", "68.0 °F"),
        (0.0008, "ohm", "metric", "0.000800 Ω"),
        (0.0, "a", "metric", "0 A"),
        (1280.0, "wh", "us", "1280 Wh"),
        (6.0, "mm2", "us", "6.00 mm²"),
    ],
)
def test_a_value_as_the_screen_shows_it(value, suffix, system, text):
    assert show(value, suffix, system) == text


@given(st.floats(allow_nan=False, allow_infinity=False), st.integers(1, 8))
def test_significant_digits_never_come_as_powers_of_ten(value, digits):
    text = significant(value, digits)
    assert "e" not in text
    if value and abs(value) < 1e15 and abs(value) > 1e-15:
        assert float(text) == pytest.approx(value, rel=0.5 * 10 ** (1 - digits) + 1e-12)


@pytest.mark.parametrize(
    ("field", "suffix"),
    [
        ("length_out_m", "m"),
        ("event_min", "min"),
        ("daily_use_h", "h"),
        ("unit_resistance_ohm", "ohm"),
        ("drop_limit_percent", "percent"),
        ("quantity", None),
        ("m", None),
        ("id", None),
        ("events_per_day", None),
        ("efficiency_10", None),
    ],
)
def test_the_unit_of_a_field_is_the_end_of_its_name(field, suffix):
    assert suffix_of(field) == suffix


def test_everyday_units_do_not_load_pint():
    code = "import sys; from rigcalc.units import parse; parse('6 ft 4 in', 'm'); print('pint' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
