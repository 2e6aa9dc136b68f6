"""Writing files: whole or not at all, and never over what archdiff did not write."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from archdiff.problems import EnvironmentTroubleError

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

# Every output carries one of these near its beginning, so that a second run may replace the first one's output.
_OURS = ("archdiff", "subsystem,function,verdict", "family,figure,id,of")
_HEAD = 4096


def write_all(texts: Mapping[Path, str], inputs: Iterable[str | Path], *, overwrite: bool = False) -> None:
    """Write every text to its file, or none of them.

    Args:
        texts: what to write, by path; folders are made as needed.
        inputs: files that are never written over.
        overwrite: also replace files that archdiff did not write.

    Raises:
        EnvironmentTroubleError: a path is an input, a folder or not ours to replace, or cannot be written.

    >>> write_all({Path("plinsk-wink.yaml"): ""}, ["plinsk-wink.yaml"])
    Traceback (most recent call last):
    ...
    archdiff.problems.EnvironmentTroubleError: plinsk-wink.yaml: is one of the inputs; name another output file
    """
    for path in texts:
        _refuse(path, inputs, overwrite=overwrite)
    ready: list[tuple[Path, Path]] = []
    try:
        for path, text in texts.items():
            ready.append((_beside(path, text), path))
        for temporary, path in ready:
            temporary.replace(path)
    except OSError as error:
        where = error.filename or next(iter(texts))
        raise EnvironmentTroubleError(f"{where}: cannot be written: {error.strerror or error}") from error
    finally:
        for temporary, _ in ready:
            temporary.unlink(missing_ok=True)


def _refuse(path: Path, inputs: Iterable[str | Path], *, overwrite: bool) -> None:
    if not path.exists():
        return
    if path.is_dir():
        raise EnvironmentTroubleError(f"{path}: is a folder; name a file")
    if any(Path(source).exists() and path.samefile(source) for source in inputs):
        raise EnvironmentTroubleError(f"{path}: is one of the inputs; name another output file")
    if not overwrite and not _is_ours(path):
        raise EnvironmentTroubleError(
            f"{path}: exists and was not written by archdiff; name another file, or say --overwrite"
        )


def _is_ours(path: Path) -> bool:
    """Whether archdiff wrote it. No YAML is: archdiff writes none, and the analyst's own files name archdiff."""
    if path.suffix.lower() in (".yaml", ".yml"):
        return False
    try:
        with path.open("rb") as file:
            head = file.read(_HEAD)
    except OSError:
        return False
    return not head or any(mark.encode() in head for mark in _OURS)


def _beside(path: Path, text: str) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent)
    temporary = Path(name)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        temporary.chmod(0o666 & ~_umask())
    except OSError:
        temporary.unlink(missing_ok=True)
        raise
    return temporary


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
