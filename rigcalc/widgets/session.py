"""The opened rig: one truth for a page, changed only through checks, studied when asked."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from importlib.resources import files
from pathlib import Path

from rigcalc.errors import InputError
from rigcalc.model import Rig, read_rig, write_rig
from rigcalc.model.edit import Change, changed
from rigcalc.rules import findings
from rigcalc.rules.finding import Finding
from rigcalc.study import Study, study

EXAMPLE = "book-van"
TOGETHER_S = 2.0
Fields = tuple[tuple[str, str, tuple[str, ...]], ...]  # kind, part, names of fields


def notebooks_folder() -> Path:
    """Where the notebooks are: inside an installed package, or beside it in a checkout."""
    inside = Path(str(files("rigcalc"))) / "notebooks"
    return inside if inside.is_dir() else Path(__file__).parents[2] / "notebooks"


def example_names() -> list[str]:
    """Names of the example rigs, for `open_rig`."""
    return sorted(path.stem for path in (notebooks_folder() / "rigs").glob("*.json"))


def open_rig(name: str = EXAMPLE) -> Session:
    """Open an example rig; a page in a browser then takes over what the browser kept.

    Parameters
    ----------
    name : str
        One of `example_names`. [-]

    Raises
    ------
    InputError
        Where there is no such example.
    """
    path = notebooks_folder() / "rigs" / f"{name}.json"
    if name not in example_names():
        raise InputError("Example rig", name, f"one of {', '.join(example_names())}")
    return Session(read_rig(path.read_text(encoding="utf-8")))


class Session:
    """A rig being worked on, its study and findings, and who wants to hear of changes.

    A change that does not pass the model's checks raises `InputError` and leaves the rig as it was. Changes of the
    same numbers that follow within `TOGETHER_S`, as a slider makes them, are one step of `undo`.
    """

    def __init__(self, rig: Rig, clock: Callable[[], float] = time.monotonic) -> None:
        self._rig, self._clock = rig, clock
        self._changed: tuple[Fields, float] = ((), 0.0)  # what changed last, and when
        self._study: Study | None = None
        self._findings: tuple[Finding, ...] | None = None
        self._before: list[Rig] = []
        self._listeners: list[Callable[[], object]] = []

    @property
    def rig(self) -> Rig:
        """The rig as it stands."""
        return self._rig

    @property
    def study(self) -> Study:
        """Its study, computed once for each change."""
        if self._study is None:
            self._study = study(self._rig)
        return self._study

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Its findings, most severe first."""
        if self._findings is None:
            self._findings = findings(self.study)
        return self._findings

    def apply(self, *changes: Change) -> None:
        """Make changes; all pass the checks together, or none is made."""
        self._replace(changed(self._rig, *changes), _numbers(changes))

    def replace(self, rig: Rig) -> None:
        """Work on this rig from now on; the one before can be brought back with `undo`."""
        self._replace(rig, ())

    def _replace(self, rig: Rig, fields: Fields) -> None:
        if rig == self._rig:
            return
        found = study(rig, self._study)  # what cannot be studied is refused before anything changes
        (last, at_s), now_s = self._changed, self._clock()
        if not (fields and fields == last and now_s - at_s < TOGETHER_S):
            self._before.append(self._rig)
        self._changed = (fields, now_s)
        self._take(rig, found)

    def restore(self, rig: Rig) -> None:
        """Go on with a rig that was open before; there is no step back behind it."""
        found = study(rig)
        self._before.clear()
        self._changed = ((), 0.0)
        self._take(rig, found)

    def undo(self) -> None:
        """Bring the rig before the last change back."""
        if self._before:
            self._changed = ((), 0.0)
            self._take(self._before.pop())

    @property
    def can_undo(self) -> bool:
        """Whether there is a change to take back."""
        return bool(self._before)

    def _take(self, rig: Rig, found: Study | None = None) -> None:
        self._rig, self._study, self._findings = rig, found, None
        for listener in list(self._listeners):
            listener()

    def on_change(self, listener: Callable[[], object]) -> None:
        """Call ``listener()`` after every change."""
        self._listeners.append(listener)

    def text(self) -> str:
        """The rig file as it would be saved."""
        return write_rig(self._rig)


def _numbers(changes: Sequence[Change]) -> Fields:
    """The fields where only numbers change, as a slider does it; empty where anything else changes."""
    values = [value for one in changes for name, value in one.fields if name != "typed"]
    if any(one.new or one.gone for one in changes) or any(type(value) not in (int, float) for value in values):
        return ()
    return tuple((one.kind, one.id, tuple(name for name, _ in one.fields)) for one in changes)
