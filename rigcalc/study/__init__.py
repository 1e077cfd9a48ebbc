"""Rig -> Study: the one place where model, tables, formulas and solvers meet. Pure: same rig, same study."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.model import Rig
from rigcalc.study.assumptions import assumptions
from rigcalc.study.autonomy import autonomy_study
from rigcalc.study.energy import energy_study
from rigcalc.study.network import network_study
from rigcalc.study.network_results import NetworkStudy
from rigcalc.study.results import AutonomyStudy, EnergyStudy
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


#: What only the wiring reads: energy and autonomy stay as they are where nothing else changed.
WIRING_ONLY = {
    "name", "revision", "date", "note", "rule_set", "colour_scheme", "chassis_bond", "main_switch_run", "buses",
    "blocks", "runs", "devices", "accepted",
}  # fmt: skip
_ENERGY_READS = tuple(field for field in Rig.model_fields if field not in WIRING_ONLY)


def study(rig: Rig, before: Study | None = None) -> Study:
    """Compute everything from the rig.

    Parameters
    ----------
    rig : Rig
        A valid rig; it may be incomplete: what is not stated stays "not stated".
    before : Study or None
        A study of the rig as it was, to take over from it what the change cannot have touched.

    Returns
    -------
    Study
        The same for the same rig, with or without ``before``; nothing is read but the tables of the package.
    """
    rules = rule_set(rig.rule_set)
    if before is not None and all(getattr(rig, field) == getattr(before.rig, field) for field in _ENERGY_READS):
        energy, autonomy = before.energy, before.autonomy
    else:
        energy = energy_study(rig)
        autonomy = autonomy_study(rig, energy)
    return Study(rig, rules, energy, autonomy, network_study(rig, rules), assumptions(rig))
