"""Rules on the cable itself: its smallest size, how its size is written, its way back."""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.errors import InputError
from rigcalc.model import Run
from rigcalc.model.edit import Change, change
from rigcalc.model.network import BANK
from rigcalc.rules.finding import Finding
from rigcalc.rules.parts import judged, run_study
from rigcalc.rules.search import use_conductor
from rigcalc.rules.words import RIG, Candidates, found, joined, not_stated
from rigcalc.study import Study
from rigcalc.tables.conductors import SERIES, ConductorSize, MinConductorSize, conductor, conductor_sizes
from rigcalc.tables.size_text import parse_size


def w07_smallest(study: Study) -> Iterator[Finding]:
    """No conductor is thinner than the rule set allows for mechanical strength."""
    if not any(_smallest(study, sheathed, series) for sheathed in (True, False) for series in SERIES):
        sentence = "These rules give no smallest conductor that was read; nothing is checked."
        yield not_stated(study, "W07", RIG, sentence, by=study.rule_set.clause("min_size"))
        return
    for run in study.rig.runs:
        for field, size in _sizes(study, run):
            row = _smallest(study, run.sheathed, size.series)
            if row is not None and size.area_mm2 < conductor(row.size).area_mm2:
                yield _too_thin(study, run, field, size, row)


def _smallest(study: Study, sheathed: bool, series: str) -> MinConductorSize | None:
    """The rule set's smallest size, in the conductor's own series where it states one."""
    situation, other = "sheathed" if sheathed else "single", next(name for name in SERIES if name != series)
    return study.rule_set.min_size(situation, series) or study.rule_set.min_size(situation, other)


def _sizes(study: Study, run: Run) -> Iterator[tuple[str, ConductorSize]]:
    """The run's conductor, stated or chosen, and its return where that is stated."""
    check = judged(run_study(study, run.id))
    if check is not None:
        yield "conductor", conductor(check.size)
    back = parse_size(run.return_conductor)[0] if run.return_conductor else None
    if back is not None:
        yield "return_conductor", back


def _too_thin(study: Study, run: Run, field: str, size: ConductorSize, row: MinConductorSize) -> Finding:
    which = "the return of " if field == "return_conductor" else ""
    how = "within a sheath" if run.sheathed else "as a single conductor"
    sentence = (
        f"{size.name} in {which}{run.id} ({run.name}) is thinner than {row.size}, the least these rules allow {how}. "
        "Thin strands break with movement."
    )
    least = conductor(row.size)
    enough = [one.name for one in conductor_sizes(size.series) if one.area_mm2 >= least.area_mm2]
    cures: Candidates = tuple((change("runs", run.id, **{field: name}),) for name in enough)
    if field == "conductor":
        cures = tuple((use_conductor(run, name),) for name in enough)
    return found(study, "W07", run.id, sentence, size.name, f"at least {row.size}", by=row, candidates=cures)


def w09_readable(study: Study) -> Iterator[Finding]:
    """What is printed on each cable has one meaning."""
    for run in study.rig.runs:
        for field in ("conductor", "return_conductor"):
            text = getattr(run, field)
            meanings = _meanings(text)
            if meanings:
                where = f"the {'return ' if field == 'return_conductor' else ''}conductor of {run.id} ({run.name})"
                yield _two_ways(study, run.id, where, text, meanings, ((change("runs", run.id, **{field: None}),),))
    bond = study.rig.chassis_bond
    meanings = _meanings(bond)
    if bond and meanings:
        yield _two_ways(study, RIG, "the chassis bond", bond, meanings, ())


def _meanings(text: str | None) -> tuple[str, ...]:
    """What a text can mean where that is not one thing; empty where it is."""
    if not text:
        return ()
    try:
        return parse_size(text)[1]
    except InputError as error:
        return (f"no size: expected {error.allowed}",)


def _two_ways(
    study: Study, subject: str, where: str, text: str, meanings: tuple[str, ...], cures: Candidates
) -> Finding:
    can = " or ".join(meanings)
    sentence = f'"{text}" for {where} can mean {can}. Read what is printed on the cable and type it with its unit.'
    return found(study, "W09", subject, sentence, f'"{text}"', f"one of: {can}", candidates=cures)


def w10_return(study: Study) -> Iterator[Finding]:
    """The way back has at least the copper of the way out: it carries the same current."""
    for run in study.rig.runs:
        sizes = dict(_sizes(study, run))
        out, back = sizes.get("conductor"), sizes.get("return_conductor")
        if run.return_path == "chassis" or out is None or back is None or back.area_mm2 >= out.area_mm2:
            continue
        sentence = (
            f"{run.id} ({run.name}) goes out in {out.name} and comes back in {back.name}. "
            "The same current flows in both, so the thinner return is the one that overheats."
        )
        cures = ((change("runs", run.id, return_conductor=out.name),), (change("runs", run.id, return_conductor=None),))
        yield found(study, "W10", run.id, sentence, f"{back.name} back", f"at least {out.name}", candidates=cures)


def w11_chassis(study: Study) -> Iterator[Finding]:
    """The chassis is the return only where the rules allow it, and the bond to it is large enough."""
    returns = [run for run in study.rig.runs if run.return_path == "chassis"]
    allowed, clause = study.rule_set.chassis_return_allowed, study.rule_set.clause("chassis")
    if allowed:
        yield from _bond(study, returns)
        return
    for run in returns:
        if allowed is None:
            sentence = f"{run.id} ({run.name}) returns through metal; these rules do not say whether it may."
            yield not_stated(study, "W11", run.id, sentence, by=clause)
            continue
        sentence = f"{run.id} ({run.name}) returns through the hull or frame. These rules want a conductor of its own."
        back = {"return_path": "conductor", "length_back_m": run.length_out_m, "chassis_resistance_ohm": None}
        cure = ((change("runs", run.id, **back),),)
        yield found(study, "W11", run.id, sentence, "chassis return", "a return conductor", by=clause, candidates=cure)


def _bond(study: Study, returns: list[Run]) -> Iterator[Finding]:
    """The conductor from battery negative to chassis: there, and no thinner than the clause and the other lead."""
    typed, row = study.rig.chassis_bond, study.rule_set.min_size("chassis_bond", "AWG")
    if row is None or (typed is None and not returns) or _meanings(typed):
        return
    needed = _bond_needed(study, row)
    has = parse_size(typed)[0] if typed else None
    cure: Candidates = ((Change("rig", "", (("chassis_bond", needed.name),)),),)
    if has is None:
        runs = f"{joined([run.id for run in returns])} {'returns' if len(returns) == 1 else 'return'}"
        sentence = f"{runs} through the chassis, but no conductor bonds it to the battery negative."
        yield found(study, "W11", RIG, sentence, "no bond", f"at least {needed.name}", by=row, candidates=cure)
    elif has.area_mm2 < needed.area_mm2:
        sentence = (
            f"The bond from battery negative to chassis is {has.name}. A fault to the chassis returns through it: "
            f"it needs {row.size} or more, and no less than the battery's other lead, hence {needed.name}."
        )
        yield found(study, "W11", RIG, sentence, has.name, f"at least {needed.name}", by=row, candidates=cure)


def _bond_needed(study: Study, row: MinConductorSize) -> ConductorSize:
    """The clause's size or the largest lead at the bank, whichever has more copper."""
    checks = [judged(run_study(study, run.id)) for run in study.rig.runs if run.from_id == BANK]
    leads = [conductor(check.size) for check in checks if check is not None]
    return max([conductor(row.size), *leads], key=lambda size: size.area_mm2)
