"""Evidence pictures made part of the page: small, and without what a camera hides in its files."""

from __future__ import annotations

import base64
import importlib
import io
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pathlib import Path

_LONGEST_SIDE = 900
_QUALITY = 78
_LARGEST_AS_IS = 300_000
_STARTS = {b"\x89PNG\r\n\x1a\n": "image/png", b"\xff\xd8\xff": "image/jpeg", b"GIF8": "image/gif"}


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture as a data: address with its size in px (0 where not known), or why it is not shown."""

    data: str = ""
    width: int = 0
    height: int = 0
    why: str = ""


def picture_of(folder: Path, file: str) -> Picture:
    """The picture of that file, scaled down and re-encoded where the Pillow library is at hand.

    Only files below the record's own folder are read, and only those that begin like a picture: a record must
    not be able to carry anything else of this machine into a page that is sent away.
    """
    path = (folder / file).resolve()
    if not path.is_relative_to(folder.resolve()) or not path.is_file():
        return Picture(why="the file is not beside the record")
    content = path.read_bytes()
    kind = next((kind for start, kind in _STARTS.items() if content.startswith(start)), "")
    if not kind:
        return Picture(why="not a picture that can be shown in the page")
    return _smaller(content) or _as_is(content, kind)


def _as_is(content: bytes, kind: str) -> Picture:
    if len(content) >= _LARGEST_AS_IS:
        return Picture(why="left out, since it is large and the Pillow library is not there to make it smaller")
    return Picture(_address(content, kind))


def _smaller(content: bytes) -> Picture | None:
    """The picture re-encoded, which drops place, time and camera from it; None where Pillow is not there or fails."""
    try:  # not a dependency, used where it is at hand
        images, turning = importlib.import_module("PIL.Image"), importlib.import_module("PIL.ImageOps")
    except ImportError:
        return None
    try:
        with images.open(io.BytesIO(content)) as image:
            upright = turning.exif_transpose(image)
            upright.thumbnail((_LONGEST_SIDE, _LONGEST_SIDE))
            return _encoded(upright)
    except (OSError, ValueError, images.DecompressionBombError):
        return None


def _encoded(image: Any) -> Picture:
    few = image.mode in ("1", "L", "P") or image.getcolors(256) is not None
    clean = image.convert("RGBA" if few else "RGB")
    target = io.BytesIO()
    if few:
        clean.quantize(256).save(target, "PNG", optimize=True)
    else:
        clean.save(target, "JPEG", quality=_QUALITY, optimize=True)
    return Picture(_address(target.getvalue(), "image/png" if few else "image/jpeg"), *image.size)


def _address(content: bytes, kind: str) -> str:
    return f"data:{kind};base64,{base64.b64encode(content).decode()}"
