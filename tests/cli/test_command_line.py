import json
import os
import subprocess
import sys

import pytest

from archdiff import __version__
from archdiff.cli import main

GOOD = """\
archdiff: 1
product: {name: %s, kind: night light}
coverage: {boards: whole, parts: whole, controls: whole}
boards: {main: {outline: 40 x 30 mm, placements: {top: 9, bottom: 0}}}
parts: {U1: {on: main, side: top, function: host processing, means: microcontroller}}
controls: {key: {on: main, function: mode selection, means: %s}}
"""


@pytest.fixture
def pair(tmp_path):
    left, right = tmp_path / "left.yaml", tmp_path / "right.yaml"
    left.write_text(GOOD % ("Ulmo", "tactile switch"))
    right.write_text(GOOD % ("Brask", "slide switch"))
    return left, right


def test_version_and_help(capsys):
    for words, said in ((["--version"], __version__), (["--help"], "compare"), (["compare", "--help"], "example:")):
        with pytest.raises(SystemExit) as stop:
            main(words)
        assert stop.value.code == 0
        assert said in capsys.readouterr().out


def test_compare_writes_what_was_asked_for(pair, tmp_path, capsys):
    page, data = tmp_path / "page.html", tmp_path / "data.json"
    assert main(["compare", *map(str, pair), "-o", str(page), "--json", str(data)]) == 0
    assert page.read_text().lower().startswith("<!doctype html>")
    assert (json.loads(data.read_text())["left"], json.loads(data.read_text())["right"]) == ("Ulmo", "Brask")
    assert capsys.readouterr().out.split() == [str(data), str(page)]


def test_faults_of_all_files_are_reported_and_nothing_is_written(pair, tmp_path, capsys):
    left, right = pair
    left.write_text(left.read_text().replace("outline:", "outlin:"))
    right.write_text(right.read_text().replace("on: main", "on: mian"))
    page = tmp_path / "page.html"
    assert main(["compare", str(left), str(right), "-o", str(page)]) == 1
    said = capsys.readouterr().err
    assert f"{left}:4:17: unknown-entry" in said
    assert f"{right}:5:18: " in said
    assert f"{right}:6:22: " in said
    assert not page.exists()


def test_check_says_what_it_found(pair, capsys):
    left, right = pair
    assert main(["check", str(left), str(right)]) == 0
    right.write_text("archdiff: 2\n")
    assert main(["check", str(left), str(right)]) == 1
    said = capsys.readouterr().out
    assert f"{left}: 0 faults" in said
    assert f"{right}:1:11: not-one-of" in said
    assert f"{right}:1:1: missing-entry: 'product' is missing here" in said


def test_check_takes_notes_and_holds_them_against_the_records_that_they_name(pair, tmp_path, capsys):
    left, right = pair
    notes = tmp_path / "notes.yaml"
    head = f"archdiff_notes: 1\nleft: {left.name}\nright: {right.name}\n"
    notes.write_text(head)
    assert main(["check", str(notes)]) == 0
    notes.write_text(head + "never: [{left: nowhere, right: nothing}]\n")
    assert main(["check", str(notes)]) == 1
    assert f"{notes}:4:16: no-such-element" in capsys.readouterr().out
    notes.write_text(head.replace(right.name, "lost.yaml"))
    assert main(["check", str(notes)]) == 1
    assert f"{notes}:3:8: no-such-record: the right record 'lost.yaml'" in capsys.readouterr().out


def test_notes_for_a_record_and_a_record_for_notes_are_told_in_one_line(pair, tmp_path, capsys):
    left, right = pair
    notes = tmp_path / "notes.yaml"
    notes.write_text("archdiff_notes: 1\n")
    page = str(tmp_path / "page.html")
    assert main(["compare", str(notes), str(right), "-o", page]) == 1
    said = capsys.readouterr().err
    assert f"{notes}:1:1: other-format: this is a file of notes" in said
    assert said.count(f"{notes}:") == 1
    assert main(["compare", str(left), str(right), "--notes", str(left), "-o", page]) == 1
    assert "other-format: this is a file of one product's record" in capsys.readouterr().err


@pytest.mark.parametrize(
    "extra", [[], ["-o", "{left}"], ["-o", "{dir}"], ["-o", "{dir}/x.html", "--json", "{dir}/x.html"]]
)
def test_trouble_is_2_and_changes_nothing(pair, tmp_path, extra):
    left, right = pair
    before = left.read_text()
    words = ["compare", str(left), str(right), *(word.format(left=left, dir=tmp_path) for word in extra)]
    try:
        status = main(words)
    except SystemExit as stop:
        status = stop.code
    assert status == 2
    assert left.read_text() == before
    assert sorted(path.name for path in tmp_path.iterdir()) == ["left.yaml", "right.yaml"]


def test_a_file_that_is_not_there_is_trouble(tmp_path, capsys):
    assert main(["check", str(tmp_path / "none.yaml")]) == 2
    assert "none.yaml" in capsys.readouterr().err


def test_notes_with_faults_stop_the_work(pair, tmp_path, capsys):
    notes = tmp_path / "notes.yaml"
    notes.write_text("archdiff_notes: 1\ntie: [{left: U1, right: U7}]\n")
    assert main(["compare", *map(str, pair), "--notes", str(notes), "-o", str(tmp_path / "p.html")]) == 1
    assert "no-such-element" in capsys.readouterr().err


def test_demo_writes_pages_and_leaves_the_users_records_alone(tmp_path, capsys):
    assert main(["demo", "-o", str(tmp_path / "demo")]) == 0
    pages = capsys.readouterr().out.split()
    assert [os.path.basename(page) for page in pages] == ["air-monitors.html", "bike-lights.html"]  # noqa: PTH119
    notes = tmp_path / "demo" / "bike-lights" / "notes.yaml"
    notes.write_text(notes.read_text() + "# mine\n")
    assert main(["demo", "-o", str(tmp_path / "demo")]) == 0
    assert notes.read_text().endswith("# mine\n")


def test_figures_are_listed_one_a_line(capsys):
    from archdiff.figures import all_figures

    assert main(["figures", "--list"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line.split("\t")[0] for line in lines] == [figure.id for figure in all_figures()]


def test_words_and_figures_are_listed(capsys):
    assert main(["words", "MCU"]) == 0
    assert main(["figures"]) == 0
    said = capsys.readouterr().out
    assert "board-count" in said
    assert main(["words", "volum adjustment"]) == 2
    assert "volume adjustment" in capsys.readouterr().err


def test_a_closed_pipe_is_no_error():
    done = subprocess.run(  # noqa: S602 - the shell's pipe is what is tested
        f"{sys.executable} -m archdiff figures | head -1", shell=True, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0
    assert "Traceback" not in done.stderr


def test_help_loads_no_slow_library():
    script = (
        "import sys; from archdiff.cli.arguments import parser; parser();"
        "print([m for m in ('yaml', 'numpy', 'scipy', 'pint', 'jinja2', 'jsonschema', 'deepdiff') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
