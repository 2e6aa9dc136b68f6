"""What the tests fetch from npm is pinned by content and by nothing that belongs to one machine."""

import json
from pathlib import Path

import pytest

TESTS = Path(__file__).parents[1]
FOLDERS = sorted(path.parent for path in TESTS.glob("*/package-lock.json"))


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_lock_pins_hashes_and_names_no_registry(folder: Path) -> None:
    packages = json.loads((folder / "package-lock.json").read_text(encoding="utf-8"))["packages"]
    fetched = {name: entry for name, entry in packages.items() if name}
    assert fetched
    assert [name for name, entry in fetched.items() if not entry.get("integrity", "").startswith("sha512-")] == []
    assert [name for name, entry in fetched.items() if "resolved" in entry] == []


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_versions_are_exact(folder: Path) -> None:
    wanted = json.loads((folder / "package.json").read_text(encoding="utf-8"))["dependencies"]
    assert all(version.replace(".", "").isdigit() for version in wanted.values())
