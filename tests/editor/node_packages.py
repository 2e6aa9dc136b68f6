"""Pinned npm packages for the tests that need them: fetched once, into a cache folder, and checked by their hashes."""

import hashlib
import os
import shutil
import subprocess
import tempfile
from pathlib import Path
from typing import NoReturn

import pytest

FETCH_SECONDS = 300


def in_ci() -> bool:
    """Whether the run is the project's gate, where a missing tool is a failure and never a skip."""
    return os.environ.get("CI", "").lower() in {"1", "true"}


def cannot_run(reason: str) -> NoReturn:
    """Skip with `reason`; under CI fail with it."""
    if in_ci():
        pytest.fail(f"{reason} (CI is set, so nothing may be skipped)", pytrace=False)
    pytest.skip(reason)


def program(*names: str) -> str:
    """The first of `names` that is on the PATH."""
    for name in names:
        if found := shutil.which(name):
            return found
    cannot_run(f"no {' or '.join(names)} on this machine")


def node_modules(folder: Path) -> Path:
    """The `node_modules` folder holding what `folder`'s lock file pins; fetched on first use.

    The cache lives in `folder/.work`, under a name made from the lock file, so that a changed pin is fetched anew.
    """
    program("node")
    lock = (folder / "package-lock.json").read_bytes()
    place = folder / ".work" / hashlib.sha256(lock).hexdigest()[:16]
    if not place.exists():
        _fetch(folder, place)
    return place / "node_modules"


def _fetch(folder: Path, place: Path) -> None:
    """Fetch beside `place` and move there in one step: a run cut short leaves no half-filled cache."""
    npm = program("npm")
    place.parent.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory(dir=place.parent) as scratch:
        fresh = Path(scratch) / "fresh"
        fresh.mkdir()
        for name in ("package.json", "package-lock.json", ".npmrc"):
            shutil.copy(folder / name, fresh)
        _npm_ci(npm, fresh, folder.name)
        try:
            fresh.rename(place)
        except OSError:
            if not place.exists():  # else another run was quicker, and its copy is as good
                raise


def _npm_ci(npm: str, place: Path, whose: str) -> None:
    quiet = ["--ignore-scripts", "--no-audit", "--no-fund", "--fetch-retries=1", "--fetch-retry-mintimeout=1000"]
    try:
        done = subprocess.run(
            [npm, "ci", *quiet], cwd=place, capture_output=True, text=True, timeout=FETCH_SECONDS, check=False
        )
    except subprocess.TimeoutExpired:
        cannot_run(f"npm did not fetch the packages of the {whose} tests within {FETCH_SECONDS} s")
    if done.returncode:
        why = " ".join(done.stderr.split("\n")[:3])
        cannot_run(f"npm cannot fetch the packages of the {whose} tests: {why}")
