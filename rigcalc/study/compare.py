"""What the other rule sets would choose for one run: each by its own table, drop form and limits, never mixed.

Worked out when asked for one run, not with the study.
"""

from __future__ import annotations

from dataclasses import replace

from rigcalc.study import Study
from rigcalc.study.conductors import rule_set_drop_v
from rigcalc.study.drop_limits import drop_limits
from rigcalc.study.results import NOT_AVAILABLE
from rigcalc.study.settle import Design, demand_of, pick_size, settle
from rigcalc.tables.rule_sets import RULE_SETS, RuleSet


def other_rule_sets(study: Study, run_id: str) -> dict[str, str]:
    """The size each other rule set would choose for a run, at the same current behind the same conductors.

    Where the rig's own rule set has no sizes to go by, each other one also chooses the conductors before the run.

    Parameters
    ----------
    study : Study
        The study of the rig. [-]
    run_id : str
        A run of the rig. [-]

    Returns
    -------
    dict of str to str
        Rule set id to a size, "none passes" with what the largest fails, or "not available from a read source".
    """
    own = settle(study.rig, study.rule_set) if study.network.available else None
    others = [rules for rules in RULE_SETS.values() if rules.id != study.rule_set.id]
    return {rules.id: _choice(own or settle(study.rig, rules), run_id, rules) for rules in others}


def _choice(design: Design, run_id: str, rules: RuleSet) -> str:
    run = next(one for one in design.rig.runs if one.id == run_id)
    demand = demand_of(design, run)
    before = design.tree.ways[run_id][:-1]
    drop_v = sum(rule_set_drop_v(one, design.current_a[one.id], design.picks[one.id].size, rules) for one in before)
    asked = replace(
        demand,
        power_w=None,  # the current stays the run's own
        before=replace(demand.before, rule_percent=100 * drop_v / demand.nominal_v),
        limit_percent=drop_limits(design.tree, rules)[run_id].percent,
    )
    _, found = pick_size(asked, rules)
    if found is None or "not available" in found.fails:
        return NOT_AVAILABLE
    return f"none passes: {found.size} fails by {' and '.join(found.fails)}" if found.fails else found.size
