"""What a screen reader and a pointer are told about a tile, a board or a link."""

from archdiff.page.diagrams.marks import WORDS
from archdiff.page.diagrams.scene import BoardFace, Face, LinkFace, Mark, State

STATE_WORDS = {
    State.DRAWN: "",
    State.NOT_THERE: "not there",
    State.NOT_LOOKED_AT: "not looked at far enough to say",
    State.ELSEWHERE: "placed elsewhere",
    State.EMBEDDED: "no part of its own",
}
"""How each state is said; a drawn thing needs no word."""


def _sentence(*parts: str) -> str:
    said = dict.fromkeys(part.strip().rstrip(".") for part in parts)
    return ". ".join(part for part in said if part)


def tile_label(face: Face) -> str:
    """Title, detail, state and verdict of a tile in words."""
    verdict = "" if face.ghost else WORDS[face.mark]
    return _sentence(f"{face.badge} {face.heading}".strip(), face.detail, STATE_WORDS[face.state], verdict)


def tile_tip(face: Face) -> str:
    """The tile's label and what else there is to say."""
    return _sentence(tile_label(face), face.tip)


def board_label(face: BoardFace) -> str:
    """Title, detail, state and verdict of a board in words."""
    verdict = "" if face.ghost or face.mark is Mark.ALIKE else WORDS[face.mark]
    return _sentence(face.title, face.detail, STATE_WORDS[face.state], verdict)


def link_label(face: LinkFace) -> str:
    """Label, ways and verdict of a link in words."""
    ways = f"{face.ways} ways" if face.ways else "number of ways not known"
    told = face.ways is not None and str(face.ways) in face.label
    return _sentence(face.label, "" if told else ways, WORDS[face.mark], face.tip)
