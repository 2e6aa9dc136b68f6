"""Ten thousand pairs of records with facts cut out: how many statements were checked, and how many were wrong.

Run with `python -m benchmarks.ablation [cases]` from the top of the checkout. One case by its name, as the test
prints it: `python -m benchmarks.ablation --case 17/3`.
"""

from __future__ import annotations

import argparse
import itertools
from collections import Counter

from tests.ablation.known import sorted_out
from tests.ablation.trying import Case, cases_of, fewest

CASES = 10_000
FIRST = 5000  # the test runs the seeds below


def main() -> None:
    """Print the table of statements, or one case in full."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("cases", nargs="?", type=int, default=CASES)
    parser.add_argument("--case", help="one case by its name, such as 17/3 or bike-lights/0")
    given = parser.parse_args()
    if given.case:
        _one(given.case)
    else:
        _many(given.cases)


def _many(cases: int) -> None:
    checked, fresh, known, first = Counter[str](), Counter[str](), Counter[str](), dict[str, str]()
    every = (case for number in itertools.count(FIRST) for case in cases_of(str(number)))
    for case in itertools.islice(every, cases):
        checked += case.found.checked
        new, told = sorted_out(case.found.wrong)
        fresh += Counter(kind for kind, _ in new)
        known += Counter({name: len(said) for name, said in told.items()})
        for kind, said in new:
            first.setdefault(kind, f"{case.name}: {said}")
    print("| statement | checked | contradicted |\n|---|---|---|")
    for kind, count in sorted(checked.items()):
        print(f"| {kind} | {count} | {fresh[kind]} |")
    print(f"| all | {checked.total()} | {fresh.total()} |")
    for name, count in known.items():
        print(f"known: {name}: {count}")
    for kind, said in first.items():
        print(f"first of {kind}: {said}")


def _one(name: str) -> None:
    pair, number = name.split(maxsplit=1)[0].rsplit("/", 1)
    for case in cases_of(pair, int(number) + 1):
        if case.name.split()[0] == f"{pair}/{number}":
            _tell(case)


def _tell(case: Case) -> None:
    print(case.name, [[str(cut) for cut in cuts] for cuts in case.cuts])
    for kind, said in case.found.wrong:
        print("  ", kind, "|", said)
    for kind in dict.fromkeys(kind for kind, _ in case.found.wrong if "widen" not in kind):
        cuts, said = fewest(case, kind)
        print("   fewest cuts:", kind, "|", [[str(cut) for cut in some] for some in cuts], said)


if __name__ == "__main__":
    main()
