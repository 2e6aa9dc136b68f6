import re

from archdiff.alignment import Verdict
from archdiff.figures import all_figures
from archdiff.figures.figure import Outcome
from archdiff.headlines import MOST, sentence
from archdiff.headlines.consequences import MOST_LINES
from archdiff.headlines.shown import FIGURES_OF
from archdiff.pipeline import compare
from archdiff.record import sections
from archdiff.vocabulary import load_vocabulary


def test_at_most_five_and_the_weightiest_first(air_monitors, bike_lights):
    for comparison in (air_monitors, bike_lights):
        weights = [headline.weight for headline in comparison.headlines]
        assert 3 <= len(weights) <= MOST
        assert weights == sorted(weights, reverse=True)


def test_no_subsystem_speaks_twice_and_each_leads_somewhere(air_monitors):
    spoken = [headline.pair.subsystem for headline in air_monitors.headlines if headline.pair]
    assert len(spoken) == len(set(spoken))
    for headline in air_monitors.headlines:
        assert sum(map(bool, (headline.pair, headline.figure, headline.section))) == 1


def test_an_unknown_never_makes_a_headline(air_monitors, bike_lights):
    for comparison in (air_monitors, bike_lights):
        assert all(h.pair.verdict is not Verdict.UNKNOWN for h in comparison.headlines if h.pair)


def test_does_not_is_said_only_of_what_is_known_not_to_be_there(air_monitors, bike_lights):
    for comparison in (air_monitors, bike_lights):
        records = (comparison.left, comparison.right)
        for pair in comparison.pairs:
            if pair.is_complete or pair.verdict is Verdict.UNKNOWN:
                continue
            text = sentence(pair, records)
            if pair.silent.further or not pair.seats[0].first.populated:
                assert "does not" not in text
                continue
            only = pair.verdict in (Verdict.ONLY_LEFT, Verdict.ONLY_RIGHT)
            assert ("does not" in text) == only
            assert ("may live inside another part" in text) != only


def test_an_empty_site_is_never_told_as_the_part(record_of):
    cover = "coverage: {boards: whole, parts: whole, actuators: whole, interconnects: whole, indicators: whole, sensors: whole}\nboards: {main: {outline: 60 x 40 mm}}\n"
    site = "actuators: {BZ1: {on: main, function: noise warning, means: piezo buzzer, populated: false}}\n"
    left, right = record_of(cover + site), record_of(cover + site.replace(", populated: false", ""))
    comparison = compare(left, right)
    (pair,) = comparison.pairs
    assert (pair.left, pair.verdict) == (None, Verdict.SEPARATE_RIGHT)
    assert comparison.partition.placed == 0
    both = compare(left, record_of(cover + site.replace("BZ1", "BZ2")))
    assert both.partition.placed == 0
    alone = compare(left, record_of(cover))
    assert sentence(alone.pairs[0], (left, right)).endswith("has none.")
    assert not [h for h in (*both.headlines, *alone.headlines) if h.pair]


TWO = """archdiff: 1
product: {name: Tarvo Two, kind: test object}
coverage: {boards: whole, parts: whole, interconnects: whole, controls: whole, enclosure: whole, power: whole, opening: whole}
boards: {main: {name: Main board, outline: 60 x 40 mm}, front: {name: Front board, outline: 30 x 20 mm}}
parts:
  U1: {name: Host, on: main, function: host processing, means: microcontroller}
  U2: {name: Converter, on: main, function: voltage conversion, means: step-down converter}
controls: {key: {name: Key, on: front, function: mode selection, means: tactile switch}}
interconnects:
  ribbon: {name: Ribbon, between: [main, front], function: board joining, means: flexible printed circuit, ways: 10}
  lead: {between: [main, front], function: board joining, means: wire harness, ways: 2}
  wire: {between: [main, front], function: board joining, means: wire harness, ways: 2}
power:
  entry: {jack: {name: Jack, on: main, means: coaxial dc plug}}
  rails: {v33: {name: 3.3 V, from: jack, made_by: U2, feeds: [U1]}}
decisions:
  d1: {choice: keys on a board of their own, about: [front], forces: [ribbon, lead, wire], because: thin front, sure: guessed}
"""
ONE = """archdiff: 1
product: {name: Orlim One, kind: test object}
coverage: {boards: whole, parts: whole, interconnects: whole, controls: whole, enclosure: whole, power: whole, opening: whole}
boards: {one: {name: Single board, outline: 60 x 40 mm}}
parts:
  IC1: {on: one, function: host processing, means: microcontroller}
  IC2: {on: one, function: voltage conversion, means: linear regulator}
controls: {pad: {name: Pad, on: one, function: mode selection, means: capacitive touch electrode}}
power:
  entry: {usb: {name: Socket, on: one, means: USB Type-C receptacle}}
  rails: {vcc: {from: usb, made_by: IC2, feeds: [IC1]}}
"""


def told(record_of, left=TWO, right=ONE):
    return compare(record_of(left), record_of(right)).headlines


def of_boards(headlines):
    (headline,) = [h for h in headlines if h.figure == "board-count"]
    return [then.text for then in headline.then]


def test_a_headline_tells_what_its_choice_forced_as_sure_as_that_is_and_what_figures_show(record_of):
    (headline,) = [h for h in told(record_of) if h.figure == "board-count"]
    stated, shown = headline.then
    forced = "In Tarvo Two, keys on a board of their own (thin front). This required: ribbon and 2 × wire harness."  # noqa: RUF001
    assert (stated.text, stated.sure) == (forced, "guessed")
    assert (stated.chain.analyst, stated.figures) == (True, ())
    assert shown.text == "Ways between boards: 14 in Tarvo Two, 0 in Orlim One; links between boards: 3 and 0."
    assert (shown.chain, shown.figures) == (None, ("ways-between-boards", "links-between-boards"))


def test_without_the_analysts_word_only_the_ties_of_the_record_are_told_and_never_as_forced(record_of):
    headlines = told(record_of, TWO.split("decisions:", maxsplit=1)[0])
    lines = of_boards(headlines)
    assert lines[-1] == "Tied to the front board in Tarvo Two: ribbon, 2 × wire harness and key."  # noqa: RUF001
    assert not [then for h in headlines for then in h.then if "required" in then.text]


def test_a_choice_about_nothing_that_a_headline_speaks_of_is_not_told(record_of):
    for loose in (TWO.replace("about: [front], ", ""), TWO.replace("about: [front]", "about: [U2]")):
        assert not [line for line in of_boards(told(record_of, loose)) if "keys on a board" in line]


def test_a_fact_taken_away_takes_its_line_or_leaves_a_bound(record_of):
    unknown = of_boards(told(record_of, TWO.replace(", ways: 10", "")))
    # Two leads of two ways each, and a ribbon that has one at the least.
    assert [
        line for line in unknown if line.startswith("Ways between boards: at least 5 in Tarvo Two, 0 in Orlim One;")
    ]
    partly = of_boards(told(record_of, TWO.replace("interconnects: whole", "interconnects: part")))
    assert [line for line in partly if "at least 14 in Tarvo Two" in line and "at least 3 and 0" in line]
    for_all = of_boards(told(record_of, TWO, ONE.replace("interconnects: whole", "interconnects: part")))
    assert not [line for line in for_all if line.startswith("Ways between boards")]


def test_where_nothing_is_known_there_is_no_line(record_of):
    bare = "coverage: {{boards: whole}}\nboards: {{{}}}\n"
    two = bare.format("a: {outline: 60 x 40 mm}, b: {outline: 60 x 40 mm}")
    headlines = told(record_of, two, bare.format("c: {outline: 60 x 40 mm}"))
    (headline,) = headlines
    assert [then.figures for then in headline.then] in ([], [("layer-area",)])
    assert not [then for then in headline.then if then.chain]


def test_products_that_change_sides_change_places_in_the_lines(record_of, air_monitors, bike_lights):
    pairs = [(record_of(TWO), record_of(ONE))]
    pairs += [(one.left, one.right) for one in (air_monitors, bike_lights)]
    for left, right in pairs:
        names = (left.name, right.name)
        lines = {then for h in compare(left, right).headlines for then in h.then}
        turned = {then for h in compare(right, left).headlines for then in h.then}
        assert {then.text for then in lines if then.chain} == {then.text for then in turned if then.chain}
        shown = {then.figures: _numbers(then.text, names) for then in lines if then.figures}
        mirrored = {then.figures: _numbers(then.text, names[::-1]) for then in turned if then.figures}
        assert shown
        assert shown == {ids: [(b, a) for a, b in both] for ids, both in mirrored.items()}


def _numbers(text, names):
    """The numbers of a line of figures: of the product named first, of the other."""
    first, *more = text.removesuffix(".").split("; ")
    match = re.fullmatch(rf"[^:]+: (.+) in {names[0]}, (.+) in {names[1]}", first)
    return [match.groups(), *(tuple(one.split(": ")[1].split(" and ")) for one in more)]


def test_a_line_of_figures_only_tells_what_is_known_to_be_higher(air_monitors, bike_lights):
    for comparison in (air_monitors, bike_lights):
        ids = [name for headline in comparison.headlines for then in headline.then for name in then.figures]
        assert len(ids) == len(set(ids)) > 3
        for name in ids:
            result = comparison.figure(name)
            assert result.pair is not None or result.outcome in (Outcome.LEFT_HIGHER, Outcome.RIGHT_HIGHER)


def test_no_headline_has_more_than_two_lines_and_no_chain_is_told_twice(air_monitors, bike_lights):
    for comparison in (air_monitors, bike_lights):
        chains = [then.chain for headline in comparison.headlines for then in headline.then if then.chain]
        assert len(chains) > 2
        assert all(chain in comparison.chains for chain in chains)
        assert len(chains) == len({id(chain) for chain in chains})
        assert all(len(headline.then) <= MOST_LINES for headline in comparison.headlines)


def test_the_table_of_figures_names_only_figures_and_subjects_that_there_are():
    figures = {figure.id for figure in all_figures()}
    assert {name for ids in FIGURES_OF.values() for name in ids} <= figures
    subjects = {"partition", *figures, *(section.name for section in sections()), *load_vocabulary().choices.subsystems}
    assert set(FIGURES_OF) <= subjects


def test_the_sentence_on_the_partition_says_how_many_and_on_what(record_of, air_monitors):
    (headline,) = [h for h in air_monitors.headlines if h.section == "partition"]
    partition = air_monitors.partition
    assert headline.text.startswith(f"Of {partition.placed} functions located in both, {partition.distance} ")
    assert "on a different board or housing part" in headline.text
    (on_boards,) = [h for h in told(record_of) if h.section == "partition"]
    assert on_boards.text == (
        "Of 4 functions located in both, 1 sits on a different board. Mode selection: on the front board in "
        "Tarvo Two, on the single board in Orlim One."
    )
