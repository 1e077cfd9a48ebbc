"""Design rules: what a study breaks, how grave that is, by whose rule, and what would cure it."""

from rigcalc.rules.check import RULES, findings
from rigcalc.rules.finding import SEVERITIES, Finding, Remedy
from rigcalc.rules.remedy import remedy

__all__ = ["RULES", "SEVERITIES", "Finding", "Remedy", "findings", "remedy"]
