import xml.etree.ElementTree as ET

import pytest

from archdiff.page import graphs
from archdiff.page.graphs import signal_map, supply_tree

TEXT = r"""
boards: {main: {outline: 60 x 40 mm}}
parts:
  U1: {name: "<b>host</b> \\N \"q\"", on: main, function: host processing, means: microcontroller, joined_to: [U2], fed_by: v33}
  U2: {name: "<<i>x</i>>", on: main, function: program storage, means: serial flash, joined_to: [U1]}
  U3: {on: main, function: voltage conversion, means: linear regulator}
power:
  entry: {jack: {on: main, means: coaxial dc plug, voltage: 5 V}}
  rails: {v33: {voltage: 3.3 V, from: jack, made_by: U3, feeds: [U2]}}
"""


@pytest.fixture
def record(record_of):
    return record_of(TEXT)


def test_supply_runs_from_entry_to_loads(record):
    graph = supply_tree(record, "a-")
    assert {(arrow.source, arrow.label) for arrow in graph.arrows} == {
        ("power entry", "through voltage conversion"),
        ("v33", ""),
    }
    assert len(graph.arrows) == 3


def test_each_pair_of_talkers_is_one_line(record):
    assert len(signal_map(record, "b-").arrows) == 1


def test_dot_text_holds_record_text_only_as_escaped_labels(record):
    dot = supply_tree(record, "a-").dot
    assert r"\\N" in dot
    assert "label=<" not in dot


def test_the_picture_is_well_formed_and_its_ids_are_its_own(record):
    for graph, prefix in ((supply_tree(record, "a-"), "a-"), (signal_map(record, "b-"), "b-")):
        tree = ET.fromstring(graph.svg)
        ids = [node.get("id") for node in tree.iter() if node.get("id")]
        assert ids
        assert all(name.startswith(prefix) for name in ids)
        text = "".join(tree.itertext())
        assert "<b>host</b>" in text or "<<i>x</i>>" in text
        assert not [node for node in tree.iter() if node.tag.endswith(("}i", "}b"))]


def test_without_any_dot_the_table_stands_alone(record, monkeypatch):
    graphs.dot_program.cache_clear()
    monkeypatch.setattr(graphs.shutil, "which", lambda *_, **__: None)
    try:
        graph = supply_tree(record, "a-")
        assert graph.svg == ""
        assert graph.arrows
    finally:
        graphs.dot_program.cache_clear()


def test_a_dot_that_does_not_draw_is_passed_over(monkeypatch, tmp_path):
    broken = tmp_path / "dot"
    broken.write_text("#!/bin/sh\nexit 1\n")
    broken.chmod(0o755)
    graphs.dot_program.cache_clear()
    monkeypatch.setattr(graphs.shutil, "which", lambda name, **_: str(broken) if name == "dot" else None)
    try:
        assert graphs.dot_program() is None
    finally:
        graphs.dot_program.cache_clear()


def test_nothing_stated_draws_nothing(record_of):
    record = record_of("boards: {main: {outline: 60 x 40 mm}}\n")
    assert supply_tree(record, "a-") is None
    assert signal_map(record, "a-") is None
