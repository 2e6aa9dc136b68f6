"""The alignment of six pairs of records against pairings made by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from archdiff.alignment import Verdict
from archdiff.pipeline import check_file, compare_files
from tests.cases.labelled import NAMES, agreement_of, files_of, rows_of, unproven

LEAST = 0.9


def test_there_are_six_cases() -> None:
    assert len(NAMES) == 6


@pytest.mark.parametrize("name", NAMES)
def test_the_records_have_no_fault_and_no_warning(name: str) -> None:
    for file in files_of(name):
        _, problems = check_file(file)
        assert not problems, [str(problem) for problem in problems]


@pytest.mark.parametrize("name", NAMES)
def test_every_row_names_what_is_there_and_every_function_has_a_row(name: str) -> None:
    rows = rows_of(name)
    comparison = compare_files(*files_of(name))
    for side, record in (("left", comparison.left), ("right", comparison.right)):
        named = {element for row in rows for element in getattr(row, side)}
        assert named <= record.elements.keys()
        alone = [row for row in rows if not (row.left and row.right)]
        assert all(row.known_absent is not None for row in alone)
        seats = {name for pair in comparison.pairs for name in pair.ids[side == "right"]}
        assert seats - named <= {e.id for e in record.elements.values() if "purpose not known" in e.functions}


@pytest.mark.parametrize("name", NAMES)
def test_pairs_agree_with_those_made_by_hand(name: str) -> None:
    found = agreement_of(compare_files(*files_of(name)), rows_of(name))
    assert found.precision >= LEAST, (found.precision, "paired, and not by hand:", found.wrong)
    assert found.recall >= LEAST, (found.recall, "paired by hand only:", found.missed)


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_said_to_be_missing_where_the_record_proves_nothing(name: str) -> None:
    assert not unproven(compare_files(*files_of(name)), rows_of(name))


def test_a_wrong_pairing_is_noticed() -> None:
    """With each row's right side handed to the next row, next to nothing may agree."""
    rows = [row for row in rows_of("voice-doorbells") if row.left and row.right]
    turned = [replace(row, right=next_row.right) for row, next_row in zip(rows, [*rows[1:], rows[0]], strict=True)]
    found = agreement_of(compare_files(*files_of("voice-doorbells")), turned)
    assert found.precision < 0.3
    assert found.recall < 0.3


def test_an_unproven_absence_is_noticed() -> None:
    """A verdict that is rightly definite is told as soon as the hand says that nothing proves it."""
    rows = [replace(row, known_absent=False) for row in rows_of("bike-lights") if row.known_absent]
    comparison = compare_files(*files_of("bike-lights"))
    definite = {
        pair.function for pair in comparison.pairs if not pair.is_complete and pair.verdict is not Verdict.UNKNOWN
    }
    expected = [row for row in rows if row.function in definite]
    assert expected
    assert len(unproven(comparison, rows)) >= len(expected)


@pytest.mark.parametrize("name", NAMES)
def test_both_joined_to_names_only_what_both_products_are_known_to_have(name: str) -> None:
    """A reason 'both joined to' speaks of neighbours that are a pair themselves."""
    comparison = compare_files(*files_of(name))
    paired = {seat.function for pair in comparison.pairs if pair.is_complete for seat in pair.seats}
    named = [
        function
        for pair in comparison.pairs
        for reason in pair.reasons
        if reason.text.startswith("both joined to ")
        for function in reason.text.removeprefix("both joined to ").removesuffix(" and others").split(", ")
    ]
    assert named
    assert set(named) <= paired
