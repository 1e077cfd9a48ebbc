"""Formulas: plain maths, one function a formula or clause, plain floats with the unit in the name.

No formula reads a table: published figures come in as arguments. Nothing is clamped or
guessed; an input that cannot be used raises `rigcalc.errors.InputError`.
"""
