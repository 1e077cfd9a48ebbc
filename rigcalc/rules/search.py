"""Changes worth trying: larger conductors and other devices, least copper and nearest rating first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from rigcalc.model import Run
from rigcalc.model.edit import Change, change
from rigcalc.rules.words import Candidates
from rigcalc.study import Study
from rigcalc.study.network_results import CircuitStudy, RunStudy
from rigcalc.tables.conductors import ConductorSize, conductor, conductor_sizes
from rigcalc.tables.overcurrent import device_classes, ratings


def use_conductor(run: Run, size: str | None) -> Change:
    """The run with another conductor; a return that was stated goes with it. None leaves both to be chosen."""
    if run.return_conductor is None:
        return change("runs", run.id, conductor=size)
    return change("runs", run.id, conductor=size, return_conductor=size)


def larger_sizes(one: RunStudy) -> tuple[ConductorSize, ...]:
    """Sizes of the run's series above the one it has."""
    if one.choice is None:
        return ()
    now = conductor(one.choice.size)
    return tuple(size for size in conductor_sizes(now.series) if size.order > now.order)


def larger_conductors(study: Study, run_ids: Iterable[str]) -> Candidates:
    """Each of the runs made larger, size by size, least copper added first; last, the runs left to be chosen."""
    runs = {run.id: run for run in study.rig.runs}
    studies = {one.run_id: one for one in study.network.runs}
    wanted = [run_id for run_id in run_ids if run_id in studies]
    tried = [
        (_copper_added(runs[run_id], studies[run_id], size), use_conductor(runs[run_id], size.name))
        for run_id in wanted
        for size in larger_sizes(studies[run_id])
    ]
    ordered = [(one,) for _, one in sorted(tried, key=lambda pair: pair[0])]
    stated = [run_id for run_id in wanted if studies[run_id].stated is not None]
    opened = [tuple(use_conductor(runs[run_id], None) for run_id in stated)] if stated else []
    return (*ordered, *_all_larger(runs, studies, wanted), *opened)


def _all_larger(runs: dict[str, Run], studies: dict[str, RunStudy], run_ids: list[str]) -> Iterator[tuple[Change, ...]]:
    """All runs of a way one size larger, then two, and so on, each at most to the largest of its series."""
    rows = [(runs[run_id], larger_sizes(studies[run_id])) for run_id in run_ids]
    rows = [(run, sizes) for run, sizes in rows if sizes]
    if len(rows) < 2:
        return
    for step in range(max(len(sizes) for _, sizes in rows)):
        yield tuple(use_conductor(run, sizes[min(step, len(sizes) - 1)].name) for run, sizes in rows)


def _copper_added(run: Run, one: RunStudy, size: ConductorSize) -> float:
    """Metres times mm², enough to put changes in order."""
    now_mm2 = one.choice.area_mm2 if one.choice else 0.0
    return (run.length_out_m + (run.length_back_m or 0.0)) * (size.area_mm2 - now_mm2)


def ratings_of(one: CircuitStudy) -> tuple[float, ...]:
    """Ratings the circuit's class of device is made in, smallest first. [A]"""
    return tuple(row.rating_a for row in ratings(one.device_class)) if one.device_class else ()


def other_ratings(study: Study, one: CircuitStudy) -> Candidates:
    """The rating left to be chosen, the ratings within the window, and both with more copper on the thinnest run."""
    most_a = float("inf") if one.most_a is None else one.most_a
    opened = ((change("devices", one.circuit_id, rating_a=None),),) if one.rating_stated else ()
    fitting = [a for a in ratings_of(one) if one.least_a <= a <= most_a and a != one.rating_a]
    stated = tuple((change("devices", one.circuit_id, rating_a=a),) for a in fitting)
    return (*opened, *stated, *larger_thinnest(study, one), *_larger_both(study, one))


def _larger_both(study: Study, one: CircuitStudy) -> Candidates:
    """Ratings above the window, with conductors left to be chosen for them: for a start the present one cannot hold."""
    if one.most_a is None or one.rating_a is None:
        return ()
    runs = [run for run in study.rig.runs if run.id in one.runs and run.conductor is not None]
    opened = tuple(use_conductor(run, None) for run in runs)
    above = [a for a in ratings_of(one) if a > max(one.most_a, one.rating_a)]
    return tuple((change("devices", one.circuit_id, rating_a=a), *opened) for a in above)


def larger_thinnest(study: Study, one: CircuitStudy) -> Candidates:
    """More copper where the circuit is thinnest, with the rating as it is, then left to be chosen."""
    if one.thinnest is None:
        return ()
    larger = larger_conductors(study, [one.thinnest])
    open_rating = change("devices", one.circuit_id, rating_a=None)
    return (*larger, *((*cure, open_rating) for cure in larger if one.rating_stated))


def other_classes(one: CircuitStudy) -> Candidates:
    """Another class of device, everything that belonged to the old one left open."""
    emptied = {"rating_a": None, "interrupting_a": None, "voltage_rating_v": None, "holder_rating_a": None}
    return tuple(
        (change("devices", one.circuit_id, device_class=kind.id, **emptied),)
        for kind in device_classes()
        if kind.id != one.device_class and not kind.from_memory
    )


def new_device(study: Study, run_id: str) -> Candidates:
    """A device right at the start of the run, its class and rating left to be chosen."""
    taken = {part_id for _, part_id in study.rig.parts()}
    new_id = next(name for name in (f"F{n}" for n in range(1, len(taken) + 2)) if name not in taken)
    return ((Change("devices", new_id, (("run_id", run_id), ("distance_m", 0.0)), new=True),),)
