"""Every fenced block of the guides is used as a reader would: records are checked, commands and programs are run."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path
from typing import NamedTuple

import pytest

from archdiff.cli import main
from archdiff.cli.arguments import parser
from archdiff.pipeline import check_input, compare_files

TOP = Path(__file__).parents[2]
GUIDES = [
    *(TOP / name for name in ("README.md", "DEVELOPERS.md")),
    *sorted((TOP / "site" / "pages").glob("*.md")),
    *sorted((TOP / "examples").glob("*/README.md")),
]
# What may stand in a block, by its language tag; one without a tag is shown and not meant to be used.
LANGUAGES = ("", "sh", "python", "yaml", "yaml notes")
# Blocks of notes leave out the head, which every notes file has.
NOTES_HEAD = "archdiff_notes: 1\nleft: left.yaml\nright: right.yaml\n"


class Block(NamedTuple):
    guide: Path
    line: int
    language: str
    text: str


def _blocks(guide: Path) -> list[Block]:
    text = guide.read_text("utf-8")
    found = re.finditer(r"^```([^\n]*)\n(.*?)^```$", text, re.DOTALL | re.MULTILINE)
    return [Block(guide, text.count("\n", 0, match.start()) + 1, match[1].strip(), match[2]) for match in found]


BLOCKS = [block for guide in GUIDES for block in _blocks(guide)]


def _of(*languages: str) -> list[object]:
    chosen = [block for block in BLOCKS if block.language in languages]
    assert chosen
    return [pytest.param(block, id=f"{block.guide.relative_to(TOP)}:{block.line}") for block in chosen]


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder to work in, with the files that the guides speak of: a pair, its notes, and the first record."""
    example = TOP / "examples" / "bike-lights"
    shutil.copy(example / "gloffin-ember.yaml", tmp_path / "left.yaml")
    shutil.copy(example / "plinsk-wink.yaml", tmp_path / "right.yaml")
    shutil.copytree(example / "sketches", tmp_path / "sketches")
    notes = (example / "notes.yaml").read_text("utf-8")
    notes = notes.replace("gloffin-ember.yaml", "left.yaml").replace("plinsk-wink.yaml", "right.yaml")
    (tmp_path / "notes.yaml").write_text(notes, "utf-8")
    first = next(block for block in BLOCKS if block.language == "yaml")
    (tmp_path / "lumo-stick.yaml").write_text(first.text, "utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_every_block_says_what_it_is() -> None:
    assert {block.language for block in BLOCKS} <= set(LANGUAGES)


@pytest.mark.parametrize("block", _of("yaml"))
def test_a_record_pasted_from_a_guide_has_no_faults_and_no_warnings(block: Block, tmp_path: Path) -> None:
    (tmp_path / "pasted.yaml").write_text(block.text, "utf-8")
    assert check_input(tmp_path / "pasted.yaml") == []


@pytest.mark.parametrize("block", _of("yaml notes"))
def test_notes_pasted_from_a_guide_fit_a_pair_of_records(block: Block, desk: Path) -> None:
    (desk / "pasted.yaml").write_text(NOTES_HEAD + block.text, "utf-8")
    comparison = compare_files("left.yaml", "right.yaml", "pasted.yaml")
    assert "{" not in "".join(comment.text for comment in comparison.notes.comments)


@pytest.mark.parametrize("block", _of("sh"))
@pytest.mark.usefixtures("desk")
def test_commands_of_a_guide_work_as_they_stand(block: Block, capsys: pytest.CaptureFixture[str]) -> None:
    targets = re.findall(r"^([a-z]+):", (TOP / "Makefile").read_text("utf-8"), re.MULTILINE)
    for line in filter(None, block.text.splitlines()):
        program, *words = shlex.split(line, comments=True)
        if program == "make":
            assert set(words) <= set(targets), line
        elif program == "archdiff":
            parser().parse_args(words)
            assert main(words) == 0, (line, capsys.readouterr())
        else:
            assert (program, *words) == ("pip", "install", "."), line


@pytest.mark.parametrize("block", _of("python"))
@pytest.mark.usefixtures("desk")
def test_programs_of_a_guide_run(block: Block) -> None:
    exec(compile(block.text, f"{block.guide}:{block.line}", "exec"), {})  # noqa: S102 - our own guides
