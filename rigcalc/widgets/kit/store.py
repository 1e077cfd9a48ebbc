"""Mirrors one text, the rig file, in the browser that shows the page."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import traitlets

from rigcalc.widgets.kit.base import Piece

RestoredCallback = Callable[[str], object]


class Store(Piece):
    """Writes `value` to the browser on every change and hands back what the browser kept.

    When the page opens, and when another tab's version is chosen, `on_restored` hears the kept text,
    which is empty where nothing was kept. The browser's own clock words "kept in this browser, 14:02"
    in the head of the page; a browser that cannot keep it is told to save the file.

    Examples
    --------
    >>> store = Store("rig")
    >>> heard = []
    >>> _ = store.on_restored(heard.append)
    >>> store._handle({"type": "restored", "text": "{}"})
    >>> heard, store.value, store.ready
    (['{}'], '{}', True)
    """

    kind = traitlets.Unicode("store").tag(sync=True)
    key = traitlets.Unicode("rigcalc").tag(sync=True)
    value = traitlets.Unicode("").tag(sync=True)
    ready = traitlets.Bool(False).tag(sync=True)

    def __init__(self, key: str = "rigcalc") -> None:
        super().__init__(key=key)

    def keep(self, text: str) -> None:
        """Mirror this text."""
        self.value = text

    def forget(self) -> None:
        """Take the kept text out of the browser."""
        self.value = ""
        self.send({"type": "forget"})

    def on_restored(self, callback: RestoredCallback) -> RestoredCallback:
        """Call ``callback(text)`` with what the browser kept."""
        return self._keep("restored", callback)

    def _handle(self, content: Mapping[str, Any], buffers: Sequence[bytes] = ()) -> None:
        text = str(content["text"])
        self.value = text
        self._tell("restored", text)
        self.ready = True
