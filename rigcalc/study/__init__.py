"""Rig -> Study: the one place where model, tables, formulas and solvers meet. Pure: same rig, same study."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.model import Rig
from rigcalc.study.assumptions import assumptions
from rigcalc.study.autonomy import autonomy_study
from rigcalc.study.energy import energy_study
from rigcalc.study.network import network_study
from rigcalc.study.results import AutonomyStudy, EnergyStudy, NetworkStudy
from rigcalc.tables.rule_sets import RuleSet, rule_set


@dataclass(frozen=True, slots=True)
class Study:
    """Everything that follows from a rig."""

    rig: Rig
    rule_set: RuleSet
    energy: EnergyStudy
    autonomy: AutonomyStudy
    network: NetworkStudy
    assumptions: tuple[str, ...]


def study(rig: Rig) -> Study:
    """Compute everything from the rig.

    Parameters
    ----------
    rig : Rig
        A valid rig; it may be incomplete: what is not stated stays "not stated".

    Returns
    -------
    Study
        The same for the same rig; nothing is read but the tables of the package.
    """
    rules = rule_set(rig.rule_set)
    energy = energy_study(rig)
    return Study(rig, rules, energy, autonomy_study(rig, energy), network_study(rig, rules), assumptions(rig))
