"""All rules in one place, and what they say of a study."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from rigcalc.rules import autonomy, cables, colours, conductors, devices, energy, overcurrent, placement, system
from rigcalc.rules.finding import SEVERITIES, Finding
from rigcalc.study import Study

Rule = Callable[[Study], Iterator[Finding]]

RULES: dict[str, Rule] = {
    "L01": energy.l01_stated,
    "L03": energy.l03_cycling,
    "L04": energy.l04_hot_day,
    "L05": energy.l05_hours,
    "L06": energy.l06_losses,
    "L07": energy.l07_idle,
    "L08": energy.l08_standing,
    "B01": autonomy.b01_autonomy,
    "B02": autonomy.b02_depth,
    "B03": autonomy.b03_current,
    "B05": autonomy.b05_lowest_voltage,
    "B22": autonomy.b22_aged,
    "W01": conductors.w01_ampacity,
    "W02": conductors.w02_engine_space,
    "W03": conductors.w03_drop,
    "W05": conductors.w05_low_battery,
    "W06": conductors.w06_feeder,
    "W07": cables.w07_smallest,
    "W09": cables.w09_readable,
    "W10": cables.w10_return,
    "W11": cables.w11_chassis,
    "W21": conductors.w21_terminal,
    "P01": placement.p01_protected,
    "P02": placement.p02_distance,
    "P03": overcurrent.p03_not_above,
    "P04": overcurrent.p04_carries,
    "P05": overcurrent.p05_window,
    "P06": overcurrent.p06_reduction,
    "P07": placement.p07_sense,
    "P08": devices.p08_interrupting,
    "P10": devices.p10_voltage,
    "P12": overcurrent.p12_nearer_first,
    "P13": devices.p13_steady,
    "P14": placement.p14_main_switch,
    "P15": placement.p15_return,
    "P17": placement.p17_block,
    "A01": system.a01_inverter_power,
    "A02": system.a02_inverter_current,
    "A05": system.a05_mains,
    "D01": system.d01_system_voltage,
    "D02": system.d02_highest_voltage,
    "D04": colours.d04_colours,
    "D07": system.d07_assumptions,
}


def findings(study: Study) -> tuple[Finding, ...]:
    """What every rule says of a study: stops first, then warnings, advice and information.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.

    Returns
    -------
    tuple of Finding
        By severity, what was found before what is not stated, then by rule and subject. A finding the rig accepts
        carries the acceptance; on a stop it is a note only and the finding still stops.
    """
    given = {(one.rule, one.subject): one for one in study.rig.accepted}
    heard = [one for rule in RULES.values() for one in rule(study)]
    return tuple(sorted((replace(one, accepted=given.get((one.rule, one.subject))) for one in heard), key=_order))


def _order(one: Finding) -> tuple[int, bool, str, str]:
    return SEVERITIES.index(one.severity), one.state != "found", one.rule, one.subject
