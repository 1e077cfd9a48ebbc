"""Rules on the colours of wires: declared once, kept to, and not to be taken for house wiring."""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.model.edit import change
from rigcalc.rules.finding import Finding
from rigcalc.rules.parts import run_study, titled
from rigcalc.rules.words import RIG, found, not_stated
from rigcalc.study import Study
from rigcalc.study.colours import run_colours
from rigcalc.tables.colours import SCHEMES, wire_colour


def d04_colours(study: Study) -> Iterator[Finding]:
    """One scheme for the rig; a wire in the colour of the other pole; black that mains wiring uses otherwise."""
    scheme = study.rig.colour_scheme
    if scheme is None:
        sentence = "Which colours the wires follow is not stated: someone else cannot tell plus from minus by them."
        yield not_stated(study, "D04", RIG, sentence)
        return
    yield from _swapped(study, scheme)
    positive, negative = (wire_colour(scheme, wire) for wire in ("positive", "negative"))
    if study.rig.inverters and "black" in (positive.colour, negative.colour):
        means = "minus" if negative.colour == "black" else "plus"
        sentence = (
            f"In this rig black means {means} (scheme {SCHEMES[scheme]}); in house wiring black can be live mains. "
            "Keep both apart, label both, and print the legend at the panel."
        )
        limit = "no black where mains is near"
        yield found(study, "D04", RIG, sentence, f"black is {means}", limit, by=negative)


def _swapped(study: Study, scheme: str) -> Iterator[Finding]:
    positive, negative = (wire_colour(scheme, wire).colour for wire in ("positive", "negative"))
    for run_id, colours in run_colours(study.rig).items():
        if colours.positive == negative or colours.negative == positive:
            has = f"plus {colours.positive}, minus {colours.negative or 'the chassis'}"
            sentence = (
                f"{titled(run_study(study, run_id))} has {has}; by its scheme plus is {positive} and minus {negative}. "
                "Whoever trusts the scheme reverses it."
            )
            cure = ((change("runs", run_id, colour=None, return_colour=None),),)
            yield found(study, "D04", run_id, sentence, has, f"plus {positive}, minus {negative}", candidates=cure)
