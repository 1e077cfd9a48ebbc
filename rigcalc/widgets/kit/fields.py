"""A vertical form of labelled fields that keeps exactly what is typed."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, Literal, TypedDict

import traitlets

from rigcalc.errors import InputError, need
from rigcalc.widgets.kit.base import Piece

EditCallback = Callable[[str, Any], object]


class SliderSpec(TypedDict, total=False):
    """Travel of a slider beside a quantity; dragging writes text such as ``12.5 m`` in `unit`."""

    min: float
    max: float
    step: float
    value: float
    unit: str


class FieldSpec(TypedDict, total=False):
    """One field: `key`, `label` and `kind` are needed; `text` is a bool for kind ``check``, and of several lines for
    kind ``note``.
    """

    key: str
    label: str
    kind: Literal["quantity", "text", "note", "choice", "check"]
    text: str | bool
    other: str
    help: str
    error: str | None
    placeholder: str
    slider: SliderSpec | None
    choices: Sequence[Sequence[str]]


_KEYS = frozenset(FieldSpec.__annotations__)
_KINDS = ("quantity", "text", "note", "choice", "check")


class Fields(Piece):
    """A form; `on_edit` hears ``(key, text)`` for each change, sliders included.

    Parameters
    ----------
    specs : sequence of FieldSpec
        The fields, in order.
    title : str
        Heading and name of the form.
    take_focus : bool
        The first box takes the focus once it is shown: for a form that a button opens.

    Notes
    -----
    A callback that raises `InputError` has the message shown under its field; what was typed stays.

    Examples
    --------
    >>> form = Fields([{"key": "out", "label": "Length out", "kind": "quantity", "text": "5.5 m"}])
    >>> _ = form.on_edit(lambda key, text: form.update(key, other="18.0 ft"))
    >>> form._handle({"type": "edit", "key": "out", "text": "6 m"})
    >>> form.text("out"), form.spec("out")["other"]
    ('6 m', '18.0 ft')
    """

    kind = traitlets.Unicode("fields").tag(sync=True)
    title = traitlets.Unicode("").tag(sync=True)
    specs: traitlets.List[Any] = traitlets.List().tag(sync=True)
    take_focus = traitlets.Bool(False).tag(sync=True)

    def __init__(self, specs: Sequence[FieldSpec], title: str = "", take_focus: bool = False) -> None:
        self._by_key = _checked(specs)
        self._unsent: set[str] = set()  # fields whose text came from the browser and was not sent back yet
        super().__init__(specs=list(self._by_key.values()), title=title, take_focus=take_focus)

    def on_edit(self, callback: EditCallback) -> EditCallback:
        """Call ``callback(key, text)`` for each edit; text is a bool for a ``check`` field."""
        return self._keep("edit", callback)

    def spec(self, key: str) -> dict[str, Any]:
        """The field as it stands."""
        need(key in self._by_key, "Field", key, "one of " + ", ".join(self._by_key))
        return self._by_key[key]

    def text(self, key: str) -> Any:
        """What stands in the field, as typed."""
        return self.spec(key).get("text", "")

    def update(self, key: str, **changes: Any) -> None:
        """Change parts of one field in place; a ``slider`` is merged into the present one."""
        self.update_many({key: changes})

    def update_many(self, changes: Mapping[str, Mapping[str, Any]]) -> None:
        """Change parts of several fields in one message."""
        for key, parts in changes.items():
            for name in parts:
                need(name in _KEYS - {"key", "kind"}, "Part of a field", name, "one of " + ", ".join(sorted(_KEYS)))
            spec, slider = self.spec(key), parts.get("slider")
            if slider is not None and spec.get("slider"):
                slider = {**spec["slider"], **slider}
            spec.update(parts)
            if "slider" in parts:
                spec["slider"] = slider
        self._unsent -= set(changes)
        self._push(**{f"field:{key}": self._by_key[key] for key in changes})

    def replace(self, specs: Sequence[FieldSpec]) -> None:
        """Another set of fields."""
        self._by_key, self._unsent = _checked(specs), set()
        with self.hold_sync():
            self.specs = list(self._by_key.values())
        self._push(**{f"field:{key}": spec for key, spec in self._by_key.items()})

    def _handle(self, content: Mapping[str, Any], buffers: Sequence[bytes] = ()) -> None:
        key, text = str(content["key"]), content["text"]
        self.spec(key)["text"] = text
        self._unsent.add(key)
        try:
            self._tell("edit", key, text)
        except InputError as error:
            self.update(key, error=str(error))
        if key in self._unsent:
            self.update(key, text=self.text(key))


def _checked(specs: Sequence[FieldSpec]) -> dict[str, dict[str, Any]]:
    by_key: dict[str, dict[str, Any]] = {}
    for spec in specs:
        need(set(spec) <= _KEYS, "Parts of a field", ", ".join(sorted(set(spec) - _KEYS)), ", ".join(sorted(_KEYS)))
        need(spec["key"] not in by_key, "Key of a field", spec["key"], "a key of its own")
        need(spec["kind"] in _KINDS, "Kind of a field", spec["kind"], "one of " + ", ".join(_KINDS))
        by_key[spec["key"]] = dict(spec)
    return by_key
