"""The formulas.

Law of this package: plain functions of floats, with the unit in each name and a source behind
each coefficient. It imports nothing of ours outside itself and knows no farm, no file and no
clock. Outside the published range a function raises `ValueError` and names the range; it never
extrapolates.
"""
