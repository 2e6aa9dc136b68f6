"""Paths of heat, sound, light, air, radio, touch and force: which go together, and how they fare stage by stage."""

from archdiff.paths.ends import End, Spot
from archdiff.paths.model import Amount, Column, Finding, PathPair, Question
from archdiff.paths.pairing import compare_paths
from archdiff.paths.points import STATED, Points
from archdiff.paths.stages import AMOUNTS, Stage, stages_of

__all__ = [
    "AMOUNTS",
    "STATED",
    "Amount",
    "Column",
    "End",
    "Finding",
    "PathPair",
    "Points",
    "Question",
    "Spot",
    "Stage",
    "compare_paths",
    "stages_of",
]
