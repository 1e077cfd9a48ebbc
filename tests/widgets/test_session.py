"""The opened rig: changes, what is refused, and steps back."""

from __future__ import annotations

import pytest

from rigcalc.errors import InputError
from rigcalc.model.edit import Change, change
from rigcalc.widgets.session import TOGETHER_S, Session
from tests.rigs import small


class Clock:
    """Stands still until it is moved."""

    now_s = 100.0

    def __call__(self) -> float:
        return self.now_s


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def session(clock: Clock) -> Session:
    return Session(small(), clock)


def slide(session: Session, clock: Clock, *lengths_m: float) -> None:
    for length_m in lengths_m:
        clock.now_s += 0.1
        session.apply(change("runs", "W2", length_out_m=length_m))


def length_m(session: Session) -> float:
    return session.rig.runs[1].length_out_m


def test_the_steps_of_one_slide_are_one_step_back(session, clock):
    first = length_m(session)
    slide(session, clock, 3.0, 3.5, 4.0)
    session.undo()
    assert length_m(session) == first
    assert not session.can_undo


def test_the_same_field_changed_later_is_a_step_of_its_own(session, clock):
    slide(session, clock, 3.0)
    clock.now_s += TOGETHER_S
    slide(session, clock, 4.0)
    session.undo()
    assert length_m(session) == 3.0


def test_another_field_in_between_is_a_step_of_its_own(session, clock):
    slide(session, clock, 3.0)
    session.apply(change("runs", "W2", length_back_m=5.0))
    slide(session, clock, 4.0)
    session.undo()
    assert length_m(session) == 3.0
    assert session.rig.runs[1].length_back_m == 5.0


def test_a_slide_after_a_step_back_is_a_new_step(session, clock):
    slide(session, clock, 3.0)
    session.undo()
    first = length_m(session)
    slide(session, clock, 4.0)
    session.undo()
    assert length_m(session) == first


def test_parts_taken_out_one_after_the_other_come_back_one_by_one(session):
    session.apply(Change("devices", "F2", gone=True))
    session.apply(Change("devices", "F1", gone=True))
    session.undo()
    assert [one.id for one in session.rig.devices] == ["F1"]


def test_what_is_refused_changes_nothing_and_is_no_step(session):
    before = session.rig
    with pytest.raises(InputError, match="length_out_m"):
        session.apply(change("runs", "W2", length_out_m=-1.0))
    assert session.rig is before
    assert not session.can_undo


def test_a_rig_that_is_taken_up_again_has_nothing_behind_it(session):
    session.apply(change("runs", "W2", length_back_m=5.0))
    kept = small(name="Kept in the browser")
    session.restore(kept)
    assert session.rig is kept
    assert not session.can_undo
