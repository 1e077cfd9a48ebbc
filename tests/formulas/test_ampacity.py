"""Corrections never add to a table value, and heat never helps."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from rigcalc.formulas.ampacity import ambient_factor, corrected_ampacity_a


@given(st.floats(0, 500), st.lists(st.floats(0, 1), max_size=4))
def test_corrected_ampacity_is_never_above_the_table(table_a, factors):
    assert 0 <= corrected_ampacity_a(table_a, *factors) <= table_a


@given(st.floats(60, 200), st.floats(-20, 220), st.floats(0, 50))
def test_a_hotter_place_never_carries_more(rating_c, ambient_c, hotter_k):
    assert ambient_factor(rating_c, ambient_c + hotter_k) <= ambient_factor(rating_c, ambient_c)


@given(st.floats(60, 200), st.floats(20, 50))
def test_the_tables_own_ambient_changes_nothing(rating_c, table_ambient_c):
    assert ambient_factor(rating_c, table_ambient_c, table_ambient_c) == 1


def test_a_place_as_hot_as_the_rating_carries_nothing():
    assert ambient_factor(60, 60) == 0
    assert ambient_factor(60, 61) == 0
