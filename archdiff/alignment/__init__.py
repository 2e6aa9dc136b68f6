"""Alignment: which thing in one product does the job of which thing in the other, and why."""

from archdiff.alignment.aligner import align
from archdiff.alignment.model import (
    Agreement,
    Alignment,
    Change,
    HostGroup,
    HostPair,
    Pair,
    Reason,
    RunnerUp,
    Seat,
    Verdict,
)
from archdiff.alignment.partition import Move, Partition, partition_of
from archdiff.alignment.silence import Counts

__all__ = [
    "Agreement",
    "Alignment",
    "Change",
    "Counts",
    "HostGroup",
    "HostPair",
    "Move",
    "Pair",
    "Partition",
    "Reason",
    "RunnerUp",
    "Seat",
    "Verdict",
    "align",
    "partition_of",
]
