"""The design rules that are checked: what each looks at, how grave it is, where it comes from, and its own limits.

A limit that a rule set or a device class prints is in their tables; here are only the figures of the rules themselves.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import ClassVar

from rigcalc.errors import InputError
from rigcalc.tables import Row, load


@dataclass(frozen=True, slots=True, kw_only=True)
class DesignRule(Row):
    """One design rule; ``severity`` is stop, warning, advice or info."""

    KEY: ClassVar[tuple[str, ...]] = ("id",)
    id: str
    title: str
    severity: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DesignLimit(Row):
    """One limit of a design rule, its unit in the name of the quantity."""

    KEY: ClassVar[tuple[str, ...]] = ("rule", "quantity")
    rule: str
    quantity: str
    value: float


def design_rules() -> tuple[DesignRule, ...]:
    """All design rules, by id."""
    return load("design_rules", DesignRule)


@cache
def design_rule(rule_id: str) -> DesignRule:
    """The design rule of that id.

    Examples
    --------
    >>> design_rule("W10").severity
    'stop'
    """
    rows = {row.id: row for row in design_rules()}
    if rule_id not in rows:
        raise InputError("Design rule", rule_id, f"one of {', '.join(rows)}")
    return rows[rule_id]


@cache
def design_limit(rule_id: str, quantity: str) -> DesignLimit:
    """One limit of a design rule.

    Examples
    --------
    >>> design_limit("B05", "margin_v").value
    0.2
    """
    rows = {(row.rule, row.quantity): row for row in load("design_limits", DesignLimit)}
    if (rule_id, quantity) not in rows:
        known = ", ".join(name for rule, name in rows if rule == rule_id) or "no limit of its own"
        raise InputError(f"Limit of rule {rule_id}", quantity, known)
    return rows[rule_id, quantity]
