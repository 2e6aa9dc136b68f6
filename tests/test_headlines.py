from archdiff.alignment import Verdict
from archdiff.headlines import MOST, sentence
from archdiff.pipeline import compare


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
