"""Tiny line icons, one for each way the vocabulary says a thing is drawn, on a field of 12 by 12 px."""

from typing import Final

_FALLBACK: Final = "M2.5 2.5h7v7h-7z"
_PATHS: Final[dict[str, str]] = {
    "chip": "M3 3h6v6H3zM4.5 1v2M7.5 1v2M4.5 9v2M7.5 9v2M1 4.5h2M1 7.5h2M9 4.5h2M9 7.5h2",
    "module": "M1.5 2.5h9v7h-9zM1.5 4.5h9M4 6.2h4v1.8H4z",
    "passive": "M.8 6h1.7l1-2 1.6 4 1.7-4 1.6 4 1-2h1.8",
    "connector": "M2 3.5h8v5H2zM4 3.5v-2M6 3.5v-2M8 3.5v-2M4 6v2.5M6 6v2.5M8 6v2.5",
    "key": "M2 9.5h8M3.5 9.5V7h5v2.5M6 1v3.6M4.4 3.2L6 4.8l1.6-1.6",
    "touch": "M6 4.6a1.4 1.4 0 1 1 .01 0M3 7.4a4.2 4.2 0 1 1 6 0M6 4.6v6.2M4.4 9.2L6 10.9l1.6-1.7",
    "lamp": (
        "M3.6 6a2.4 2.4 0 1 1 4.8 0 2.4 2.4 0 0 1-4.8 0M6 .8v1.4M6 9.8v1.4M.8 6h1.4M9.8 6h1.4M2.3 2.3l1 1"
        "M8.7 8.7l1 1M9.7 2.3l-1 1M3.3 8.7l-1 1"
    ),
    "display": "M1.2 2h9.6v6.4H1.2zM4 10.6h4M3 6.4l1.8-1.8 1.4 1.2L9 3.8",
    "sensor": (
        "M6 10.5V7M6 7a1.4 1.4 0 1 1 .01 0M3.2 7.6a3.6 3.6 0 0 1 0-4.4M8.8 7.6a3.6 3.6 0 0 0 0-4.4"
        "M1.6 9a6 6 0 0 1 0-7.2M10.4 9a6 6 0 0 0 0-7.2"
    ),
    "microphone": (
        "M4.4 2.6a1.6 1.6 0 0 1 3.2 0v2.8a1.6 1.6 0 0 1-3.2 0zM2.6 5.2a3.4 3.4 0 0 0 6.8 0M6 8.6v2.4"
        "M4 11h4"
    ),
    "loudspeaker": "M1.2 4.4h2L6.2 2v8l-3-2.4h-2zM8 4.2a2.6 2.6 0 0 1 0 3.6M9.6 2.6a4.8 4.8 0 0 1 0 6.8",
    "motor": "M2 6a4 4 0 1 1 8 0 4 4 0 0 1-8 0M4.2 7.8V4.2L6 6.4l1.8-2.2v3.6M10 6h1.4",
    "fan": (
        "M6 6C4.1 4.4 4.5 1.1 6.6 1.1 8.6 1.1 8 4.2 6 6"
        "M6 6C8.3 5.2 11 7.2 9.9 9 8.9 10.7 6.6 8.6 6 6"
        "M6 6C5.6 8.4 2.5 9.7 1.5 7.9 0.5 6.2 3.4 5.2 6 6"
    ),
    "antenna": "M6 11V5M2.4 1.4L6 5l3.6-3.6M6 5V1.4",
    "coil": "M.8 8h1.4c0-4 2.8-4 2.8-.6 0-3.4 2.6-3.4 2.6 0 0-3.4 2.4-3.4 2.4.6h1.2M1 10.4h10",
    "battery": "M1 3.4h8.6v5.2H1zM9.6 5h1.4v2H9.6M3.2 5v2M5.3 5v2",
    "plug": "M3 3.6h6v2.6a3 3 0 0 1-6 0zM4.6 3.6V1M7.4 3.6V1M6 9.2v2.2",
    "shield": "M1.6 3.4L3 2h6l1.4 1.4v5.2L9 10H3L1.6 8.6zM4 5h.01M6 5h.01M8 5h.01M4 7.2h.01M6 7.2h.01M8 7.2h.01",
    "plate": "M1 7.6L3.4 4h7.6L8.6 7.6zM1 7.6v1.2h7.6l2.4-3.6V4M8.6 7.6v1.2",
    "vent": "M2.6 2.2v7.6M6 2.2v7.6M9.4 2.2v7.6",
    "crystal": "M4 2.6h4v6.8H4zM2.4 2.6v6.8M9.6 2.6v6.8M.6 6h1.8M9.6 6h1.8",
    "switch": "M1 8h2.4M3.4 8l5-3.4M8.6 8H11M3.4 8h.01M8.6 8h.01",
    "dial": "M2 6a4 4 0 1 1 8 0 4 4 0 0 1-8 0M6 6l2-2.4M1 10.6h10",
    "camera": "M1 3.6h2.4l1-1.4h3.2l1 1.4H11v6H1zM4.2 6.4a1.8 1.8 0 1 1 3.6 0 1.8 1.8 0 0 1-3.6 0",
    "window": (
        "M1.4 6S3.2 2.8 6 2.8 10.6 6 10.6 6 8.8 9.2 6 9.2 1.4 6 1.4 6"
        "M4.7 6a1.3 1.3 0 1 1 2.6 0 1.3 1.3 0 0 1-2.6 0"
    ),
    "screw": "M3 1.6h6v2.2H3zM4.8 3.8v6L6 11.2l1.2-1.4v-6M4.8 5.6l2.4 1M4.8 7.6l2.4 1",
    "board": "M1.2 2.4h9.6v7.2H1.2zM3 4.4h2.4v2.2H3zM7.2 4.4H9M7.2 6.2H9M3 8.2h6",
    "cable": "M1 3.4c5 0 5 5.2 10 5.2M1 5.4c4 0 4 5.2 10 5.2M1 1.4c6 0 6 5.2 10 5.2",
    "clip": "M3.4 10.6V3.4a2.6 2.6 0 0 1 5.2 0v5a1.4 1.4 0 0 1-2.8 0V4",
    "case": "M1.4 4.2L6 1.8l4.6 2.4v5L6 11 1.4 9.2zM1.4 4.2L6 6.2l4.6-2M6 6.2V11",
    "seal": (
        "M6 1.6c2.8 0 4.6 1.8 4.6 4.4S8.8 10.4 6 10.4 1.4 8.6 1.4 6 3.2 1.6 6 1.6"
        "M6 3.6c1.6 0 2.6 1 2.6 2.4S7.6 8.4 6 8.4 3.4 7.4 3.4 6 4.4 3.6 6 3.6"
    ),
    "pad": "M1.4 3.4h9.2M1.4 8.6h9.2M2.6 3.4v5.2M9.4 3.4v5.2M4.4 5h.01M6 7h.01M7.6 5h.01",
    "guide": "M1.4 9.8V7.2C1.4 3.8 3.8 2 7.4 2h3.2M4.4 9.8V7.6c0-1.6 1.2-2.6 3-2.6h3.2",
    "glue": "M6 1.2c2 2.6 3.2 4.2 3.2 6A3.2 3.2 0 0 1 6 10.6a3.2 3.2 0 0 1-3.2-3.4c0-1.8 1.2-3.4 3.2-6",
    "tag": "M1.6 1.6h4.2l4.8 4.8-4.2 4.2-4.8-4.8zM4 4h.01",
    "lens": "M6 1.2c2.4 2.8 2.4 6.8 0 9.6-2.4-2.8-2.4-6.8 0-9.6M.8 6h2.6M8.6 6h2.6",
    "printed": "M1.4 10.4V2h9.2M1.4 5h5.8v3H3.6M7.2 5h3.4",
}  # fmt: skip


def icon(shape: str) -> str:
    """Return the strokes for a drawn-as word; a plain square for a word without an icon of its own."""
    return f'<path d="{_PATHS.get(shape, _FALLBACK)}"/>'


def known(shape: str) -> str:
    """The word itself, or the one that stands for all without an icon of their own."""
    return shape if shape in _PATHS else "other"


def shapes() -> tuple[str, ...]:
    """The drawn-as words that have an icon of their own, in alphabetical order."""
    return tuple(sorted(_PATHS))
