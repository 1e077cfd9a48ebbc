"""Files out and in: bytes that Python makes are saved, a file of the person is opened."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import traitlets

from rigcalc.errors import InputError
from rigcalc.widgets.kit.base import Piece

LARGEST_BYTES = 10_000_000
OpenCallback = Callable[[str, str], object]


@dataclass(frozen=True, slots=True)
class Download:
    """A file to save."""

    name: str
    mime: str
    data: bytes


class SaveOpen(Piece):
    """Buttons that save files and one that opens a file.

    Parameters
    ----------
    saves : mapping of str to function
        Text of a button, and what makes its `Download` when it is pressed.
    open_label : str
        Text of the button that opens a file; empty leaves it out.
    accept : str
        Which files the browser offers.

    Notes
    -----
    `InputError` from making or opening a file is shown as it stands beside the buttons.

    Examples
    --------
    >>> files = SaveOpen({"Save file": lambda: Download("rig.json", "application/json", b"{}")})
    >>> files._handle({"type": "open", "name": "rig.json", "text": "{}"})
    >>> files.error
    ''
    """

    kind = traitlets.Unicode("saveopen").tag(sync=True)
    saves: traitlets.List[Any] = traitlets.List().tag(sync=True)
    open_label = traitlets.Unicode("").tag(sync=True)
    accept = traitlets.Unicode("").tag(sync=True)
    largest_bytes = traitlets.Int(LARGEST_BYTES).tag(sync=True)
    error = traitlets.Unicode("").tag(sync=True)

    def __init__(
        self,
        saves: Mapping[str, Callable[[], Download]] | None = None,
        open_label: str = "Open file",
        accept: str = ".json,application/json",
    ) -> None:
        self._makers = list((saves or {}).values())
        super().__init__(saves=list(saves or {}), open_label=open_label, accept=accept)

    def on_open(self, callback: OpenCallback) -> OpenCallback:
        """Call ``callback(name, text)`` with an opened file."""
        return self._keep("open", callback)

    def _handle(self, content: Mapping[str, Any], buffers: Sequence[bytes] = ()) -> None:
        self.error = ""
        try:
            if content["type"] == "save":
                self._save(int(content["index"]))
            else:
                self._open(str(content["name"]), content.get("text"), buffers)
        except InputError as error:
            self.error = str(error)

    def _save(self, index: int) -> None:
        file = self._makers[index]()
        self.send({"type": "file", "name": file.name, "mime": file.mime}, buffers=[file.data])

    def _open(self, name: str, text: str | None, buffers: Sequence[bytes]) -> None:
        if text is None:
            data = bytes(buffers[0])
            if len(data) > LARGEST_BYTES:
                raise InputError(f"Size of {name}", f"{len(data)} bytes", f"{LARGEST_BYTES} bytes or less")
            try:
                text = data.decode("utf-8-sig")
            except UnicodeDecodeError:
                raise InputError(f"Content of {name}", data[:8], "text in UTF-8") from None
        self._tell("open", name, text)
