"""Board plans to scale: where things lie on each board, both products at one scale, top side and underside."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from archdiff.page.anchors import element_anchor
from archdiff.page.plans import Plan, plans_of, scale_of
from archdiff.page.seats import records
from archdiff.wording import coverage_words

if TYPE_CHECKING:
    from archdiff.alignment import HostPair
    from archdiff.comparison import Comparison
    from archdiff.record import Element, Record

TITLE = "Board plans, all at one scale"
SHORT = "Plans"
ORDER = 72
_RULER = 10.0  # mm
_COLUMN = 336.0  # px: half of a sheet of paper; there all plans and the ruler shrink alike, so that one scale stays one


def view(comparison: Comparison) -> dict[str, Any] | None:
    """The boards that correspond beside each other; None where no board of either product has an outline."""
    scale = scale_of([*comparison.left.boards, *comparison.right.boards])
    if not scale:
        return None
    pairs = [pair for pair in comparison.alignment.hosts if pair.is_board]
    boards = [_pair(comparison, pair, scale) for pair in pairs]
    widths = [face["width"] for board in boards for side in board["sides"] for face in side["faces"]]
    shrink = min(1.0, _COLUMN / max(widths, default=_COLUMN))
    return {"boards": boards, "ruler": round(_RULER * scale, 1), "shrink": round(shrink, 3)}


def _pair(comparison: Comparison, pair: HostPair, scale: float) -> dict[str, Any]:
    ids = (pair.left, pair.right)
    boards = [
        record.elements[name] if name is not None else None
        for (_, record), name in zip(records(comparison), ids, strict=True)
    ]
    return {
        "title": " and ".join(dict.fromkeys(board.label for board in boards if board)),
        "sides": [
            _side(record, side, board, other, scale)
            for (side, record), board, other in zip(records(comparison), boards, boards[::-1], strict=True)
            if board is not None
        ],
    }


def _side(record: Record, side: str, board: Element, other: Element | None, scale: float) -> dict[str, Any]:
    plans = plans_of(record, board, other, scale, side, lambda element: f"#{element_anchor(side, element.id)}")
    return {
        "side": side,
        "label": board.label,
        "outline": board.text("outline"),
        "faces": [_face(record, side, plan) for plan in plans],
    }


def _face(record: Record, side: str, plan: Plan) -> dict[str, Any]:
    return {
        "words": "Top side" if plan.face == "top" else "Underside",
        "svg": Markup(plan.svg),  # noqa: S704 - escaped where it is drawn
        "width": plan.width,
        "drawn": plan.drawn,
        "looked_at": coverage_words(plan.looked_at),
        "sign": plan.looked_at,
        "placed": plan.placed,
        "unnamed": _listed(record, side, plan.unnamed),
        "unplaced": _listed(record, side, plan.unplaced),
    }


def _listed(record: Record, side: str, names: tuple[str, ...]) -> list[dict[str, str]]:
    elements = [record.elements[name] for name in names]
    return [{"anchor": element_anchor(side, e.id), "id": e.id, "label": e.label} for e in elements]
