"""Loads, batteries, conductors and overcurrent protection of small off-grid DC systems.

`rigcalc.model` holds a rig as data, `rigcalc.study.study` computes everything from it and
`rigcalc.rules.findings` says what is wrong. Importing this package loads none of them.
"""

__version__ = "0.1.0"
CAUTION = "A calculation is not an inspection. Local codes come first; mains wiring belongs to a licensed electrician."
