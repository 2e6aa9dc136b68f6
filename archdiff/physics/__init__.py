"""Formulas of physics, one module a field: plain numbers in, plain numbers out, in the units that each one states.

No record, no bounds, no constants of their own: constants come from `tables`, bounds are carried through by the
figures (`quantities.across`).
"""
