"""What may be written on the command line."""

from __future__ import annotations

import argparse
from pathlib import Path

from archdiff import __version__
from archdiff.cli import commands

_ABOUT = """\
Compare two electronic products as found on the bench.

Two YAML records go in, one HTML page comes out: what is the same, what is done differently, what sits elsewhere,
what follows from what, and what could not be seen."""

_CARE = """\
Opening mains or battery products can hurt. archdiff gives no safety or EMC verdict."""


def parser() -> argparse.ArgumentParser:
    """The parser of the whole command line; each command sets `run`."""
    top = argparse.ArgumentParser(
        prog="archdiff",
        description=_ABOUT,
        epilog=_CARE,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    top.add_argument("--version", action="version", version=f"archdiff {__version__}")
    shelf = top.add_subparsers(title="commands", metavar="COMMAND", required=True)
    for add in (_compare, _check, _demo, _figures, _words):
        add(shelf)
    return top


def _command(
    shelf: argparse._SubParsersAction[argparse.ArgumentParser], name: str, about: str, example: str
) -> argparse.ArgumentParser:
    return shelf.add_parser(
        name,
        help=about,
        description=about[0].upper() + about[1:] + ".",
        epilog=f"example:\n  {example}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )


def _compare(shelf: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    example = "archdiff compare vornip-three.yaml mubrel-disc.yaml --notes notes.yaml -o page.html"
    command = _command(shelf, "compare", "compare two records and write the page", example)
    command.add_argument("left", metavar="LEFT", help="record of the product shown on the left")
    command.add_argument("right", metavar="RIGHT", help="record of the product shown on the right")
    command.add_argument("--notes", metavar="FILE", help="the analyst's notes on this pair")
    command.add_argument("-o", "--output", metavar="PAGE.html", type=Path, help="where to write the page")
    for form, shown in (
        ("json", "comparison as JSON"),
        ("markdown", "comparison as Markdown"),
        ("csv", "pairs as CSV"),
    ):
        command.add_argument(f"--{form}", metavar="FILE", type=Path, help=f"also write the {shown}")
    command.add_argument("--figures", metavar="FILE", type=Path, help="also write the figures as CSV")
    command.add_argument(
        "--pictures", metavar="DIR", type=Path, help="also write the drawings into a folder, as SVG and as DOT"
    )
    command.add_argument("--overwrite", action="store_true", help="replace files that archdiff did not write")
    command.set_defaults(run=commands.compare, usage_error=command.error)


def _check(shelf: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(
        shelf,
        "check",
        "check records and notes, and report every fault",
        "archdiff check vornip-three.yaml mubrel-disc.yaml",
    )
    command.add_argument(
        "records", metavar="RECORD", nargs="+", help="a record file, or notes that name their two records"
    )
    command.set_defaults(run=commands.check)


def _demo(shelf: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(shelf, "demo", "write the example records and their comparisons", "archdiff demo -o demo")
    command.add_argument(
        "-o",
        "--output",
        metavar="DIR",
        type=Path,
        default=Path("archdiff-demo"),
        help="folder to write to (default: archdiff-demo)",
    )
    command.set_defaults(run=commands.demo)


def _figures(shelf: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(shelf, "figures", "list the figures with their meaning, formula and source", "archdiff figures")
    command.add_argument("--list", action="store_true", help="only ids, units and titles, one line a figure")
    command.set_defaults(run=commands.list_figures)


def _words(shelf: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(
        shelf, "words", "list the vocabulary, or what it knows of a word", "archdiff words 'push button'"
    )
    command.add_argument("word", metavar="WORD", nargs="?", help="a function, a means, or a synonym of one")
    command.set_defaults(run=commands.list_words)
