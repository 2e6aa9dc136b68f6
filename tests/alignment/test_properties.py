"""What must hold for any two records."""

from collections import Counter
from typing import Any

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from archdiff.alignment import Agreement, Alignment, Verdict, align, partition_of
from archdiff.alignment.seats import content
from archdiff.notes import Match, Notes
from archdiff.record import UNKNOWN_PURPOSE
from tests.alignment.strategies import FUNCTIONS, element_ids, products, record_from, renamed, reordered

MIRRORED = {
    Verdict.ONLY_LEFT: Verdict.ONLY_RIGHT,
    Verdict.ONLY_RIGHT: Verdict.ONLY_LEFT,
    Verdict.SEPARATE_LEFT: Verdict.SEPARATE_RIGHT,
    Verdict.SEPARATE_RIGHT: Verdict.SEPARATE_LEFT,
}
ALONE = set(MIRRORED)
Said = tuple[Any, ...]
calm = settings(deadline=None, max_examples=60)


def said(alignment: Alignment) -> Counter[Said]:
    """Everything an alignment states."""
    return Counter(
        (
            *p.ids,
            p.function,
            p.verdict,
            p.means,
            p.place,
            p.score,
            p.sure,
            p.tied,
            round(p.confidence, 9),
            tuple(c.what for c in p.changes),
            p.silent and p.silent.silence,
            tuple(sorted(round(r.weight, 9) for r in p.reasons)),
        )
        for p in alignment.pairs
    )


def turned(statements: Counter[Said]) -> Counter[Said]:
    """The same statements with the sides exchanged."""
    return Counter({(y, x, f, MIRRORED.get(v, v), *rest): n for (x, y, f, v, *rest), n in statements.items()})


def hosts(alignment: Alignment) -> set[tuple[str | None, str | None, int]]:
    return {(host.left, host.right, host.shared) for host in alignment.hosts}


@calm
@given(products(), products())
def test_swapping_sides_mirrors_everything(a: dict[str, Any], b: dict[str, Any]) -> None:
    left, right = record_from(a), record_from(b)
    there, back = align(left, right), align(right, left)
    assert said(there) == turned(said(back))
    assert [p.function for p in there.pairs] == [p.function for p in back.pairs]
    assert hosts(there) == {(b, a, n) for a, b, n in hosts(back)}
    assert there.host_of == {b: a for a, b in back.host_of.items()}
    assert {(g.left, g.right) for g in there.groups} == {(g.right, g.left) for g in back.groups}


@calm
@given(products(), products(), st.data())
def test_swapping_sides_mirrors_what_notes_order(a: dict[str, Any], b: dict[str, Any], data: st.DataObject) -> None:
    notes = data.draw(some_notes(a, b))
    left, right = record_from(a), record_from(b)
    assert said(align(left, right, notes)) == turned(said(align(right, left, notes.mirrored())))


@st.composite
def some_notes(draw: st.DrawFn, a: dict[str, Any], b: dict[str, Any]) -> Notes:
    left = draw(st.permutations(parts_of(a)))
    right = draw(st.permutations(parts_of(b)))
    assume(len(left) > 2 and len(right) > 2)
    return Notes(
        tie=(Match((left[0],), (right[0],)),),
        never=(Match((left[1],), (right[1],)),),
        ignore_left=frozenset(left[2:3]),
        ignore_right=frozenset(right[2:3]),
        same_board=(Match((draw(st.sampled_from(list(a["boards"]))),), (draw(st.sampled_from(list(b["boards"]))),)),),
    )


def parts_of(data: dict[str, Any]) -> list[str]:
    return [name for section in FUNCTIONS for name in data.get(section, {})]


@calm
@given(products(), products(), st.data())
def test_orders_of_the_notes_hold(a: dict[str, Any], b: dict[str, Any], data: st.DataObject) -> None:
    notes = data.draw(some_notes(a, b))
    found = align(record_from(a), record_from(b), notes)
    together = {(x, y) for p in found.pairs for x in p.ids[0] for y in p.ids[1]}
    tied, never, board = notes.tie[0], notes.never[0], notes.same_board[0]
    assert (tied.left[0], tied.right[0]) in together
    assert any(p.tied and p.confidence == 1 for p in found.pairs)
    assert (never.left[0], never.right[0]) not in together
    assert found.host_of[board.left[0]] == board.right[0]
    named = [p.ids for p in found.pairs]
    assert not any(notes.ignore_left & set(x) or notes.ignore_right & set(y) for x, y in named)


@calm
@given(products(), products(), st.permutations(range(7)))
def test_ids_do_not_matter(a: dict[str, Any], b: dict[str, Any], order: list[int]) -> None:
    names = {name: f"x{order[k % 7]}_{k}" for k, name in enumerate(element_ids(a))}
    plain = said(align(record_from(a), record_from(b)))
    changed = said(align(record_from(renamed(a, names)), record_from(b)))
    assert Counter({(tuple(names[i] for i in x), *rest): n for (x, *rest), n in plain.items()}) == changed


@calm
@given(products(), products())
def test_names_and_markings_do_not_matter(a: dict[str, Any], b: dict[str, Any]) -> None:
    plain = said(align(record_from(a), record_from(b)))
    for section in FUNCTIONS:
        for number, entry in enumerate(a.get(section, {}).values()):
            entry |= {"name": f"Thing {number}", "marking": "ZQ 4", "maker": "Quastelby"}
    a["product"] = {"name": "Another name", "maker": "Tarvo"}
    assert said(align(record_from(a), record_from(b))) == plain


@calm
@given(products(), products(), st.permutations(range(7)))
def test_order_of_the_file_does_not_matter(a: dict[str, Any], b: dict[str, Any], order: list[int]) -> None:
    """Interchangeable things may change places: seats are compared by what they are, not by their ids."""
    right = record_from(b)

    def outcome(data: dict[str, Any]) -> Counter[Said]:
        alignment = align(record_from(data), right)
        return Counter(
            (
                p.left and (content(p.left.first), p.left.function, p.left.count, len(p.left.hosts)),
                p.right and (content(p.right.first), p.right.function, p.right.count),
                p.function, p.verdict, p.means, p.place, round(p.score, 4),
            )
            for p in alignment.pairs
        )  # fmt: skip

    assert outcome(a) == outcome(reordered(a, order))


@calm
@given(products("whole"))
def test_a_record_and_itself_are_alike(a: dict[str, Any]) -> None:
    left, right = record_from(a), record_from(a)
    found = align(left, right)
    assert all(p.is_complete or p.function == UNKNOWN_PURPOSE for p in found.pairs)
    assert {p.verdict for p in found.pairs} <= {Verdict.ALIKE, Verdict.UNKNOWN}
    for p in found.pairs:
        known = p.means is Agreement.SAME and p.place is Agreement.SAME
        purpose = p.function != UNKNOWN_PURPOSE
        assert (p.verdict is Verdict.ALIKE) == (known and purpose)
        assert not p.changes
    partition = partition_of(found, left, right)
    assert partition.distance == 0
    assert partition.ari in (1.0, None)


@calm
@given(products(), products())
def test_every_seat_and_host_stands_exactly_once(a: dict[str, Any], b: dict[str, Any]) -> None:
    left, right = record_from(a), record_from(b)
    found = align(left, right)
    for side, record in ((0, left), (1, right)):
        listed = Counter(
            (i, s.function)
            for p in found.pairs
            for s in (p.left, p.right, p.site)
            if s
            for i in s.ids
            if i in record.elements and record.elements[i] in s.members
        )
        expected = Counter(
            (e.id, f)
            for e in record.elements.values()
            if e.section not in ("boards", "power.rails")
            for f in e.functions
        )
        assert listed == expected
        assert Counter(x for h in found.hosts if (x := (h.left, h.right)[side])) == Counter(list(record.hosts))


@calm
@given(products(), products())
def test_reasons_add_up_to_the_score(a: dict[str, Any], b: dict[str, Any]) -> None:
    for p in align(record_from(a), record_from(b)).pairs:
        if p.is_complete:
            # Reasons below 0.005 nats are not told; there are fewer than twenty of them.
            assert abs(sum(reason.weight for reason in p.reasons) - p.score) < 0.1
            assert 0 <= p.confidence <= 1
            assert p.runner_up is None or abs(p.runner_up.margin - (p.score - p.runner_up.score)) < 1e-6


@calm
@given(products(), st.data())
def test_what_was_not_looked_at_is_never_called_absent(a: dict[str, Any], data: st.DataObject) -> None:
    names = parts_of(a)
    assume(names)
    gone = data.draw(st.sampled_from(names))
    section = next(name for name in FUNCTIONS if gone in a.get(name, {}))
    b = without(a, section, gone)
    b["coverage"][section] = data.draw(st.sampled_from(["part", "none"]))
    functions = {a[section][gone]["function"], *a[section][gone].get("also", ())}
    for p in align(record_from(a), record_from(b)).pairs:
        if p.function in functions and p.right is None:
            assert p.verdict is Verdict.UNKNOWN


def without(data: dict[str, Any], section: str, gone: str) -> dict[str, Any]:
    """The record without one element and without the links that named it."""
    rest = {name: dict(entry) for name, entry in data[section].items() if name != gone}
    cut = {**data, section: rest, "coverage": dict(data["coverage"])}
    for name in FUNCTIONS:
        if name in cut:
            cut[name] = {
                key: {
                    fact: [x for x in value if x != gone] if fact == "joined_to" else value
                    for fact, value in entry.items()
                    if not (fact == "joined_to" and value == [gone])
                }
                for key, entry in cut[name].items()
            }
    return cut


@calm
@given(products("whole"), products("whole"), st.data())
def test_a_cut_record_never_contradicts_the_whole_one(
    whole: dict[str, Any], other: dict[str, Any], data: st.DataObject
) -> None:
    """Cut elements and facts out of a record and mark its coverage: nothing that is then said may be untrue."""
    cut = whole
    lost: list[str] = []
    for name in parts_of(whole):
        if data.draw(st.integers(0, 3)) == 0:
            section = next(s for s in FUNCTIONS if name in cut.get(s, {}))
            entry = cut[section][name]
            lost += [entry["function"], *entry.get("also", ())]
            cut = without(cut, section, name)
            cut["coverage"][section] = "part"
    for section in FUNCTIONS:
        for name, entry in cut.get(section, {}).items():
            kept = {f: v for f, v in entry.items() if f == "function" or data.draw(st.integers(0, 4))}
            cut = {**cut, section: {**cut[section], name: kept}}
    truth, right = record_from(whole), record_from(other)
    for p in align(record_from(cut), right).pairs:
        if p.left is None and p.verdict in ALONE:
            assert p.function not in lost
        for change in p.changes:
            if change.what == "how many" and "or more" not in change.left:
                assert p.function not in lost
        if p.left and p.right and p.means is Agreement.DIFFERENT and not (p.left.embedded_in or p.right.embedded_in):
            assert truth.elements[p.left.first.id].means != p.right.first.means
