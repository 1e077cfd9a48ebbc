"""Counts of the property tests: quick by default, the full counts with RIGCALC_TESTS=full."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

_CALM = {"deadline": None, "suppress_health_check": [HealthCheck.too_slow]}
settings.register_profile("quick", max_examples=60, **_CALM)
settings.register_profile("full", max_examples=2000, **_CALM)
settings.load_profile("full" if os.environ.get("RIGCALC_TESTS") == "full" else "quick")


def pytest_configure(config) -> None:
    config.addinivalue_line("markers", "readback: reads cells of a copied table back; proves the loader only")


def pytest_terminal_summary(terminalreporter) -> None:
    """How many tests hold the work against published values, and how many only read a table back."""
    passed = terminalreporter.stats.get("passed", [])
    readback = sum("readback" in report.keywords for report in passed)
    held = [report.nodeid for report in passed if "tests/published" in report.nodeid.replace("\\", "/")]
    published = sum("ours" not in node for node in held)
    terminalreporter.write_line(f"published values held: {published}; tables read back (loader only): {readback}")
