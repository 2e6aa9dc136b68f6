"""One tile for many functions of a kind."""

from dataclasses import replace

from archdiff.page.diagrams.scene import Face, Slot
from archdiff.wording import some_of

_NAMED = 3


def of_family(group: list[Slot]) -> Slot:
    """One slot for slots of one family whose faces share state, verdict and `several`; it keeps the first one's key."""
    first = group[0]
    left, right = (_face(first, [slot.faces[side] for slot in group]) for side in (0, 1))
    return replace(first, left=left, right=right)


def _face(first: Slot, faces: list[Face]) -> Face:
    titles = list(dict.fromkeys(_lowered(face.title) for face in faces))
    if len(titles) == 1:
        return replace(faces[0], count=sum(face.count for face in faces))
    tips = list(dict.fromkeys(tip for face in faces for tip in (face.title, face.tip) if tip))
    model = replace(faces[0], href=first.family_href or faces[0].href, tip=". ".join(tips))
    if model.ghost:
        said = model.several.replace("{}", f"{len(titles)} {first.family} functions")
        return replace(model, title=said, detail="", count=1)
    shapes = {face.shape for face in faces}
    return replace(
        model,
        title=model.several.replace("{}", first.family[:1].upper() + first.family[1:]),
        detail=f"{len(titles)} functions: {some_of(titles, _NAMED)}",
        count=sum(face.count for face in faces),
        shape=shapes.pop() if len(shapes) == 1 else "other",
    )


def _lowered(title: str) -> str:
    """The title as it stands within a sentence; capitals that belong to it stay."""
    return title[:1].lower() + title[1:] if title[1:2].islower() else title
