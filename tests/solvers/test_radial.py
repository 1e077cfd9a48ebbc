"""The radial solver against Kirchhoff's laws and a general-purpose root finder."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.solvers.radial import Branch, solve_radial


@st.composite
def networks(draw) -> list[Branch]:
    """Trees of up to 12 branches that can deliver their power."""
    branches = []
    for i in range(draw(st.integers(1, 12))):
        parent = draw(st.one_of(st.none(), st.integers(0, i - 1))) if i else None
        branches.append(Branch(parent, draw(st.floats(0.0001, 0.01)), draw(st.sampled_from([0.0, 5.0, 60.0, 200.0]))))
    return branches


@given(networks())
def test_power_and_currents_balance_at_every_end(branches):
    solution = solve_radial(branches, 12.8)
    if solution.unsolved:
        return
    for i, branch in enumerate(branches):
        children = sum(solution.current_a[j] for j, other in enumerate(branches) if other.parent == i)
        own_a = solution.current_a[i] - children
        assert own_a * solution.end_v[i] == pytest.approx(branch.power_w, abs=1e-4)
        start_v = 12.8 if branch.parent is None else solution.end_v[branch.parent]
        assert start_v - solution.current_a[i] * branch.resistance_ohm == pytest.approx(solution.end_v[i], abs=1e-6)


@given(networks())
def test_source_power_is_load_power_plus_loss(branches):
    solution = solve_radial(branches, 12.8)
    if solution.unsolved:
        return
    given_w = 12.8 * sum(i for i, b in zip(solution.current_a, branches, strict=True) if b.parent is None)
    lost_w = sum(i**2 * b.resistance_ohm for i, b in zip(solution.current_a, branches, strict=True))
    assert given_w == pytest.approx(lost_w + sum(b.power_w for b in branches), rel=1e-6, abs=1e-4)


@given(st.floats(0.01, 1.0), st.floats(0.1, 0.999))
def test_one_load_agrees_with_the_quadratic_formula(ohm, share_of_most):
    power_w = share_of_most * 12.0**2 / (4 * ohm)
    solution = solve_radial([Branch(None, ohm, power_w)], 12.0)
    if solution.unsolved:
        assert share_of_most > 0.98  # the sweep comes to the edge too slowly to tell, and says so
        return
    expected_a = (12.0 - (12.0**2 - 4 * ohm * power_w) ** 0.5) / (2 * ohm)
    assert solution.current_a[0] == pytest.approx(expected_a, rel=1e-3)


def test_power_beyond_a_quarter_of_v_squared_over_r_is_unsolved_and_the_rest_is_served():
    branches = [Branch(None, 0.001, 0.0), Branch(0, 0.5, 100.0), Branch(0, 0.01, 50.0)]  # 12²/(4·0.5) = 72 W
    solution = solve_radial(branches, 12.0)
    assert solution.unsolved == {1}
    assert solution.end_v[2] > 11.8


def test_of_a_group_only_the_larger_is_carried():
    branches = [Branch(None, 0.0, 0.0), Branch(0, 0.0, 120.0, "heat"), Branch(0, 0.0, 60.0, "heat")]
    assert solve_radial(branches, 12.0).current_a == pytest.approx((10.0, 10.0, 5.0))
