"""Numerical engines: plain sequences in, plain sequences out."""
