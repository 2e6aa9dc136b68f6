"""Poorer records never say what the whole records deny.

Whole records, invented and of the examples, lose facts at random with their coverage marked; every verdict, figure,
headline and tile of the comparison is held against the comparison of the whole records. The yardstick is the whole
records' own data and logic alone: what is not known may be anything, so what is said must leave the truth open.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import pytest

from archdiff.rules import check_record
from tests.ablation.cutting import Cut, cut_back
from tests.ablation.judging import judge
from tests.ablation.known import KNOWN, sorted_out
from tests.ablation.trying import EXAMPLES, Case, cases_of, compared, fewest, record_from, whole_pair

if TYPE_CHECKING:
    from collections.abc import Iterator


PAIRS = 100  # of 10 cases in two depths each
LEAST = 2000  # cut cases in one run
# Each kind must have been met this often, so that none is held by never being tried.
MET = {
    "only in": 3000, "separate part only in": 1000, "means agree or differ": 5000, "place same or different": 3000,
    "facts differ": 1000, "a separate part is one": 1000, "counts differ": 100, "figure bounds": 50_000, "figure outcomes": 10_000, "ratios": 10_000,
    "headlines": 5000, "ghost tiles": 2000, "ghost boards": 100, "bounds widen with knowledge": 20_000,
    "partition figures, same pairs": 500, "stages only in": 300, "stages agree or differ": 2000, "stage numbers differ": 1000,
    "paths only in": 200,
}  # fmt: skip

OF_PATHS = {"stages only in": 80, "stages agree or differ": 800, "stage numbers differ": 400, "paths only in": 40}


class Run:
    """All cases of one run, with what was wrong in each."""

    def __init__(self, cases: Iterator[Case]) -> None:
        self.cases, self.checked = 0, Counter[str]()
        self.fresh: list[tuple[Case, str, str]] = []
        self.known: dict[str, list[str]] = {known.name: [] for known in KNOWN}
        for case in cases:
            self.cases += 1
            self.checked += case.found.checked
            fresh, known = sorted_out(case.found.wrong)
            self.fresh += [(case, kind, said) for kind, said in fresh]
            for name, told in known.items():
                self.known[name] += [f"{case.name}: {said}" for said in told]


@pytest.fixture(scope="module")
def run() -> Run:
    invented = [case for number in range(PAIRS) for case in cases_of(str(number))]
    return Run(iter([*invented, *(case for name in EXAMPLES for case in cases_of(name, 4))]))


def test_enough_was_tried(run: Run) -> None:
    assert run.cases >= LEAST
    assert {kind: run.checked[kind] for kind in MET if run.checked[kind] < MET[kind]} == {}


def test_no_statement_is_contradicted_by_the_whole_records(run: Run) -> None:
    told = []
    for kind in dict.fromkeys(kind for _, kind, _ in run.fresh):
        wrong = [(case, said) for case, k, said in run.fresh if k == kind]
        case, said = min(wrong, key=lambda found: sum(map(len, found[0].cuts)))
        cuts, least = fewest(case, kind) if "widen" not in kind else (case.cuts, said)
        sides = [", ".join(map(str, some)) or "nothing" for some in cuts]
        told.append(
            f"{kind}, {len(wrong)} times, as in case {case.name!r}: cut left: {sides[0]}; right: {sides[1]}: {least}"
        )
    assert not told, "\n".join([*told, "again: python -m benchmarks.ablation --case <name before the blank>"])


def test_a_function_inside_a_part_may_be_unlisted() -> None:
    run = Run(case for number in range(1000, 1008) for case in cases_of(str(number), unmarked=True))
    assert not run.fresh, [(case.name, kind, said) for case, kind, said in run.fresh][:3]


def test_no_statement_of_paths_is_contradicted_where_single_stages_were_not_listed() -> None:
    """Enough statements of paths are held, on the pairs where single stages are cut most often."""
    checked: Counter[str] = Counter()
    wrong = []
    for name, most in [*((str(number), 6) for number in range(30)), *((name, 6) for name in EXAMPLES)]:
        for case in cases_of(name, most, stages=True):
            checked += case.found.checked
            wrong += [(case.name, kind, said) for kind, said in case.found.wrong if kind in OF_PATHS]
    assert not wrong, wrong[:5]
    assert {kind: checked[kind] for kind, least in OF_PATHS.items() if checked[kind] < least} == {}


def test_a_dishonest_cut_is_caught() -> None:
    """Facts cut while the coverage goes on saying 'whole' must be found out, or nothing here means anything."""
    kinds: Counter[str] = Counter()
    for number in range(12):
        data = whole_pair(str(number))
        whole = compared(data, ([], []))
        for section in ("sensors", "controls", "actuators", "indicators"):
            for name in data[1].get(section, {}):
                poorer = cut_back(data[1], [Cut("gone", section, name)])
                poorer["coverage"] = dict(data[1]["coverage"])
                cut = compared((data[0], poorer), ([], []))
                kinds += Counter(kind for kind, _ in judge(cut, whole).wrong)
    for kind in ("only in", "figure bounds", "figure outcomes", "ratios", "headlines", "ghost tiles"):
        assert kinds[kind], kind


def test_a_stage_cut_without_a_mark_is_caught() -> None:
    """A stage or a path that is gone while the coverage says 'whole' must be found out as well."""
    kinds: Counter[str] = Counter()
    for number in range(30):
        data = whole_pair(str(number))
        whole = compared(data, ([], []))
        for name, path in data[1].get("paths", {}).items():
            gone = [Cut("stage", "paths", name, str(index)) for index in range(len(path["through"]))]
            for cuts in (*([cut] for cut in gone), [Cut("gone", "paths", name)]):
                poorer = cut_back(data[1], cuts)
                poorer["coverage"] = dict(data[1]["coverage"])
                kinds += Counter(kind for kind, _ in judge(compared((data[0], poorer), ([], [])), whole).wrong)
    assert kinds["stages only in"]
    assert kinds["paths only in"]


def test_a_changed_fact_is_caught() -> None:
    """A means, a place or a size that differs from the whole record's must be found out too."""
    kinds: Counter[str] = Counter()
    for number in range(25):
        data = whole_pair(str(number))
        whole = compared(data, ([], []))
        changed = cut_back(data[0], [])
        for name, facts in changed["parts"].items():
            facts["means"] = "serial flash"
            facts["on"] = min(changed["boards"])
            facts["size"] = f"{9 + len(name)} x 9 mm"
        kinds += Counter(kind for kind, _ in judge(compared((changed, data[1]), ([], [])), whole).wrong)
    assert kinds["means agree or differ"]
    assert kinds["place same or different"]


def test_what_is_left_after_cuts_is_a_record_without_faults() -> None:
    """Only honest records count: a cut must not leave what the rules call a fault."""
    faulty = []
    for number in range(20):
        for case in cases_of(str(number), 2):
            for data, cuts in zip(case.data, case.cuts, strict=True):
                found = check_record(record_from(cut_back(data, cuts)))
                faulty += [(case.name, str(p)) for p in found if p.severity.value == "fault"]
    assert not faulty, faulty[:5]
