"""Curves of autonomy: against the energy a day, and against the temperature of the bank."""

from __future__ import annotations

from rigcalc.study import Study
from rigcalc.study.bank import bank_state, lasts_d
from rigcalc.study.cold import OUTSIDE
from rigcalc.study.working import figure
from rigcalc.units import SUFFIXES, customary
from rigcalc.widgets.energy_results import days, wh
from rigcalc.widgets.figures import Figure, Point, autonomy_by_temperature, autonomy_by_use

Rows = tuple[list[str], list[list[object]]]
Shown = tuple[Figure, str, list[str], list[list[object]]]
COLDEST_C, WARMEST_C, STEP_C = -30.0, 50.0, 2.5
_POINTS = 60
_EMPTY: Shown = ({}, "Nothing is drawn from the bank yet.", [], [])


def by_use(study: Study, what_if_wh: float | None) -> Shown:
    """Figure, its sentence and its table: days against energy a day, with the rig's place and a use only tried."""
    found, energy = study.autonomy, study.energy
    if found.autonomy_d is None:
        return _EMPTY
    state, here_wh = bank_state(study.rig.bank), energy.daily_energy_wh
    most = max(2.5 * here_wh, 1.2 * energy.daily_90_wh, 1.2 * (what_if_wh or 0.0))
    use = [most * step / _POINTS for step in range(4, _POINTS + 1)]
    lasts = [lasts_d(state, one) for one in use]
    tried = Point("what if", what_if_wh, lasts_d(state, what_if_wh)) if what_if_wh else None
    here, span = Point("this rig", here_wh, found.autonomy_d), (energy.daily_10_wh, energy.daily_90_wh)
    drawn = autonomy_by_use(use, lasts, here, span, study.rig.bank.wanted_autonomy_days, tried)
    half = days(lasts_d(state, here_wh / 2))
    alt = (
        f"Days without charging against energy a day: {days(found.autonomy_d)} at the rig's {wh(here_wh)}, {half} at "
        f"half of it. Shaded: 8 of 10 such days, {figure(span[0])} to {wh(span[1])}."
    )
    rows: list[list[object]] = [[figure(x), f"{y:.2f}"] for x, y in zip(use[::4], lasts[::4], strict=True)]
    return drawn, alt, ["Energy a day, Wh", "Days"], rows


def by_temperature(study: Study) -> Shown:
    """Figure, its sentence and its table: days against the temperature of the bank."""
    found, bank, system = study.autonomy, study.rig.bank, study.rig.units
    if found.autonomy_d is None:
        return _EMPTY
    steps = round((WARMEST_C - COLDEST_C) / STEP_C)
    temperatures = [COLDEST_C + STEP_C * step for step in range(steps + 1)]
    states = [bank_state(bank.model_copy(update={"temperature_c": at_c})) for at_c in temperatures]
    lasts = [lasts_d(state, study.energy.daily_energy_wh) for state in states]
    outside = [state.cold.status == OUTSIDE for state in states]
    shown, unit = [_shown(at_c, system) for at_c in temperatures], SUFFIXES["c"][1 if system == "us" else 0]
    here = Point("this rig", _shown(bank.temperature_c, system), found.autonomy_d)
    drawn = autonomy_by_temperature(shown, lasts, outside, here, bank.wanted_autonomy_days, unit)
    zero = dict(zip(temperatures, lasts, strict=True))[0.0]
    alt = (
        f"Days without charging against the temperature of the bank: {days(found.autonomy_d)} at "
        f"{here.x:.4g} {unit}, {days(zero)} at {_shown(0.0, system):.4g} {unit}."
    )
    kinds = [("outside the table" if out else "") for out in outside]
    rows: list[list[object]] = [[f"{x:.4g}", f"{y:.2f}", kind] for x, y, kind in zip(shown, lasts, kinds, strict=True)]
    return drawn, alt, [f"Temperature, {unit}", "Days", "Known"], rows


def _shown(temperature_c: float, system: str) -> float:
    return round(customary(temperature_c, "c", system), 6)
