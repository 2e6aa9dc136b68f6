from archdiff.alignment import Verdict
from archdiff.headlines import MOST, sentence


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
            only = pair.verdict in (Verdict.ONLY_LEFT, Verdict.ONLY_RIGHT)
            assert ("does not" in text) == only
            assert ("may live inside another part" in text) != only
