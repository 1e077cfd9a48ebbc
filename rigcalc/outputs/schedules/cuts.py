"""Cut list and reel plan: each conductor to cut, the sum of each size, and which reel it comes from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from rigcalc.errors import InputError
from rigcalc.outputs.schedules.frame import BUILDERS, BY_HAND, frame, in_order, natural
from rigcalc.outputs.schedules.lookup import NOT_CHOSEN, names, route, size_back, size_out
from rigcalc.study import Study

if TYPE_CHECKING:
    import pandas as pd

SLACK_M = 0.3  # at each end, builder's value
_REEL_M = {"metric": 50.0, "us": 100 * 0.3048}  # builder's values
_DUST_M = 1e-9
_SLACK, _REEL = f"Slack each end, {BUILDERS} [m]", f"Reel, {BUILDERS} [m]"


@dataclass(frozen=True, slots=True)
class Cut:
    """One conductor cut to length: a run has one for each way that is not the chassis."""

    run_id: str
    function: str  # "L+" or "L−", as IEC 60445 names DC conductors
    size: str
    route_m: float
    slack_m: float  # at each end
    from_id: str
    to_id: str
    laid: str

    @property
    def wire(self) -> str:
        """Wire number, as on its label."""
        return f"{self.run_id} {self.function}"

    @property
    def length_m(self) -> float:
        """Length to cut. [m]"""
        return self.route_m + 2 * self.slack_m


@dataclass(frozen=True, slots=True)
class Reel:
    """One reel of a size and what is cut from it; or a piece longer than a reel, bought to its own length."""

    size: str
    number: int
    length_m: float
    cuts: tuple[Cut, ...]
    own_length: bool = False

    @property
    def left_m(self) -> float:
        """What no cut uses. [m]"""
        return max(0.0, self.length_m - sum(cut.length_m for cut in self.cuts))


def cuts(study: Study, slack_m: float = SLACK_M) -> tuple[Cut, ...]:
    """Every conductor of the rig, in order of its number.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    slack_m : float
        Added at each end, 0 or more; a builder's value. [m]

    Returns
    -------
    tuple of Cut
        L+ of every run, L− of those whose return is a conductor.
    """
    if not 0 <= slack_m < float("inf"):
        raise InputError("Slack", slack_m, "0 m or more")
    studied = {run.run_id: run for run in study.network.runs}
    found = []
    for run in sorted(study.rig.runs, key=lambda run: natural(run.id)):
        ends = (slack_m, run.from_id, run.to_id, route(run))
        found.append(Cut(run.id, "L+", size_out(studied[run.id]), run.length_out_m, *ends))
        if run.length_back_m is not None:
            found.append(Cut(run.id, "L−", size_back(run, studied[run.id]), run.length_back_m, *ends))
    return tuple(found)


def plan(found: Sequence[Cut], reel_m: float) -> tuple[Reel, ...]:
    """Which cut comes from which reel: longest first, each into the first reel of its size that still holds it.

    Parameters
    ----------
    found : sequence of Cut
        From `cuts`.
    reel_m : float
        Length of a reel, above 0. [m]

    Returns
    -------
    tuple of Reel
        By size and number; a cut longer than a reel has one of its own length. Not the fewest reels in every case.
    """
    if not 0 < reel_m < float("inf"):
        raise InputError("Reel length", reel_m, "above 0 m")
    reels: list[Reel] = []
    for size in sorted({cut.size for cut in found}, key=natural):
        pieces = sorted((cut for cut in found if cut.size == size), key=lambda cut: -cut.length_m)
        long = [cut for cut in pieces if cut.length_m > reel_m]
        filled = _filled([cut for cut in pieces if cut.length_m <= reel_m], reel_m)
        held = [(reel_m, tuple(one), False) for one in filled] + [(cut.length_m, (cut,), True) for cut in long]
        reels += [Reel(size, number, length_m, one, own) for number, (length_m, one, own) in enumerate(held, 1)]
    return tuple(reels)


def _filled(pieces: list[Cut], reel_m: float) -> list[list[Cut]]:
    """First fit; pieces come longest first."""
    held: list[tuple[float, list[Cut]]] = []
    for cut in pieces:
        for at, (used_m, on_it) in enumerate(held):
            if used_m + cut.length_m <= reel_m + _DUST_M:
                on_it.append(cut)
                held[at] = (used_m + cut.length_m, on_it)
                break
        else:
            held.append((cut.length_m, [cut]))
    return [on_it for _, on_it in held]


def cut_list(
    study: Study,
    units: str | None = None,
    order: str = "number",
    slack_m: float = SLACK_M,
    reel_m: float | None = None,
) -> pd.DataFrame:
    """Every conductor to cut, with the reel it comes from.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]
    order : str
        "number", "route" (where it lies) or "reel" (size and reel). [-]
    slack_m : float
        Added at each end; a builder's value. [m]
    reel_m : float or None
        Length of a reel; None for 50 m, or 100 ft where the rig's units are US. [m]

    Returns
    -------
    pandas.DataFrame
        A row a conductor; colour, bend allowance and status are written in by hand.
    """
    label = names(study.rig)
    keys = {
        "number": lambda one: (natural(one[1].run_id), one[1].function),
        "route": lambda one: one[1].laid,
        "reel": lambda one: (natural(one[0].size), one[0].number),
    }
    taken = [(reel, cut) for reel in _reels(study, slack_m, reel_m) for cut in reel.cuts]
    rows = [_cut(reel, cut, label) for reel, cut in in_order(taken, order, keys)]
    return frame(study, units, _CUTS, rows)


_CUTS = (
    "Wire", "Run", "Conductor", "Size", "Colour", "From", "To", "Route", "Length along route [m]", _SLACK,
    "Bend allowance [m]", "Length to cut [m]", "Reel", "Status", "Remarks",
)  # fmt: skip


def _cut(reel: Reel, cut: Cut, label: dict[str, str]) -> list[object]:
    return [
        cut.wire,
        cut.run_id,
        cut.function,
        cut.size,
        BY_HAND,
        label[cut.from_id],
        label[cut.to_id],
        cut.laid,
        cut.route_m,
        cut.slack_m,
        BY_HAND,
        cut.length_m,
        f"{cut.size}, reel {reel.number}",
        BY_HAND,
        "longer than a reel: buy to length" if reel.own_length else "",
    ]


def _reels(study: Study, slack_m: float, reel_m: float | None) -> tuple[Reel, ...]:
    stock_m = _REEL_M[study.rig.units] if reel_m is None else reel_m
    return plan(cuts(study, slack_m), stock_m)


def cut_sums(
    study: Study, units: str | None = None, slack_m: float = SLACK_M, reel_m: float | None = None
) -> pd.DataFrame:
    """Each size's total length, its reels, and what is left over.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]
    slack_m : float
        Added at each end; a builder's value. [m]
    reel_m : float or None
        Length of a reel; None for 50 m, or 100 ft where the rig's units are US. [m]

    Returns
    -------
    pandas.DataFrame
        A row a size; "Waste [%]" is what is left over of what is bought.
    """
    reels = _reels(study, slack_m, reel_m)
    sizes = dict.fromkeys(reel.size for reel in reels)
    return frame(study, units, _SUMS, [_sum(size, [one for one in reels if one.size == size]) for size in sizes])


_SUMS = (
    "Size",
    "Cuts",
    "To cut [m]",
    "Reels",
    "Bought to length",
    "Bought [m]",
    "Left over [m]",
    "Waste [%]",
    "Colour",
)


def _sum(size: str, reels: list[Reel]) -> list[object]:
    bought_m, left_m = sum(reel.length_m for reel in reels), sum(reel.left_m for reel in reels)
    own = sum(reel.own_length for reel in reels)
    count, total_m = sum(len(reel.cuts) for reel in reels), sum(cut.length_m for reel in reels for cut in reel.cuts)
    waste = 100 * left_m / bought_m if bought_m else 0.0
    return [size, count, total_m, len(reels) - own, own, bought_m, left_m, waste, BY_HAND]


def reel_plan(
    study: Study, units: str | None = None, slack_m: float = SLACK_M, reel_m: float | None = None
) -> pd.DataFrame:
    """Each reel with the wires cut from it, in the order of cutting.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]
    slack_m : float
        Added at each end; a builder's value. [m]
    reel_m : float or None
        Length of a reel; None for 50 m, or 100 ft where the rig's units are US. [m]

    Returns
    -------
    pandas.DataFrame
        A row a reel; first fit, longest first.
    """
    return frame(study, units, _PLAN, _planned(_reels(study, slack_m, reel_m)))


_PLAN = ("Size", "Reel", _REEL, "Wires, in order of cutting", "Cut [m]", "Left over [m]", "Waste [%]", "Remarks")


def _planned(reels: tuple[Reel, ...]) -> Iterator[list[object]]:
    for reel in reels:
        remarks = ["longer than a reel: buy to length"] if reel.own_length else []
        remarks += ["no size was chosen; do not buy yet"] if reel.size == NOT_CHOSEN else []
        yield [
            reel.size,
            reel.number,
            reel.length_m,
            ", ".join(cut.wire for cut in reel.cuts),
            sum(cut.length_m for cut in reel.cuts),
            reel.left_m,
            100 * reel.left_m / reel.length_m if reel.length_m else 0.0,
            "; ".join(remarks),
        ]
