"""A sheet of results: an HTML fragment made in Python, changed in place in the browser."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import traitlets

from rigcalc.widgets.kit.base import Piece
from rigcalc.widgets.kit.markup import Markup

ActCallback = Callable[[str, str], object]


class Sheet(Piece):
    """Shows HTML made with `h`; ``<button data-act="..." data-arg="...">`` in it calls back.

    Parameters
    ----------
    html : Markup
        The fragment. ``<details data-key="...">`` keeps its open state over updates.
    live : bool
        Changes are read out politely: for the sentence that answers the page's question.

    Examples
    --------
    >>> from rigcalc.widgets.kit.markup import h
    >>> sheet = Sheet(h("<p>{}</p>", "13 of 14 runs"))
    >>> _ = sheet.on_act(lambda act, arg: sheet.show(h("<p>{} {}</p>", act, arg)))
    >>> sheet._handle({"type": "act", "act": "apply", "arg": "-W7"})
    >>> sheet.html
    '<p>apply -W7</p>'
    """

    kind = traitlets.Unicode("sheet").tag(sync=True)
    html = traitlets.Unicode("").tag(sync=True)
    live = traitlets.Bool(False).tag(sync=True)

    def __init__(self, html: Markup | None = None, live: bool = False) -> None:
        super().__init__(html=html or "", live=live)

    def show(self, html: Markup) -> None:
        """Show another fragment; only what differs changes on the page."""
        self.html = html

    def on_act(self, callback: ActCallback) -> ActCallback:
        """Call ``callback(act, arg)`` when a button of the sheet is pressed."""
        return self._keep("act", callback)

    def _handle(self, content: Mapping[str, Any], buffers: Sequence[bytes] = ()) -> None:
        self._tell("act", str(content["act"]), str(content.get("arg", "")))
