import os

import pytest

from archdiff.files import write_all
from archdiff.problems import EnvironmentTroubleError

OURS = "<!doctype html>\n<meta name=generator content=archdiff>"


def test_writes_and_makes_the_folder(tmp_path):
    page = tmp_path / "deep" / "page.html"
    write_all({page: OURS}, [])
    assert page.read_text() == OURS
    assert [path.name for path in page.parent.iterdir()] == ["page.html"]


def test_replaces_its_own_output(tmp_path):
    page = tmp_path / "page.html"
    write_all({page: OURS}, [])
    write_all({page: OURS + "two"}, [])
    assert page.read_text() == OURS + "two"


def test_never_writes_over_an_input_however_it_is_named(tmp_path):
    record = tmp_path / "left.yaml"
    record.write_text("archdiff: 1")
    link = tmp_path / "link.html"
    link.symlink_to(record)
    for target in (record, tmp_path / "." / "left.yaml", link):
        with pytest.raises(EnvironmentTroubleError, match="input"):
            write_all({target: OURS}, [record], overwrite=True)
    assert record.read_text() == "archdiff: 1"


@pytest.mark.parametrize("name", ["other.yaml", "letter.html"])
def test_refuses_what_it_did_not_write_unless_told(tmp_path, name):
    other = tmp_path / name
    other.write_text("archdiff: 1" if name.endswith("yaml") else "dear sir")
    with pytest.raises(EnvironmentTroubleError, match="not written by archdiff"):
        write_all({other: OURS}, [])
    assert other.read_text() != OURS
    write_all({other: OURS}, [], overwrite=True)
    assert other.read_text() == OURS


def test_writes_all_or_nothing(tmp_path):
    good, bad = tmp_path / "a.html", tmp_path / "file" / "b.json"
    (tmp_path / "file").write_text("a file where a folder is needed")
    with pytest.raises(EnvironmentTroubleError, match="cannot be written"):
        write_all({good: OURS, bad: OURS}, [])
    assert not good.exists()
    assert sorted(path.name for path in tmp_path.iterdir()) == ["file"]


def test_a_folder_is_no_file(tmp_path):
    with pytest.raises(EnvironmentTroubleError, match="folder"):
        write_all({tmp_path: OURS}, [])


def test_new_files_follow_the_umask(tmp_path):
    before = os.umask(0o027)
    try:
        write_all({tmp_path / "a.html": OURS}, [])
    finally:
        os.umask(before)
    assert (tmp_path / "a.html").stat().st_mode & 0o777 == 0o640
