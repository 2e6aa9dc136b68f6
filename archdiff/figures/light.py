"""Light: how many lamps, how they are kept apart, what they shine through, and how much they give and take."""

from __future__ import annotations

from typing import TYPE_CHECKING

from archdiff.figures.counting import (
    ANY,
    Ledger,
    added,
    count_true,
    grouped,
    largest,
    listed,
    number,
    share,
    sum_in_words,
    told,
)
from archdiff.figures.facts.channel_facts import along, from_zero, open_area, over
from archdiff.figures.facts.light_facts import Lamps, lamps_of, lit_paths, shining_through, spacing_of
from archdiff.figures.facts.path_facts import stages_of
from archdiff.figures.facts.spacing import nearest
from archdiff.figures.shelf import Family, figure
from archdiff.record import Truth

if TYPE_CHECKING:
    from archdiff.figures.figure import Measure
    from archdiff.quantities import Bounds
    from archdiff.record import Element, Record

FAMILY = Family("light", "Light", 88)
_NO_PATH, _ALONE = "no light path from a lamp recorded", "one lamp: no neighbour"


@figure(
    title="Lamps",
    order=10,
    meaning="How many of the indicators are lamps that give out light of their own, displays left out.",
    formula="count of indicators whose means is a lamp, by colour",
    source="count; common practice, no source",
)
def lamp_count(record: Record) -> Measure:
    """Indicators whose means has the trait 'shines', by the colours they can show."""
    ledger = Ledger(record)
    whole = ledger.whole("indicators")
    indicators = listed(record, "indicators")
    answers = {entry.id: ledger.kind(entry, "shines") for entry in indicators}
    count = count_true(indicators, lambda entry: answers[entry.id], whole=whole)
    found = [entry for entry in indicators if answers[entry.id] is Truth.YES]
    all_told = whole and Truth.UNKNOWN not in answers.values()
    return ledger.measure(count, sum_in_words(found), grouped(found, lambda e: _colours(ledger, e), whole=all_told))


def _colours(ledger: Ledger, lamp: Element) -> str | None:
    colours = lamp.texts("colours")
    return " or ".join(colours) if ledger.note(lamp.id, "colours", known=bool(colours)) else None


@figure(
    title="Lamps kept apart",
    order=20,
    meaning="Share of the lamps whose light something keeps from their neighbours.",
    formula="lamps with a barrier recorded / lamps; a lamp of which nothing is said may have one",
    source="count; common practice, no source",
)
def share_of_lamps_kept_apart(record: Record) -> Measure:
    """Share, 0 to 1, of lamps with `separated_by`."""
    ledger = Ledger(record)
    lamps = lamps_of(ledger)
    many = number(lamps.found)
    if many == 1 and lamps.whole:
        ledger.moot()
        return ledger.measure(None, _ALONE)

    def apart_from_others(lamp: Element) -> Truth:
        known = bool(lamp.text("separated_by"))
        return Truth.YES if ledger.note(lamp.id, "separated_by", known=known) else Truth.UNKNOWN

    count = count_true(lamps.found, apart_from_others, whole=True)
    how = f"{told(count)} of {many}" if many else "no lamp recorded"
    told_of_any = lamps.whole and count.low > 0
    return ledger.measure(share(count, many, whole=told_of_any), how)


@figure(
    title="Lamp spacing",
    unit="mm",
    order=30,
    meaning="Smallest distance between the middles of two lamps.",
    formula="pitch of lamps in one entry, else least of the distances between every two",
    source="plane geometry; common practice, no source",
)
def lamp_spacing(record: Record) -> Measure:
    """Smallest distance in mm."""
    ledger = Ledger(record)
    spacing = spacing_of(ledger, lamps_of(ledger))
    return ledger.measure(spacing.least, spacing.how, spacing.each)


@figure(
    title="Light path over lamp spacing",
    order=40,
    meaning="How far light goes from a lamp to where it is seen, in lamp spacings; of several paths the most.",
    formula="length of all stages of the light path / spacing of the lamps that shine along it",
    source="optical distance over pitch, as designers of backlights use it; common practice, no source",
    preferred="higher for an even glow",
)
def light_path_over_spacing(record: Record) -> Measure:
    """Ratio of the paths that more than one lamp shines along; at least that where a stage may be lacking."""
    ledger = Ledger(record)
    lamps = lamps_of(ledger)
    if number(lamps.found) == 1 and lamps.whole:
        ledger.moot()
        return ledger.measure(None, _ALONE)
    lit = lit_paths(ledger, lamps)
    ratios: list[Bounds] = []
    words: list[str] = []
    for lamp, path in lit.found:
        through = shining_through(ledger, lamps, lamp, path, whole=lit.whole).lamps
        if through.whole and number(through.found) == 1:
            words.append(f"{path.id}: one lamp, no neighbour")
            continue
        reach, spacing = _reach(ledger, path, whole=lit.whole), spacing_of(ledger, through)
        ratios.append(over(reach, spacing.least) or ANY)
        words.append(f"{path.id}: {told(reach)} mm / {told(spacing.least)} mm, {spacing.how}")
    if lit.whole and lit.found and not ratios:  # each path has a lamp to itself
        ledger.moot()
    return ledger.measure(largest(ratios, whole=lit.whole), "; ".join(words) or _NO_PATH)


def _reach(ledger: Ledger, path: Element, *, whole: bool) -> Bounds:
    """Length in mm of all stages of a path."""
    stages = list(stages_of(ledger.record, path))
    known = ledger.note(path.id, "through", known=bool(stages))
    return added((along(ledger, stage) for stage in stages), whole=known and whole)


@figure(
    title="Lit opening per lamp",
    unit="mm²",
    order=50,
    meaning="Narrowest area that light passes on its way out, for each lamp that shines through; of several the least.",
    formula="least area of the stages of the light path / lamps that shine through a stage of it",
    source="ratio; common practice, no source",
)
def lit_opening_per_lamp(record: Record) -> Measure:
    """Area in mm²; at most that where a stage may be lacking or does not state its area."""
    ledger = Ledger(record)
    lamps = lamps_of(ledger)
    lit = lit_paths(ledger, lamps)
    areas: list[Bounds] = []
    words: list[str] = []
    for lamp, path in lit.found:
        stages = list(stages_of(record, path))
        ledger.note(path.id, "through", known=bool(stages))
        area = nearest([open_area(ledger, stage) or ANY for stage in stages], whole=lit.whole)
        many = shining_through(ledger, lamps, lamp, path, whole=lit.whole).many
        areas.append(over(area, many) or ANY)
        words.append(f"{path.id}: {told(area)} mm² / {told(many)}")
    return ledger.measure(nearest(areas, whole=lit.whole), "; ".join(words) or _NO_PATH)


def _mean(record: Record, fact: str, unit: str) -> Measure:
    """What the lamps take or give together, over their number."""
    ledger = Ledger(record)
    lamps = lamps_of(ledger)
    together, many = _together(ledger, lamps, fact), number(lamps.found)
    if not many:
        return ledger.measure(None, "no lamp recorded")
    how = f"{told(together)} {unit} / {many}"
    return ledger.measure(together / many if lamps.whole else None, how)


def _together(ledger: Ledger, lamps: Lamps, fact: str) -> Bounds:
    """Sum over the entries, each of which states it for all of its lamps together."""
    values = [ledger.value(lamp, fact) for lamp in lamps.found]
    return added((None if value is None else from_zero(value) for value in values), whole=lamps.whole)


@figure(
    title="Power per lamp",
    unit="W",
    order=60,
    meaning="Electrical power that a lamp takes, on average over all lamps.",
    formula="sum of power / lamps",
    source="mean; common practice, no source",
    preferred="lower for the same light",
)
def power_per_lamp(record: Record) -> Measure:
    """Mean power in W."""
    return _mean(record, "power", "W")


@figure(
    title="Light per lamp",
    unit="lm",
    order=70,
    meaning="Luminous flux that a lamp gives, on average over all lamps.",
    formula="sum of luminous flux / lamps",
    source="mean; common practice, no source",
)
def light_per_lamp(record: Record) -> Measure:
    """Mean flux in lm."""
    return _mean(record, "flux", "lm")


@figure(
    title="Light per watt",
    unit="lm/W",
    order=80,
    meaning="Luminous flux of all lamps for the electrical power that they take.",
    formula="sum of luminous flux / sum of power",
    source="luminous efficacy of a source, CIE International Lighting Vocabulary; from memory",
    preferred="higher: more light for the same power",
)
def light_per_watt(record: Record) -> Measure:
    """Luminous efficacy in lm/W."""
    ledger = Ledger(record)
    lamps = lamps_of(ledger)
    flux, power = (_together(ledger, lamps, fact) for fact in ("flux", "power"))
    if not lamps.found:
        return ledger.measure(None, "no lamp recorded")
    return ledger.measure(over(flux, power) if lamps.whole else None, f"{told(flux)} lm / {told(power)} W")
