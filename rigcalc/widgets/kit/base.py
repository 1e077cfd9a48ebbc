"""What all pieces share: the loader, numbered messages and their answers, errors shown where they happen."""

from __future__ import annotations

import logging
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from typing import Any, TypeVar

import anywidget
import traitlets
from ipywidgets.widgets.widget_layout import Layout

from rigcalc.widgets.kit import assets

Callback = TypeVar("Callback", bound=Callable[..., object])
_log = logging.getLogger("rigcalc.widgets")


@cache
def shared_layout() -> Layout:
    """One layout model for all pieces of a page; the stylesheet does the laying out."""
    return Layout()  # type: ignore[no-untyped-call]


class Piece(anywidget.AnyWidget):
    """A widget whose messages carry a number ``n`` that comes back in ``seen`` once they are worked out.

    Subclasses set `kind`, keep their callbacks with `_keep` and answer messages in `_handle`.
    """

    _esm = traitlets.Unicode(assets.loader_js()).tag(sync=True)
    kind = traitlets.Unicode("").tag(sync=True)
    kit_version = traitlets.Unicode(assets.version()).tag(sync=True)
    seen = traitlets.Int(0).tag(sync=True)
    trouble = traitlets.Unicode("").tag(sync=True)

    def __init__(self, **traits: Any) -> None:
        self._callbacks: dict[str, list[Callable[..., object]]] = {}
        super().__init__(layout=shared_layout(), **traits)
        self.on_msg(self._received)

    def _keep(self, event: str, callback: Callback) -> Callback:
        """Remember a callback for an event; returned unchanged, so that ``on_...`` can decorate."""
        self._callbacks.setdefault(event, []).append(callback)
        return callback

    def _tell(self, event: str, *arguments: object) -> None:
        for callback in self._callbacks.get(event, ()):
            callback(*arguments)

    def _handle(self, content: Mapping[str, Any], buffers: Sequence[bytes] = ()) -> None:
        """Work out one message from the browser; errors are raised."""
        raise NotImplementedError

    def _received(self, _widget: object, content: Mapping[str, Any], buffers: Sequence[bytes]) -> None:
        """A message as it comes from the browser: worked out, answered, and never lost in silence."""
        if content.get("type") == "asset":
            self.send({"type": "asset", "name": content["name"], "text": assets.asset(str(content["name"]))})
            return
        try:
            self._handle(content, buffers)
            self.trouble = ""
        except Exception as error:
            _log.exception("%s could not answer %r", type(self).__name__, content.get("type"))
            self.trouble = f"This could not be worked out ({type(error).__name__}: {error}). What was typed is kept."
        finally:
            self.seen = int(content.get("n", 0))

    def _push(self, **state: object) -> None:
        """Send parts of the state in one message, under names of their own, without sending the rest."""
        self._send({"method": "update", "state": state, "buffer_paths": []})
