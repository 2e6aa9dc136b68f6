"""Evidence pictures in the page: decoded again from their data: address and looked at."""

from __future__ import annotations

import base64
import io
import random
import struct
import zlib
from typing import TYPE_CHECKING

import pytest
from PIL import Image, ImageCms, ImageDraw

from archdiff.page import render_page
from archdiff.page.pictures import Picture, picture_of
from tests.page.reading import Page

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from archdiff.comparison import Comparison

GPS = 0x8825  # Exif 2.32, tag GPS Info IFD
ORIENTATION = 0x0112
SECRET = b"taken in the secret workshop"


def photograph(width: int = 200, height: int = 120) -> Image.Image:
    """Noise, which no few colours fill, with its left half darker."""
    rng = random.Random(1)
    noise = Image.frombytes("RGB", (width, height), rng.randbytes(width * height * 3))
    shade = Image.new("RGB", (width, height), "white")
    shade.paste((0, 0, 0), (0, 0, width // 2, height))
    return Image.blend(noise, shade, 0.7)


def as_taken(image: Image.Image, orientation: int = 1) -> bytes:
    """A JPEG as a camera writes it: with place, orientation and a comment."""
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    exif[0x010F] = "Maker of the secret camera"
    exif.get_ifd(GPS)[2] = (47.0, 22.0, 11.0)
    target = io.BytesIO()
    image.save(target, "JPEG", exif=exif, comment=SECRET, quality=95)
    return target.getvalue()


def shown(folder: Path, content: bytes, name: str = "picture") -> Picture:
    (folder / name).write_bytes(content)
    return picture_of(folder, name)


def opened(address: str) -> tuple[bytes, Image.Image]:
    content = base64.b64decode(address.partition("base64,")[2], validate=True)
    image = Image.open(io.BytesIO(content))
    image.load()
    return content, image


def as_png(image: Image.Image, **rest: object) -> bytes:
    target = io.BytesIO()
    image.save(target, "PNG", **rest)  # type: ignore[arg-type]
    return target.getvalue()


def test_the_page_holds_the_photograph_without_place_camera_and_comment(
    make: Callable[..., Comparison], tmp_path: Path
) -> None:
    taken = as_taken(photograph())
    before = Image.open(io.BytesIO(taken))
    assert before.getexif().get_ifd(GPS)
    assert before.info["comment"] == SECRET
    (tmp_path / "main.png").write_bytes(taken)  # the record of this comparison shows this file
    (address,) = [a["src"] for tag, a in Page(render_page(make())).tags if tag == "img"]
    content, image = opened(address)
    assert image.format == "JPEG"
    assert image.size == (200, 120)
    assert dict(image.getexif()) == {}
    assert not {"exif", "comment", "icc_profile", "xmp"} & set(image.info)
    assert SECRET not in content
    assert b"secret camera" not in content


@pytest.mark.parametrize(("orientation", "dark"), [(3, "right"), (6, "top"), (8, "bottom")])
def test_a_rotated_photograph_is_upright(tmp_path: Path, orientation: int, dark: str) -> None:
    """Exif 2.32, tag Orientation: 3 is half a turn, 6 a quarter turn clockwise, 8 one anticlockwise (from memory)."""
    picture = shown(tmp_path, as_taken(photograph(), orientation))
    _, image = opened(picture.data)
    assert image.size == (picture.width, picture.height) == ((200, 120) if orientation == 3 else (120, 200))
    width, height = image.size
    spots = {"left": (4, height // 2), "right": (width - 5, height // 2), "top": (width // 2, 4)}
    spots["bottom"] = (width // 2, height - 5)
    grey = image.convert("L").resize((width, height), Image.Resampling.BOX).reduce(8)
    darkest = min(spots, key=lambda spot: int(grey.getpixel((spots[spot][0] // 8, spots[spot][1] // 8))))  # type: ignore[arg-type]
    assert darkest == dark


@pytest.mark.parametrize("size", [(3000, 1000), (1000, 3000)])
def test_a_huge_picture_is_scaled(tmp_path: Path, size: tuple[int, int]) -> None:
    picture = shown(tmp_path, as_taken(photograph(*size)))
    _, image = opened(picture.data)
    assert max(image.size) == 1200
    assert min(image.size) == 400
    assert image.size == (picture.width, picture.height)


def test_a_drawing_stays_sharp_and_a_photograph_becomes_small(tmp_path: Path) -> None:
    drawing = Image.new("RGB", (400, 300), "white")
    ImageDraw.Draw(drawing).line((20, 20, 380, 280), fill="black", width=3)
    _, image = opened(shown(tmp_path, as_png(drawing)).data)
    assert image.format == "PNG"
    assert image.convert("RGB").tobytes() == drawing.tobytes()
    photo = as_png(photograph(600, 400))
    content, image = opened(shown(tmp_path, photo).data)
    assert image.format == "JPEG"
    assert len(content) < len(photo) / 2


def test_a_drawing_loses_its_texts_too(tmp_path: Path) -> None:
    from PIL.PngImagePlugin import PngInfo

    text = PngInfo()
    text.add_text("Author", SECRET.decode())
    content, image = opened(shown(tmp_path, as_png(Image.new("RGB", (40, 30), "white"), pnginfo=text)).data)
    assert SECRET not in content
    assert "Author" not in image.info


def test_what_shines_through_a_photograph_is_white(tmp_path: Path) -> None:
    photo = photograph().convert("RGBA")
    photo.putalpha(0)
    photo.paste(photograph(100, 120).convert("RGBA"), (100, 0))
    _, image = opened(shown(tmp_path, as_png(photo)).data)
    assert image.format == "JPEG"
    assert min(image.getpixel((20, 60))) > 240  # type: ignore[type-var,arg-type]


def test_colours_survive_the_loss_of_their_profile(tmp_path: Path) -> None:
    """Under a profile with red and green exchanged, what is stored as red is meant as green."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    turned = profile.replace(b"rXYZ", b"....").replace(b"gXYZ", b"rXYZ").replace(b"....", b"gXYZ")
    target = io.BytesIO()
    Image.new("RGB", (64, 64), (250, 20, 20)).save(target, "JPEG", icc_profile=turned)
    _, image = opened(shown(tmp_path, target.getvalue()).data)
    red, green, _ = image.convert("RGB").getpixel((32, 32))  # type: ignore[misc]
    assert "icc_profile" not in image.info
    assert (green > 200, red < 100) == (True, True)


def bomb() -> bytes:
    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", 60_000, 60_000, 8, 2, 0, 0, 0)
    packed = zlib.compress(b"\0" * 100_000)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", packed) + chunk(b"IEND", b"")


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (as_taken(photograph())[:900], "broken"),
        (b"\xff\xd8\xff and nothing more", "broken"),
        (as_png(photograph())[:3000], "broken"),
        (b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR", "broken"),
        (b"GIF89a", "broken"),
        (b"RIFF\0\0\0\0WAVEfmt ", "broken"),
        (bomb(), "too many pixels"),
        (b"%!PS-Adobe-3.0 EPSF-3.0", "not a picture"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "not a picture"),
    ],
)
def test_what_cannot_be_decoded_is_told(
    make: Callable[..., Comparison], tmp_path: Path, content: bytes, told: str
) -> None:
    (tmp_path / "main.png").write_bytes(content)
    page = Page(render_page(make()))
    assert [tag for tag, _ in page.tags if tag == "img"] == []
    assert told in page.text


def test_two_decodings_are_the_same(tmp_path: Path) -> None:
    taken = as_taken(photograph())
    assert shown(tmp_path, taken) == shown(tmp_path, taken)
