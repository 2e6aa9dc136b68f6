"""What each command does. Stages are imported where they are used: `--help` needs none of them."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from archdiff.collector import collector_held
from archdiff.files import write_all
from archdiff.problems import EnvironmentTroubleError, Severity, faults

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from archdiff.comparison import Comparison

_FORMS = ("json", "markdown", "csv", "figures")


def compare(arguments: Namespace) -> int:
    """Compare two records; write the page and whatever else was asked for, all or nothing."""
    wanted = {form: path for form in _FORMS if (path := getattr(arguments, form)) is not None}
    if arguments.output is None and arguments.pictures is None and not wanted:
        arguments.usage_error("say where to write: -o PAGE.html, --json FILE, --pictures DIR ...")
    _all_different([arguments.output, *wanted.values()])
    from archdiff.pipeline import compare_files

    say = _progress()
    with collector_held():
        comparison = compare_files(arguments.left, arguments.right, arguments.notes, say)
        say("writing")
        texts = {path: _export(comparison, form) for form, path in wanted.items()}
        if arguments.output is not None:
            texts[arguments.output] = _page(comparison)
        if arguments.pictures is not None:
            texts |= {arguments.pictures / name: text for name, text in _pictures(comparison).items()}
    inputs = [file for file in (arguments.left, arguments.right, arguments.notes) if file]
    write_all(texts, inputs, overwrite=arguments.overwrite)
    say("")
    for problem in comparison.warnings:
        print(problem, file=sys.stderr)
    for path in texts:
        print(path)
    return 0


def check(arguments: Namespace) -> int:
    """Check records and notes; 1 where any has a fault."""
    from archdiff.pipeline import check_input

    found = {file: check_input(file) for file in dict.fromkeys(arguments.records)}
    for file, problems in found.items():
        for problem in problems:
            print(problem)
        warnings = sum(problem.severity is Severity.WARNING for problem in problems)
        print(f"{file}: {_many(len(problems) - warnings, 'fault')}, {_many(warnings, 'warning')}")
    return 1 if any(faults(problems) for problems in found.values()) else 0


def demo(arguments: Namespace) -> int:
    """Copy the examples to a folder of the user's and compare each pair there."""
    from archdiff.cli.examples import copy_examples
    from archdiff.pipeline import compare_files

    say = _progress()
    pages: list[Path] = []
    for example in copy_examples(arguments.output):
        say(example.folder.name)
        comparison = compare_files(example.left, example.right, example.notes)
        page = arguments.output / f"{example.folder.name}.html"
        inputs = [example.left, example.right, example.notes]
        write_all({page: _page(comparison), page.with_suffix(".json"): _export(comparison, "json")}, inputs)
        pages.append(page)
    say("")
    for page in pages:
        print(page)
    return 0


def list_figures(arguments: Namespace) -> int:
    """Every figure with what a reader may ask of it, or one line each."""
    from archdiff.figures import all_figures

    if arguments.list:
        for figure in all_figures():
            print(f"{figure.id}\t{figure.unit}\t{figure.title}")
        return 0
    family = ""
    for figure in all_figures():
        if figure.family != family:
            family = figure.family
            print(f"{family}\n{'=' * len(family)}")
        unit = f" [{figure.unit}]" if figure.unit else ""
        print(f"{figure.id}{unit}: {figure.meaning}\n    formula: {figure.formula}\n    source: {figure.source}")
        if figure.preferred:
            print(f"    usually wanted: {figure.preferred}")
    return 0


def list_words(arguments: Namespace) -> int:
    """The vocabulary, or the entries for one word."""
    from archdiff.vocabulary import load_vocabulary

    vocabulary = load_vocabulary()
    functions, means = list(vocabulary.functions.values()), list(vocabulary.means.values())
    if arguments.word:
        functions = [term for term in (vocabulary.function(arguments.word),) if term]
        means = [term for term in (vocabulary.means_term(arguments.word),) if term]
    if not functions and not means:
        near = [*vocabulary.near_functions(arguments.word), *vocabulary.near_means(arguments.word)]
        hint = f"; near to it: {', '.join(dict.fromkeys(near))}" if near else ""
        raise EnvironmentTroubleError(f"the vocabulary does not know '{arguments.word}'{hint}")
    for kind, terms in (("function", functions), ("means", means)):
        for term in terms:
            also = f" (also: {', '.join(term.synonyms)})" if term.synonyms else ""
            print(f"{kind} {term.name}: {term.meaning}{also}")
    return 0


def _pictures(comparison: Comparison) -> Mapping[str, str]:
    from archdiff.page.leaves import leaves

    return leaves(comparison)


def _page(comparison: Comparison) -> str:
    from archdiff.page import render_page

    return render_page(comparison)


def _export(comparison: Comparison, form: str) -> str:
    from archdiff.exports import export

    return export(comparison, form)


def _all_different(paths: list[Path | None]) -> None:
    named = [path.resolve() for path in paths if path is not None]
    if len(set(named)) < len(named):
        raise EnvironmentTroubleError("two outputs have the same file name")


def _progress() -> Callable[[str], None]:
    """A way to say what is being done, on one line of the terminal; silent where nobody watches."""
    if not sys.stderr.isatty():
        return lambda _: None
    return lambda stage: print(f"\r\x1b[K{stage}", end="", file=sys.stderr, flush=True)


def _many(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"
