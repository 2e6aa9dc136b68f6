"""Where the air in holes resonates with a volume behind it: of a microphone's port, and before a loudspeaker."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from archdiff.figures.counting import ANY, told
from archdiff.figures.facts.channel_facts import all_paths, along, beside, disc, from_zero, own
from archdiff.figures.facts.path_facts import stages_of
from archdiff.figures.facts.sound_facts import sound_speed, sound_to
from archdiff.physics.acoustics import helmholtz_frequency, neck_inertance, slot_inertance
from archdiff.quantities import Bounds, across
from archdiff.quantities.bounds import total
from archdiff.record import as_bounds
from archdiff.record.gaps import gaps_in
from archdiff.tables import read_table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from archdiff.figures.counting import Ledger
    from archdiff.figures.facts.path_facts import Stage
    from archdiff.figures.facts.sound_facts import Things
    from archdiff.record import Element

_EXTENT = ("length", "thickness", "diameter", "area", "volume")
Resonance = tuple[Bounds, str]  # Hz, and how it was worked out
Air = tuple[Bounds, str]  # acoustic mass of the air in holes over its density, in 1/mm, and how it was worked out


def resonance_of_microphone(ledger: Ledger, microphone: Element, microphones: Things) -> Resonance:
    """Resonance of the air before a microphone.

    By the sound path to it, where paths were wholly looked at or the port does not tell enough; else by its port.
    """
    paths = sound_to(ledger.record, microphone)
    if not paths or (not _lacking_of_port(microphone) and gaps_in(ledger.record, "paths")):
        return resonance_of_port(ledger, microphone, sound_speed(ledger, sound_to(ledger.record, *microphones.found)))
    whole = all_paths(ledger, "sound", "to").whole
    each = [resonance_on_path(ledger, p, sound_speed(ledger, [p]), whole=whole, ending=microphone) for p in paths]
    for fact in [] if whole else _lacking_of_port(microphone):
        ledger.lack(microphone.id, fact)
    return min(each, key=lambda result: result[0].high)


def resonance_on_path(
    ledger: Ledger, path: Element, speed: Bounds, *, whole: bool, ending: Element | None = None
) -> Resonance:
    """Resonance of a volume on a sound path with the air in its holes, in Hz; at least 0 where it cannot be told.

    Towards `ending`, a microphone, the holes lie before the volume, which its port may state instead; away from
    a loudspeaker they lie behind it. A stage that is lacking, or says nothing, is a hole or a volume: either lowers
    the lowest resonance, and so does a second volume (Rayleigh's principle: it adds mass or a softer spring).
    """
    stages = list(stages_of(ledger.record, path))
    volumes = [stage for stage in stages if own(stage, "volume") is not None]
    silent = [stage for stage in stages if not any(name in stage.facts for name in _EXTENT)]
    for stage in silent:
        ledger.lack(stage.address, "volume")
    if len(volumes) > 1:
        ledger.assume("with a second volume on the way only an upper limit is worked out (lumped model)")
    sure = whole and not silent and len(volumes) < 2  # noqa: PLR2004 - one volume and no more
    holes = [stage for stage in stages if stage not in volumes + silent]
    each: list[Resonance] = []
    behind: list[Stage | None] = list(volumes) if volumes else [None]
    for volume in behind:
        air, words = _in_row(ledger, path, [s for s in holes if _lies_before(s, volume, ending)], sure=sure)
        found, how = _resonance(ledger, _volume(ledger, path, volume, ending), air, speed)
        each.append((found if sure else Bounds(None, 0.0, found.high), f"path {path.id}: {words}{how}"))
    return min(each, key=lambda result: result[0].high)


def _lies_before(hole: Stage, volume: Stage | None, ending: Element | None) -> bool:
    """Whether a hole lies between the volume and the open air."""
    if volume is None:
        return ending is not None
    return hole.place < volume.place if ending is not None else hole.place > volume.place


def _volume(ledger: Ledger, path: Element, stage: Stage | None, ending: Element | None) -> Bounds | None:
    if stage is not None:
        ledger.use(stage.address, "volume")
        return own(stage, "volume")
    if ending is not None:
        return port_fact(ledger, ending, "cavity")
    ledger.lack(path.id, "a stage with a volume")
    return None


def _in_row(ledger: Ledger, path: Element, holes: Sequence[Stage], *, sure: bool) -> Air:
    """The air in holes one behind the other: their lengths over their areas add up.

    Where another hole may lie at either end it is not known which ends are free: then their air does not count.
    """
    if not holes:
        ledger.lack(path.id, "a stage with a hole")
        return ANY, "no hole"
    last = len(holes) - 1
    ends = [((place == 0) + (place == last)) * sure for place in range(len(holes))]
    each = [_of_stage(ledger, stage, ends=free) for stage, free in zip(holes, ends, strict=True)]
    if last > 0:
        ledger.assume("no allowance for the steps between holes of different width (lumped model)")
    return total(air for air, _ in each), " + ".join(words for _, words in each)


def _of_stage(ledger: Ledger, stage: Stage, *, ends: int) -> Air:
    length = along(ledger, stage)
    diameter, area = own(stage, "diameter"), own(stage, "area")
    ledger.note(stage.address, "diameter", known=diameter is not None)
    if diameter is None:
        ledger.note(stage.address, "area", known=area is not None)
    return hole(ledger, length, diameter, area, number=beside(stage), ends=ends)


def hole(
    ledger: Ledger, length: Bounds | None, diameter: Bounds | None, area: Bounds | None, *, number: int, ends: int
) -> Air:
    """The air in `number` alike holes side by side, `ends` of whose ends open in a wide wall.

    Of holes whose area alone is known the ends add at most what those of circles would.
    """
    end = read_table("sound").rows["flanged end"]
    per_radius = ends * end.number("per_radius")
    if ends:
        ledger.assume(f"end correction: {end.cited}")
    reach = ANY if length is None else length
    if diameter is not None:
        words = f"({told(length)} + {told(diameter * (per_radius / 2))}) mm / {told(disc(diameter) * number)} mm²"
        return across(partial(neck_inertance, number=number, per_radius=per_radius), reach, diameter), words
    of_any_shape = partial(slot_inertance, number=number, per_radius=per_radius)
    words = f"({told(length)} + ends of a shape not known) mm / {told(area)} mm²"
    return across(of_any_shape, reach, ANY if area is None else area, Bounds(None, 0.0, 1.0)), words


def _lacking_of_port(microphone: Element) -> list[str]:
    port = microphone.facts.get("port")
    if not port:
        return ["port"]
    lacking = [f"port {name}" for name in ("length", "cavity") if name not in port]
    return lacking if "diameter" in port or "area" in port else [*lacking, "port diameter"]


def resonance_of_port(ledger: Ledger, microphone: Element, speed: Bounds) -> Resonance:
    """Resonance of a microphone's port with the cavity behind it, in Hz; at least 0 where it cannot be told."""
    if not ledger.note(microphone.id, "port", known="port" in microphone.facts):
        return ANY, "port not stated"
    length, diameter = (port_fact(ledger, microphone, name) for name in ("length", "diameter"))
    area = port_fact(ledger, microphone, "area") if diameter is None else None
    inertance, words = hole(ledger, length, diameter, area, number=1, ends=2)
    found, how = _resonance(ledger, port_fact(ledger, microphone, "cavity"), inertance, speed)
    return found, f"port: {words}{how}"


def port_fact(ledger: Ledger, element: Element, name: str) -> Bounds | None:
    """A length, area or volume of an element's port, noted; None where it is not stated."""
    found = as_bounds((element.facts.get("port") or {}).get(name))
    ledger.note(element.id, f"port {name}", known=found is not None)
    return None if found is None else from_zero(found)


def _resonance(ledger: Ledger, volume: Bounds | None, inertance: Bounds, speed: Bounds) -> Resonance:
    ledger.assume("air in a hole swings on the air behind it as one mass on one spring (Helmholtz; lumped model)")
    how = f" = {told(inertance)} 1/mm, {told(volume)} mm³, {told(speed)} m/s"
    return across(helmholtz_frequency, speed, ANY if volume is None else volume, inertance), how
