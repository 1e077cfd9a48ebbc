"""What pieces send, in tests without a browser."""

from __future__ import annotations

import pytest
from ipywidgets.widgets.widget import Widget


@pytest.fixture
def sent(monkeypatch):
    """What pieces send: states and messages, in order."""
    kept = []
    monkeypatch.setattr(Widget, "_send", lambda self, message, buffers=None: kept.append((message, buffers)))
    return kept


def states(sent):
    updates = [message["state"] for message, _ in sent if message["method"] == "update"]
    return [state for state in updates if "_anywidget_id" not in state]  # which anywidget sends of every new piece


def messages(sent):
    return [(message["content"], buffers) for message, buffers in sent if message["method"] == "custom"]
