"""The inverter's loss curve against its exact solution and against two published part-load models.

Cases marked "ours" have an expected value worked out for this project: they guard against change and are no evidence.
"""

from __future__ import annotations

from math import sqrt

import pytest

from rigcalc.formulas.inverter import LossCurve, dc_power_w, efficiency, loss_coefficients


class TestLossCurve:
    """Losses through 85, 93 and 91 % at 10, 50 and 100 % load: the exact solution, worked out here (ours)."""

    curve = loss_coefficients(0.85, 0.93, 0.91)

    def test_coefficients_ours(self):
        assert self.curve.k0 == pytest.approx(0.016682, rel=0, abs=5e-7)
        assert self.curve.k1 == pytest.approx(0.001592, rel=0, abs=5e-7)
        assert self.curve.k2 == pytest.approx(0.080628, rel=0, abs=5e-7)

    @pytest.mark.parametrize(("load", "expected"), [(0.02, 0.5443), (0.2, 0.9082)])
    def test_efficiency_ours(self, load, expected):
        assert efficiency(load, self.curve) == pytest.approx(expected, rel=0, abs=0.00005)

    def test_best_load_ours(self):
        best = sqrt(self.curve.k0 / self.curve.k2)
        assert best == pytest.approx(0.4549, rel=0, abs=0.00005)
        beside = [efficiency(best * step, self.curve) for step in (0.99, 1.01)]
        assert efficiency(best, self.curve) > max(beside)


def _pvwatts_efficiency(z: float, nominal: float = 0.96) -> float:
    """NREL PVWatts v5 (NREL/TP-6A20-62641), inverter curve over DC input; formula as in pvlib.inverter.pvwatts."""
    return nominal / 0.9637 * (-0.0162 * z - 0.0059 / z + 0.9858)


def _pvwatts_input(load: float, nominal: float = 0.96) -> float:
    """DC input, over the DC rating, at an AC load over the AC rating."""
    a, b, c = -0.0162 * nominal / 0.9637, 0.9858 * nominal / 0.9637, -0.0059 * nominal / 0.9637 - nominal * load
    return (-b + sqrt(b * b - 4 * a * c)) / (2 * a)


@pytest.mark.parametrize(
    ("z", "printed", "tolerance"),
    [(0.05, 0.86366, 0.0003), (0.20, 0.94940, 0.0001), (0.30, 0.95758, 0.0001), (1.0, 0.96, 5e-6)],
)
def test_shape_of_the_loss_curve_against_pvwatts(z, printed, tolerance):
    """Three PVWatts efficiencies make a loss curve; at other loads it must give what pvlib 0.16.1 gives.

    PVWatts is a parabola in the input and ours one in the output, so they part by some 0.0002 at 5 % load.
    """
    curve = loss_coefficients(*(_pvwatts_efficiency(_pvwatts_input(load)) for load in (0.1, 0.5, 1.0)))
    assert _pvwatts_efficiency(z) == pytest.approx(printed, rel=0, abs=5e-6)
    assert efficiency(printed * z / 0.96, curve) == pytest.approx(printed, rel=0, abs=tolerance)


@pytest.mark.parametrize(("dc_w", "ac_w"), [(10, 7.7977), (100, 95.3455)])
def test_shape_of_the_loss_curve_against_the_sandia_model(dc_w, ac_w):
    """Sandia inverter model (SAND2007-5036) at its reference voltage, run in pvlib 0.16.1 with a made-up 300 W set.

    The set has Pdco 311.7 W, Pso 2.0 W and C0 -2e-5 per W. The curve is laid through its 30, 200 and 311.7 W
    and read at the others; 0.005 W of 300 W is the room left for a parabola turned on its side.
    """
    curve = _curve_through([(27.2808, 30), (192.2408, 200), (300, 311.7)], rated_w=300)
    assert dc_power_w(ac_w, 300, curve) == pytest.approx(dc_w, rel=0, abs=0.005)


def _curve_through(pairs: list[tuple[float, float]], rated_w: float) -> LossCurve:
    (p1, y1), (p2, y2), (p3, y3) = [(ac_w / rated_w, (dc_w - ac_w) / rated_w) for ac_w, dc_w in pairs]
    slope_12, slope_23 = (y2 - y1) / (p2 - p1), (y3 - y2) / (p3 - p2)
    k2 = (slope_23 - slope_12) / (p3 - p1)
    k1 = slope_12 - k2 * (p1 + p2)
    return LossCurve(k0=y1 - k1 * p1 - k2 * p1**2, k1=k1, k2=k2)
