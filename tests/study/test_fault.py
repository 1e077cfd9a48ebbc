"""The bank's resistance for the largest fault: which of the figures stated, or recalled, it is taken from."""

from __future__ import annotations

import pytest

from rigcalc.study.overcurrent import fault_resistance_ohm
from tests.rigs import small, small_data


def found(**bank: float | None) -> tuple[float, str]:
    data = small_data()["bank"] | bank
    ohm, working = fault_resistance_ohm(small(bank={key: value for key, value in data.items() if value is not None}))
    return 1000 * ohm, working.status


# U = 14.4 V: 700 A is 20.57 mΩ. The figure from memory, 0.8 mΩ for 100 Ah, is common practice, no source.
@pytest.mark.parametrize(
    ("stated", "expected_mohm", "status"),
    [
        ({"unit_short_circuit_a": 700.0}, 20.57, "primary"),
        ({"unit_short_circuit_a": 700.0, "unit_resistance_ohm": 0.002}, 2.0, "primary"),
        ({"unit_short_circuit_a": 700.0, "unit_resistance_ohm": 0.03}, 20.57, "primary"),
        ({"unit_short_circuit_a": None}, 0.8, "memory"),
        ({"unit_short_circuit_a": None, "unit_resistance_ohm": 0.03}, 0.8, "memory"),
        ({"unit_short_circuit_a": None, "unit_resistance_ohm": 0.0005}, 0.5, "primary"),
    ],
)
def test_the_figure_of_the_larger_fault_counts(stated, expected_mohm, status):
    ohm, known = found(**stated)
    assert ohm == pytest.approx(expected_mohm, abs=0.005)
    assert known == status
