"""Figures: every number that archdiff computes, with bounds, inputs, method and source."""

from archdiff.figures.figure import Figure, FigureResult, Measure, Outcome, PairView
from archdiff.figures.shelf import Family, all_figures, compute_figures, families

__all__ = [
    "Family",
    "Figure",
    "FigureResult",
    "Measure",
    "Outcome",
    "PairView",
    "all_figures",
    "compute_figures",
    "families",
]
