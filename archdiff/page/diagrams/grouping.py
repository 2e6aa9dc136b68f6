"""Counted tiles: in a scene too large to read, what is alike is collected first, what differs as late as feasible."""

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Iterator
from dataclasses import dataclass, replace

from archdiff.page.diagrams.families import of_family
from archdiff.page.diagrams.scene import Block, EdgeItem, Face, Mark, Scene, Slot, State
from archdiff.wording import some_of

MOST_PARTS, MOST_ON_BOARD, FEW_ON_BOARD = 100, 24, 8
"""Above so many slots in the scene, or on one board, slots are collected; a board with few keeps all its functions."""
_NAMED = 3
_LEAST_FUNCTIONS = 3
_Key = Callable[[Slot], Hashable | None]
_Merge = Callable[[list[Slot]], Slot]


@dataclass(frozen=True, slots=True)
class _Step:
    """What shares a key becomes one slot; a `coarse` step goes across functions, and only in a crowded scene."""

    key: _Key
    merge: _Merge
    coarse: bool = False

    def due(self, block: Block, *, crowded: bool) -> bool:
        count = len(block.slots)
        return crowded and count > FEW_ON_BOARD if self.coarse else crowded or count > MOST_ON_BOARD

    def slots(self, group: list[Slot]) -> Iterator[Slot]:
        """The group as one slot; two slots are not worth hiding behind the name of their family."""
        if len(group) < (_LEAST_FUNCTIONS if self.coarse else 2):
            yield from group
        else:
            yield self.merge(sorted(group, key=lambda slot: (slot.rank, slot.key)))


def group_slots(scene: Scene) -> Scene:
    """The scene with slots collected where it has more than a reader can take in; a small scene comes back as it is.

    In five steps, each only where still needed: alike slots of one title and detail; alike slots of one title;
    differing slots that share title, verdict and states; then, where the whole scene is too large, alike slots of one
    family; then differing slots that share family, verdict and states.  Slots with a badge are never collected, for
    each badge leads to one place.  A collected slot stands where its first would, and keeps that slot's key.
    """
    for step in _STEPS:
        crowded = sum(1 for _ in scene.slots()) > MOST_PARTS
        blocks = tuple(
            replace(block, slots=_collected(block.slots, step)) if step.due(block, crowded=crowded) else block
            for block in scene.blocks
        )
        tied = {end for link in scene.links for end in link.ends}
        scene = replace(scene, blocks=blocks, edge=_collected_edge(scene.edge, step, tied) if crowded else scene.edge)
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


def _alike_family(slot: Slot) -> Hashable | None:
    return _family_verdict(slot) if _plain(slot) else None


def _family_verdict(slot: Slot) -> Hashable | None:
    if not (slot.family and _loose(slot) and all(face.several for face in slot.faces)):
        return None
    return slot.family, tuple((face.mark, face.state, face.several) for face in slot.faces)


def _collected(slots: Iterable[Slot], step: _Step) -> tuple[Slot, ...]:
    groups: dict[Hashable, list[Slot]] = defaultdict(list)
    for slot in slots:
        shared = step.key(slot)
        groups[("alone", slot.key) if shared is None else ("shared", shared)].append(slot)
    return tuple(slot for group in groups.values() for slot in step.slots(group))


def _collected_edge(items: tuple[EdgeItem, ...], step: _Step, tied: set[str]) -> tuple[EdgeItem, ...]:
    """Edge items of one edge collected; those that a link ends at stay, or their links would lead nowhere."""
    groups: dict[Hashable, list[EdgeItem]] = defaultdict(list)
    for item in items:
        shared = None if item.slot.key in tied else step.key(item.slot)
        groups[("alone", item.slot.key) if shared is None else (item.edge, shared)].append(item)
    return tuple(
        EdgeItem(slot, group[0].edge) for group in groups.values() for slot in step.slots([each.slot for each in group])
    )


def _of_title(group: list[Slot]) -> Slot:
    left, right = (_merged_face([slot.faces[side] for slot in group]) for side in (0, 1))
    return replace(group[0], left=left, right=right)


def _merged_face(faces: list[Face]) -> Face:
    details = list(dict.fromkeys(face.detail for face in faces if face.detail))
    tips = list(dict.fromkeys(face.tip for face in faces if face.tip))
    count = sum(face.count for face in faces)
    return replace(faces[0], detail=some_of(details, _NAMED), tip=". ".join(tips), count=count)


_STEPS = (
    _Step(_same_face, _of_title),
    _Step(_same_title, _of_title),
    _Step(_same_verdict, _of_title),
    _Step(_alike_family, of_family, coarse=True),
    _Step(_family_verdict, of_family, coarse=True),
)
