"""A cell never becomes a formula. What begins one: OWASP, "CSV injection", from memory; full-width forms with it."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.outputs.cells import csv_cell, harmless, plain

STARTS = "=+-@\t\r\n＝＋－＠"


@pytest.mark.parametrize("text", ["=1+1", "+cmd", "-2+3", "@SUM(A1)", "\tx", "\rx", "\nx", "＝1", "  =1", "\u00a0@A1"])
def test_text_that_could_be_a_formula_gets_an_apostrophe(text):
    assert harmless(text) == "'" + text


@pytest.mark.parametrize("text", ["", "Bilge pump", "W1 L−", "<script>", "a=b", "1-2", "–"])
def test_other_text_stays_as_it_is(text):
    assert harmless(text) == text


@given(st.text())
def test_no_text_leaves_with_a_beginning_that_is_a_formula(text):
    out = csv_cell(text)
    assert not out.lstrip().startswith(tuple(STARTS)) or not out
    assert out in (text, f"'{text}")


@given(st.floats(allow_nan=False, allow_infinity=False, min_value=-1e9, max_value=1e9))
def test_a_number_stays_a_number(value):
    out = float(csv_cell(value))
    assert out == pytest.approx(value, rel=5e-9, abs=0)


@pytest.mark.parametrize(
    ("value", "cell"),
    [(-2.5, "-2.5"), (3.0, "3"), (0.0, "0"), (-0.0, "0"), (1e6, "1000000"), (0.1 + 0.2, "0.3"), (7, "7"), (True, "yes"),
     (None, ""), (float("nan"), ""), (float("inf"), ""), (np.float64(-1.5), "-1.5"), (np.int64(4), "4"),
     (np.bool_(False), "no")],
)  # fmt: skip
def test_cells(value, cell):
    assert csv_cell(value) == cell


def test_a_missing_value_of_pandas_is_an_empty_cell():
    import pandas as pd

    assert plain(pd.DataFrame({"a": ["x", None]})["a"].tolist()[1]) is None
