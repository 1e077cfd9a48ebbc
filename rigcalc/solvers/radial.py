"""A radial DC network with constant-power loads: voltages and currents, or the word that it cannot deliver."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

TOLERANCE_V = 1e-7
MOST_ROUNDS = 200


@dataclass(frozen=True, slots=True)
class Branch:
    """One pair of conductors, from the end of its parent branch (or the source) to its own end."""

    parent: int | None  # index of an earlier branch; None: the source
    resistance_ohm: float  # out and back
    power_w: float  # taken at its end
    group: str | None = None  # ends with the same word never run together


@dataclass(frozen=True, slots=True)
class Solution:
    """Currents and end voltages by branch; ``unsolved`` names branches whose power does not get through."""

    current_a: tuple[float, ...]
    end_v: tuple[float, ...]
    unsolved: frozenset[int]


def solve_radial(branches: Sequence[Branch], source_v: float) -> Solution:
    """Solve a radial network by sweeping currents inwards and voltages outwards until they agree.

    Parameters
    ----------
    branches : sequence of Branch
        Each after its parent.
    source_v : float
        Voltage at the source. [V]

    Returns
    -------
    Solution
        The upper-voltage solution. A branch whose end falls below half the source voltage cannot be served
        (the most a resistance R passes is V²/4R, at half voltage): it and all below it are unsolved, their
        power counted at the source voltage.

    Notes
    -----
    I = P / V at each end; of a group only the largest current is carried further.

    Examples
    --------
    >>> one = solve_radial([Branch(None, 0.15, 60.0)], 12.0)  # 60 W behind 0.15 Ω on 12 V
    >>> round(one.current_a[0], 2), round(one.end_v[0], 1)
    (5.36, 11.2)
    """
    ends = _ends_below(branches)
    dead: set[int] = set()
    while True:
        solution, failed = _sweep(branches, ends, source_v, dead)
        if not failed - dead:
            return solution
        dead |= failed


def _ends_below(branches: Sequence[Branch]) -> list[list[int]]:
    """For each branch the branches at or below it that take power."""
    below: list[list[int]] = [[] for _ in branches]
    for i, branch in enumerate(branches):
        if branch.power_w > 0:
            at: int | None = i
            while at is not None:
                below[at].append(i)
                at = branches[at].parent
    return below


def _sweep(
    branches: Sequence[Branch], ends: list[list[int]], source_v: float, dead: set[int]
) -> tuple[Solution, set[int]]:
    volts = [source_v] * len(branches)
    amps = [0.0] * len(branches)
    failed: set[int] = set()
    for _ in range(MOST_ROUNDS):
        own = [b.power_w / (source_v if i in dead else volts[i]) for i, b in enumerate(branches)]
        amps = [_carried(branches, own, ends[i]) for i in range(len(branches))]
        change = 0.0
        for i, branch in enumerate(branches):
            start_v = source_v if branch.parent is None else volts[branch.parent]
            end_v = start_v if i in dead else start_v - amps[i] * branch.resistance_ohm
            change = max(change, abs(end_v - volts[i]))
            volts[i] = end_v
        failed = _worst(branches, volts, 0.5 * source_v)
        if failed or change < TOLERANCE_V:
            break
    return Solution(tuple(amps), tuple(volts), frozenset(dead)), failed


def _worst(branches: Sequence[Branch], volts: list[float], least_v: float) -> set[int]:
    """Of the ends below ``least_v`` the lowest: one at a time, the rest may yet be served."""
    below = [i for i, branch in enumerate(branches) if volts[i] < least_v and branch.power_w > 0]
    return {min(below, key=lambda i: volts[i])} if below else set()


def _carried(branches: Sequence[Branch], own: list[float], ends: list[int]) -> float:
    total = 0.0
    groups: dict[str, float] = {}
    for i in ends:
        group = branches[i].group
        if group is None:
            total += own[i]
        else:
            groups[group] = max(groups.get(group, 0.0), own[i])
    return total + sum(groups.values())
