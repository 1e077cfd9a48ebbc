"""Marker of the tests that compare cells of the tables with the printed documents."""

import pytest


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line("markers", "readback: cells of a table compared with the document its rows name")
