"""Evidence pictures made part of the page: small, upright, and without what a camera hides in its files."""

from __future__ import annotations

import base64
import io
import warnings
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from PIL import Image

_LONGEST_SIDE = 1200  # px
_QUALITY = 80
_FEW_COLOURS, _MOST_OF_IT = 16, 0.8  # where so few fill so much it is a drawing, which JPEG would smear
_COUNTED_COLOURS = 65_536  # more than that, and it is a photograph without counting further
# Only plain picture formats are decoded; PostScript and its like are programs.
_FORMATS = ("PNG", "JPEG", "GIF", "WEBP")
_STARTS = (b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff", b"GIF8", b"RIFF")


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture as a data: address with its size in px, or why it is not shown."""

    data: str = ""
    width: int = 0
    height: int = 0
    why: str = ""


def picture_of(folder: Path, file: str) -> Picture:
    """The picture of that file, decoded, scaled down and encoded anew.

    Only files below the record's own folder are read, and only those that begin like a picture: a record must
    not be able to carry anything else of this machine into a page that is sent away.
    """
    path = (folder / file).resolve()
    if not path.is_relative_to(folder.resolve()) or not path.is_file():
        return Picture(why="the file is not beside the record")
    content = path.read_bytes()
    if not content.startswith(_STARTS):
        return Picture(why="not a picture that can be shown in the page")
    return _made_anew(content)


def _made_anew(content: bytes) -> Picture:
    from PIL import Image

    too_large = (Image.DecompressionBombError, Image.DecompressionBombWarning)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(io.BytesIO(content), formats=_FORMATS) as image:
                return _encoded(image)
    except too_large:
        return Picture(why="left out, since it has too many pixels to be decoded safely")
    except Exception:  # noqa: BLE001 - a decoder may stumble over a foreign file in any way, and none may stop the page
        return Picture(why="left out, since the file is broken and cannot be decoded")


def _encoded(image: Image.Image) -> Picture:
    """Everything a file says beside its pixels is left behind: place, time, camera, comments, colour profile."""
    from PIL import Image, ImageOps

    drawing = image.format != "JPEG" and _is_drawing(image)
    if image.mode not in ("RGB", "CMYK"):
        image = image.convert("RGBA")
    image.thumbnail((_LONGEST_SIDE, _LONGEST_SIDE))
    upright = ImageOps.exif_transpose(_in_srgb(image))
    upright.info.clear()
    target = io.BytesIO()
    if drawing:
        upright.quantize(method=Image.Quantize.FASTOCTREE).save(target, "PNG")
    else:
        _on_white(upright).save(target, "JPEG", quality=_QUALITY, optimize=True)
    code = base64.b64encode(target.getvalue()).decode()
    return Picture(f"data:image/{'png' if drawing else 'jpeg'};base64,{code}", *upright.size)


def _is_drawing(image: Image.Image) -> bool:
    """Whether a few colours fill most of it; smoothed edges bring in many more, on few pixels."""
    colours = image.getcolors(_COUNTED_COLOURS)
    if colours is None:
        return False
    filled = sorted((count for count, _ in colours), reverse=True)
    return sum(filled[:_FEW_COLOURS]) >= _MOST_OF_IT * sum(filled)


def _in_srgb(image: Image.Image) -> Image.Image:
    """The same colours without the profile that a wide-gamut camera needs to name them."""
    profile = image.info.get("icc_profile")
    if not profile or image.mode == "RGBA":
        return image
    from PIL import ImageCms

    try:
        return (
            ImageCms.profileToProfile(
                image,
                ImageCms.ImageCmsProfile(io.BytesIO(profile)),
                ImageCms.createProfile("sRGB"),
                outputMode="RGB",
            )
            or image
        )
    except (ImageCms.PyCMSError, OSError):
        return image


def _on_white(image: Image.Image) -> Image.Image:
    from PIL import Image

    if image.mode != "RGBA":
        return image.convert("RGB")
    ground = Image.new("RGB", image.size, "white")
    ground.paste(image, mask=image.getchannel("A"))
    return ground
