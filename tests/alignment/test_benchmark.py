"""The benchmark's own yardstick: drawn records are valid, and the measure gives a true pairing full marks."""

from dataclasses import replace

import pytest

from archdiff.alignment import align
from archdiff.record import Document
from archdiff.record.schema import shape_problems
from benchmarks.measure import judged_alone, judged_pairs, score_of
from benchmarks.products import EASY, HARD, NORMAL, Setting, pair_of


@pytest.mark.parametrize("setting", [EASY, NORMAL, HARD], ids=lambda setting: setting.name)
def test_drawn_records_are_valid_and_the_truth_scores_full_marks(setting: Setting) -> None:
    pair = pair_of(60, setting, 7)
    for data in (pair.left_data, pair.right_data):
        assert shape_problems(Document("drawn.yaml", data), "record") == []
    truth = [((t.left,), (t.right,)) for t in pair.truths if t.left and t.right]
    assert score_of(pair, truth).f1 == 1


def test_a_wrong_pair_costs_precision_and_recall() -> None:
    pair = pair_of(60, NORMAL, 7)
    both = [t for t in pair.truths if t.left and t.right]
    a, b = next((x, y) for x in both for y in both if x.twin != y.twin)
    crossed = [((t.left,), (t.right,)) for t in both if t not in (a, b)]
    crossed += [((a.left,), (b.right,)), ((b.left,), (a.right,))]
    score = score_of(pair, crossed)
    assert score.precision == score.recall == pytest.approx(1 - 2 / len(both))
    assert score_of(pair, crossed[:-2]).precision == 1
    assert score_of(pair, crossed[:-2]).recall == pytest.approx(1 - 2 / len(both))


def test_every_seat_is_judged_once_in_a_pair_or_alone() -> None:
    pair = pair_of(60, HARD, 7)
    alignment = align(*pair.records())
    paired, alone = judged_pairs(pair, alignment), judged_alone(pair, alignment)
    assert len(paired) + len(alone) == len(alignment.pairs)
    # Once each thing is on both sides, nothing is rightly alone.
    pair.truths = [
        replace(t, left=t.left or f"other {t.twin}", right=t.right or f"other {t.twin}") for t in pair.truths
    ]
    assert not any(right for _, right in judged_alone(pair, alignment))
