"""A small comparison made by hand, so that the page is tested apart from the stages before it."""

from __future__ import annotations

import struct
import zlib
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from archdiff.alignment import (
    Agreement,
    Alignment,
    Change,
    HostPair,
    Move,
    Pair,
    Partition,
    Reason,
    RunnerUp,
    Seat,
    Verdict,
)
from archdiff.comparison import Comparison
from archdiff.figures.figure import Figure, FigureResult, Measure
from archdiff.headlines import Headline
from archdiff.knockons import Chain, Link
from archdiff.notes import Comment, Notes
from archdiff.paths import compare_paths
from archdiff.quantities import Bounds
from archdiff.record.build import build_record
from archdiff.record.silence import Silence, Silent
from archdiff.record.text import parse_text
from archdiff.unknowns import LookAt, Unknown

if TYPE_CHECKING:
    from collections.abc import Callable

    from archdiff.record import Record

RECORDS = Path(__file__).parent / "records"
SAME, DIFFERENT, UNKNOWN = Agreement.SAME, Agreement.DIFFERENT, Agreement.UNKNOWN
NOT_LOOKED_AT = Silent(Silence.NOT_LOOKED_AT, "parts looked at only in part")


def record_of(text: str, file: str) -> Record:
    document = parse_text(text, file)
    assert not document.problems
    record, problems = build_record(document)
    assert not problems, problems
    return record


def tiny_png() -> bytes:
    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", 2, 2, 8, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\0\0\0" * 2)) + chunk(b"IEND", b"")
    )


@pytest.fixture
def records(tmp_path: Path) -> tuple[Record, Record]:
    (tmp_path / "main.png").write_bytes(tiny_png())
    texts = [(RECORDS / name).read_text("utf-8") for name in ("veska-one.yaml", "orlim-two.yaml")]
    left, right = (
        record_of(text, str(tmp_path / f"{side}.yaml")) for text, side in zip(texts, ("l", "r"), strict=True)
    )
    return left, right


def seat(record: Record, *ids: str, function: str = "", inside: str = "") -> Seat:
    members = tuple(record.elements[name] for name in ids)
    means = "" if inside else members[0].means
    return Seat(function or members[0].function, members, means, members[0].hosts, inside)


def figures() -> tuple[FigureResult, ...]:
    def of_product(_: Record) -> Measure:
        return Measure(None)

    def figure(name: str, unit: str, family: str) -> Figure:
        return Figure(
            name, name.capitalize(), unit, family, 1, f"Says {name}.", "a + b", "own counting", "", of_product
        )

    exact, range_, least = Bounds.exact(3200.0), Bounds(2800.0, 2700.0, 2900.0), Bounds.at_least(118)
    return (
        FigureResult(
            figure("board area", "mm²", "boards"),
            Measure(exact, ("main: outline",), how="60 x 40 + 40 x 20", parts={"Main board": Bounds.exact(2400.0)}),
            Measure(range_, ("core: outline",)),
        ),
        FigureResult(figure("placements", "", "boards"), Measure(least, (), ("front: placements",)), Measure(None)),
        FigureResult(figure("shared functions", "", "partition"), pair=Measure(Bounds.exact(4.0))),
    )


def pairs_of(left: Record, right: Record) -> tuple[Pair, ...]:
    none_there = Silent(Silence.NOT_THERE, "looked for and not found: the cell feeds everything", "inferred")
    inside = Silent(Silence.NO_SEPARATE_PART, "all power entry were looked at and no part of its own was found")
    return (
        Pair(
            seat(left, "U1"), seat(right, "IC1"), "host processing", "compute", Verdict.DIFFERENT, DIFFERENT, SAME, 4.2, 0.99,
            (Reason("function agrees", 3.0), Reason("pins differ", -0.4)), RunnerUp("U2", "IC1", 1.0, 3.2),
            (Change("pins", "32", "48"),), sure="read",
        ),
        Pair(
            seat(left, "U2"), seat(right, "IC1", function="program storage", inside="IC1"), "program storage", "memory",
            Verdict.DIFFERENT, DIFFERENT, SAME, 3.0, 0.7,
        ),
        Pair(
            seat(left, "up"), seat(right, "pad"), "brightness adjustment", "user input", Verdict.BOTH, DIFFERENT, DIFFERENT,
            2.0, 0.9,
        ),
        Pair(seat(left, "led"), seat(right, "ring"), "illumination", "user output", Verdict.ALIKE, SAME, SAME, 5.0, 0.99),
        Pair(
            seat(left, "U3"), None, "voltage conversion", "power", Verdict.ONLY_LEFT, UNKNOWN, UNKNOWN, silent=none_there
        ),
        Pair(
            seat(left, "inlet"), None, "power entry", "power", Verdict.SEPARATE_LEFT, UNKNOWN, UNKNOWN, silent=inside
        ),
        Pair(
            None, seat(right, "cell"), "energy storage", "power", Verdict.ONLY_RIGHT, UNKNOWN, UNKNOWN,
            silent=Silent(Silence.NOT_THERE, "all power storage were looked at and none was found"),
        ),
        Pair(seat(left, "shell"), seat(right, "can"), "housing", "structure", Verdict.UNKNOWN, UNKNOWN, UNKNOWN, 1.0, 0.6),
        Pair(seat(left, "ribbon"), None, "board joining", "structure", Verdict.UNKNOWN, UNKNOWN, UNKNOWN, silent=NOT_LOOKED_AT),
        Pair(seat(left, "s1"), None, "fastening", "opening", Verdict.UNKNOWN, UNKNOWN, UNKNOWN, silent=NOT_LOOKED_AT),
    )  # fmt: skip


def partition_by_hand(pairs: tuple[Pair, ...]) -> Partition:
    table = {("main", "core"): (pairs[0], pairs[1], pairs[3]), ("front", "core"): (pairs[2],)}
    move = Move((pairs[2],), "front", "core", "move brightness adjustment from the Key board to the Core board")
    return Partition(("main", "front"), ("core",), table, {"main": "core"}, 1, (move,), 0.25, ())


def notes() -> Notes:
    return Notes(
        title="Two ways to light a bed", headline="One team spent on **boards**.", by="L. Arden", date="2026-02-05",
        comments=(
            Comment("Keys want a board of their own.", on="partition"),
            Comment("Comment on a subsystem.", on="user input"),
            Comment("Comment on a part.", left="U1"),
            Comment("Comment on a board.", left="front"),
            Comment("Comment on the whole."),
        ),
    )  # fmt: skip


@pytest.fixture
def make(records: tuple[Record, Record]) -> Callable[..., Comparison]:
    """A comparison by hand; any field may be given another value."""
    left, right = records

    def made(**changes: object) -> Comparison:
        pairs = pairs_of(left, right)
        hosts = (
            HostPair("main", "core", is_board=True, shared=3),
            HostPair("front", None, is_board=True, silent=Silent(Silence.NOT_THERE, "all boards were looked at and none was found")),
            HostPair("shell", "can", is_board=False),
        )  # fmt: skip
        values: dict[str, object] = {
            "left": left,
            "right": right,
            "notes": notes(),
            "alignment": Alignment(pairs, hosts, (), {"main": "core", "shell": "can"}),
            "paths": compare_paths(left, right, Alignment(pairs, hosts, (), {"main": "core", "shell": "can"}), Notes()),
            "partition": partition_by_hand(pairs),
            "figures": figures(),
            "chains": (
                Chain(
                    "keys on a board of their own",
                    (Link("Ribbon", "joins it to the rest", "seen", "ribbon"),),
                    analyst=False,
                    side="left",
                ),
            ),
            "unknowns": (Unknown("right", "joints", "not looked at", ("fastening",)),),
            "to_confirm": (),
            "look_at": (LookAt("right", "joints", "screws and clips", 3, ("fastening",)),),
            "headlines": (
                Headline(
                    "Brightness adjustment: tactile switch in Veska One, capacitive touch in Orlim Two.",
                    "seen",
                    3,
                    pairs[2],
                ),
                Headline("Veska One has more board.", "measured", 2, figure="board area"),
                Headline("One function sits elsewhere.", "inferred", 1, section="partition"),
            ),
        }
        return Comparison(**(values | changes))  # type: ignore[arg-type]

    return made


@pytest.fixture
def comparison(make: Callable[..., Comparison]) -> Comparison:
    return make()
