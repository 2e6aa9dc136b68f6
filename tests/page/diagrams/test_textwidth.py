"""The width table against the metrics of the fonts it stands for."""

import struct
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from archdiff.page.diagrams.textwidth import shorten, width, wrap

FONTS = Path("/usr/share/fonts/truetype/liberation")
LATIN = "".join(chr(code) for code in range(32, 127)) + "×±°µ–…äöüéñçßÅØΩ²"  # noqa: RUF001


# Adobe Core 14 font metrics (Helvetica.afm, Helvetica-Bold.afm), the WX column; from memory.
@pytest.mark.parametrize(
    ("sign", "regular", "bold"),
    [
        (" ", 278, 278),
        ("A", 667, 722),
        ("W", 944, 944),
        ("i", 222, 278),
        ("m", 833, 889),
        ("0", 556, 556),
        ("@", 1015, 975),
    ],
)
def test_widths_are_those_published_for_helvetica(sign: str, regular: int, bold: int) -> None:
    assert width(sign, 1000) == regular
    assert width(sign, 1000, bold=True) == bold


def _advances(path: Path) -> dict[str, float]:
    """Advance widths in thousandths of the type size, from the font's own cmap (format 4) and hmtx tables."""
    data = path.read_bytes()
    tables = {}
    for n in range(struct.unpack(">H", data[4:6])[0]):
        tag, _, offset, _ = struct.unpack(">4sIII", data[12 + 16 * n : 28 + 16 * n])
        tables[tag] = offset
    per_em = struct.unpack(">H", data[tables[b"head"] + 18 : tables[b"head"] + 20])[0]
    metrics = struct.unpack(">H", data[tables[b"hhea"] + 34 : tables[b"hhea"] + 36])[0]
    cmap = tables[b"cmap"]
    for n in range(struct.unpack(">H", data[cmap + 2 : cmap + 4])[0]):
        offset = cmap + struct.unpack(">I", data[cmap + 8 + 8 * n : cmap + 12 + 8 * n])[0]
        if struct.unpack(">H", data[offset : offset + 2])[0] == 4:
            break
    twice = struct.unpack(">H", data[offset + 6 : offset + 8])[0]
    ends, starts, deltas, ranges = (
        struct.unpack(f">{twice // 2}{kind}", data[at : at + twice])
        for kind, at in zip(
            "HHhH", (offset + 14, offset + 16 + twice, offset + 16 + 2 * twice, offset + 16 + 3 * twice), strict=True
        )
    )
    found = {}
    for sign in LATIN:
        code = ord(sign)
        segment = next(n for n, end in enumerate(ends) if end >= code)
        glyph = 0
        if starts[segment] <= code:
            if ranges[segment]:
                at = offset + 16 + 3 * twice + 2 * segment + ranges[segment] + 2 * (code - starts[segment])
                glyph = struct.unpack(">H", data[at : at + 2])[0]
            else:
                glyph = code + deltas[segment]
        at = tables[b"hmtx"] + 4 * min(glyph & 0xFFFF, metrics - 1)
        found[sign] = struct.unpack(">H", data[at : at + 2])[0] * 1000 / per_em
    return found


@pytest.mark.parametrize(("file", "bold"), [("LiberationSans-Regular.ttf", False), ("LiberationSans-Bold.ttf", True)])
def test_no_latin_sign_is_wider_in_liberation_sans(file: str, bold: bool) -> None:  # noqa: FBT001
    if not (FONTS / file).exists():
        pytest.skip("Liberation Sans is not installed")
    for sign, advance in _advances(FONTS / file).items():
        assert advance - 1 <= width(sign, 1000, bold=bold) <= 1.6 * advance, sign


def test_signs_outside_the_table_are_taken_wide() -> None:
    assert width("気", 10) >= 10
    assert width("😀", 10) >= 12
    assert width("e\u0301", 10) == width("é", 10) == width("e", 10)


@given(st.text(max_size=80), st.lists(st.floats(30, 200), min_size=1, max_size=4))
def test_wrapped_lines_fit_and_lose_nothing_unsaid(text: str, limits: list[float]) -> None:
    lines, whole = wrap(text, 10, tuple(limits))
    assert len(lines) <= len(limits)
    for line, limit in zip(lines, limits, strict=False):
        assert width(line, 10) <= limit or len(line) == 1
    if whole:
        assert "".join("".join(lines).split()) == "".join(text.split())
    else:
        assert lines[-1].endswith("…")


def test_a_number_stays_with_its_unit() -> None:
    assert wrap("system on chip, 7 x 7 mm", 9.5, (100.0, 100.0))[0] == ("system on chip,", "7\u00a0x\u00a07\u00a0mm")


def test_shorten_keeps_what_fits() -> None:
    assert shorten("short", 10, 100) == "short"
    assert shorten("rather a long phrase", 10, 60).endswith("…")
    assert width(shorten("rather a long phrase", 10, 60), 10) <= 60


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("electrostatic clamp array, SOT-23-6", "SOT-23-6"),
        ("Volume adjustment \u00d7 2", "\u00d7\u00a02"),
        ("wire harness, 8 ways", "8\u00a0ways"),
    ],
)
def test_a_number_is_never_torn_from_what_it_belongs_to(text: str, kept: str) -> None:
    for limit in range(70, 200, 5):
        lines, whole = wrap(text, 9.5, (float(limit),) * 6)
        assert whole
        assert any(kept in line for line in lines), (limit, lines)


def test_words_still_break_after_a_hyphen() -> None:
    assert wrap("short-range", 10, (30.0, 60.0))[0] == ("short-", "range")
