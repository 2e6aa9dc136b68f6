"""Every table says of every value where it comes from, how that was checked and when."""

from __future__ import annotations

from datetime import date
from importlib.resources import files
from typing import Any

import pytest
import yaml

from archdiff.tables import CHECKED, read_table

# The kinds of quantity a record may state: definitions of our own format, not published values.
OWN = {"quantities.yaml"}
FILES = sorted(f.name for f in files("archdiff.tables").iterdir() if f.name.endswith(".yaml") and f.name not in OWN)


@pytest.mark.parametrize("name", FILES)
def test_each_row_has_source_check_and_date(name: str) -> None:
    text = (files("archdiff.tables") / name).read_text("utf-8")
    data: dict[str, Any] = yaml.safe_load(text)
    assert data["title"]
    for source in data["sources"].values():
        assert source["name"]
        assert "edition" in source, source
    used = set()
    for key, row in data["rows"].items():
        used.add(row["source"])
        assert row["checked"] in CHECKED, key
        assert isinstance(row["on"], date), key
        values = {k: v for k, v in row.items() if k not in ("source", "checked", "on", "note")}
        assert values, key
        for column, value in values.items():
            is_number = isinstance(value, list) or (isinstance(value, int | float) and not isinstance(value, bool))
            assert not is_number or column in data.get("units", {}), (key, column, "has no unit")
            assert not isinstance(value, list) or value[0] <= value[1], (key, column)
    assert used == set(data["sources"]), "a source that no row names, or the reverse"


@pytest.mark.parametrize("name", FILES)
def test_it_can_be_read(name: str) -> None:
    table = read_table(name.removesuffix(".yaml"))
    assert all(row.cited.endswith(CHECKED) for row in table.rows.values())
