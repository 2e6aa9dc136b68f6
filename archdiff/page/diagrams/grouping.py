"""Counted tiles: in a scene too large to read, what is alike is collected first, what differs as late as feasible."""

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable
from dataclasses import replace

from archdiff.page.diagrams.scene import EdgeItem, Face, Mark, Scene, Slot, State

MOST_PARTS, MOST_ON_BOARD = 100, 24
"""Above so many slots in the scene, or on one board, slots are collected."""
_NAMED = 3
_Key = Callable[[Slot], Hashable | None]


def group_slots(scene: Scene) -> Scene:
    """The scene with slots collected where it has more than a reader can take in; a small scene comes back as it is.

    In three steps, each only where still needed: alike slots of one title and detail; alike slots of one title; then
    differing slots that share title, verdict and states.  Slots with a badge are never collected, for each badge
    leads to one place.
    """
    for key in (_same_face, _same_title, _same_verdict):
        crowded = sum(1 for _ in scene.slots()) > MOST_PARTS
        blocks = tuple(
            replace(block, slots=_collected(block.slots, key)) if crowded or len(block.slots) > MOST_ON_BOARD else block
            for block in scene.blocks
        )
        edge = (
            _collected_edge(scene.edge, key, {end for link in scene.links for end in link.ends})
            if crowded
            else scene.edge
        )
        scene = replace(scene, blocks=blocks, edge=edge)
    return scene


def _plain(slot: Slot) -> bool:
    """Alike on both sides and drawn on both."""
    return all(face.mark is Mark.ALIKE and face.state is State.DRAWN and not face.hidden for face in slot.faces)


def _loose(slot: Slot) -> bool:
    return not any(face.badge or face.hidden for face in slot.faces)


def _same_face(slot: Slot) -> Hashable | None:
    if not (_plain(slot) and _loose(slot)):
        return None
    return tuple((face.title, face.detail, face.shape) for face in slot.faces)


def _same_title(slot: Slot) -> Hashable | None:
    if not (_plain(slot) and _loose(slot)):
        return None
    return tuple(face.title for face in slot.faces)


def _same_verdict(slot: Slot) -> Hashable | None:
    if not _loose(slot):
        return None
    return tuple((face.title, face.mark, face.state) for face in slot.faces)


def _collected(slots: Iterable[Slot], key: _Key) -> tuple[Slot, ...]:
    groups: dict[Hashable, list[Slot]] = defaultdict(list)
    for slot in slots:
        shared = key(slot)
        groups[("alone", slot.key) if shared is None else ("shared", shared)].append(slot)
    return tuple(_merged(group) for group in groups.values())


def _collected_edge(items: tuple[EdgeItem, ...], key: _Key, tied: set[str]) -> tuple[EdgeItem, ...]:
    """Edge items of one edge collected; those that a link ends at stay, or their links would lead nowhere."""
    groups: dict[Hashable, list[EdgeItem]] = defaultdict(list)
    for item in items:
        shared = None if item.slot.key in tied else key(item.slot)
        groups[("alone", item.slot.key) if shared is None else (item.edge, shared)].append(item)
    return tuple(EdgeItem(_merged([item.slot for item in group]), group[0].edge) for group in groups.values())


def _merged(group: list[Slot]) -> Slot:
    """One slot for all of the group, at the place of its first by function; it keeps that slot's key."""
    if len(group) == 1:
        return group[0]
    first = min(group, key=lambda slot: (slot.rank, slot.key))
    left, right = ([slot.faces[side] for slot in group] for side in (0, 1))
    return replace(first, left=_merged_face(left), right=_merged_face(right))


def _merged_face(faces: list[Face]) -> Face:
    details = list(dict.fromkeys(face.detail for face in faces if face.detail))
    tips = list(dict.fromkeys(face.tip for face in faces if face.tip))
    count = sum(face.count for face in faces)
    shared = ", ".join(details[:_NAMED]) + (f" and {len(details) - _NAMED} more" if len(details) > _NAMED else "")
    return replace(faces[0], detail=shared, tip=". ".join(tips), count=count)
