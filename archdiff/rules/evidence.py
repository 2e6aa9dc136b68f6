"""Evidence: every file that a statement rests on is there, beside the record, and can be shown."""

from __future__ import annotations

from pathlib import Path, PurePosixPath, PureWindowsPath
from typing import TYPE_CHECKING

from archdiff.problems import Severity
from archdiff.rules.facts import near
from archdiff.rules.rule import Finding, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from archdiff.record import Record

_PICTURES = frozenset({"photo", "sketch", "x-ray"})
_SHOWN = (".png", ".jpg", ".jpeg", ".webp", ".gif")
_MUST_REST_ON_SOMETHING = frozenset({"measured", "read"})


@rule("evidence-outside-folder", order=800)
def evidence_outside_folder(record: Record) -> Iterator[Finding]:
    """The file of a piece of evidence lies outside the folder of the record."""
    for path, stated in _files(record):
        if _leads_out(record, stated):
            message = f"'{stated}' does not lie in the folder of this record"
            hint = "copy the file beside the record and state its path from there, such as 'photos/main-top.png'"
            yield Finding(path, message, hint)


@rule("evidence-file-missing", order=801)
def evidence_file_missing(record: Record) -> Iterator[Finding]:
    """The file of a piece of evidence does not exist."""
    folder = Path(record.file).parent
    for path, stated in _files(record):
        if _leads_out(record, stated) or _is_file(folder / stated):
            continue
        beside = _neighbours(folder, stated)
        hint = near(stated, beside, "put the file there, or delete 'file' and say in 'shows' what was seen")
        yield Finding(path, f"there is no file '{stated}' in the folder of this record", hint)


@rule("evidence-cannot-be-shown", order=802, severity=Severity.WARNING)
def evidence_cannot_be_shown(record: Record) -> Iterator[Finding]:
    """A picture is of a file type that a page cannot show."""
    for path, stated in _files(record):
        kind = record.evidence[str(path[1])].get("kind")
        if kind in _PICTURES and not stated.lower().endswith(_SHOWN):
            message = f"a {kind} in the file '{stated}' cannot be shown on a page"
            yield Finding(path, message, f"save it as one of: {', '.join(_SHOWN)}")


@rule("measured-without-evidence", order=803, severity=Severity.WARNING)
def measured_without_evidence(record: Record) -> Iterator[Finding]:
    """A thing is said to be measured or read, and no evidence is named for it."""
    for element in record.elements.values():
        if element.sure in _MUST_REST_ON_SOMETHING and not element.evidence:
            message = f"{element.id} is said to be {element.sure}, and nothing is named that a reader could check"
            hint = "add 'evidence: […]' with the measurement, marking or document, or say 'seen' or 'inferred'"
            yield Finding((*element.path, "sure"), message, hint)


@rule("measured-without-measurement", order=804, severity=Severity.WARNING)
def measured_without_measurement(record: Record) -> Iterator[Finding]:
    """A thing is said to be measured, and all that is named for it are pictures, markings or papers."""
    for element in record.elements.values():
        named = [record.evidence[name] for name in element.evidence if name in record.evidence]
        if element.sure == "measured" and named and all(entry.get("kind") != "measurement" for entry in named):
            message = f"{element.id} is said to be measured, and none of its evidence is a measurement"
            hint = "name the measurement under 'evidence', or say 'read' or 'seen'"
            yield Finding((*element.path, "sure"), message, hint)


def _files(record: Record) -> Iterator[tuple[tuple[str | int, ...], str]]:
    for name, entry in record.evidence.items():
        if "file" in entry:
            yield ("evidence", name, "file"), str(entry["file"])


def _leads_out(record: Record, stated: str) -> bool:
    windows = PureWindowsPath(stated)
    if "://" in stated or windows.drive or windows.root or PurePosixPath(stated).is_absolute():
        return True
    if _climbs_out(windows.parts):
        return True
    folder = Path(record.file).parent
    try:
        # A link may still lead out of the folder.
        return not (folder / stated).resolve().is_relative_to(folder.resolve())
    except (OSError, RuntimeError, ValueError):
        return False


def _climbs_out(steps: tuple[str, ...]) -> bool:
    depth = 0
    for step in steps:
        depth += -1 if step == ".." else 1
        if depth < 0:
            return True
    return False


def _is_file(path: Path) -> bool:
    try:
        return path.is_file()
    except (OSError, ValueError):  # a name that no file can have
        return False


def _neighbours(folder: Path, stated: str) -> list[str]:
    inside = (folder / stated).parent
    try:
        return [found.relative_to(folder).as_posix() for found in inside.iterdir() if found.is_file()]
    except (OSError, ValueError):
        return []
