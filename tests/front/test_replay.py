"""Recorded walks, replayed."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from shorewalk.exits import Exit
from shorewalk.folders import demo_data
from shorewalk.replay import read_recorded, replay, replay_files
from shorewalk.tree.library import Library
from shorewalk.tree.source import TreeError

GOOD = """\
walk: small
meter: good,tenths
answers:
  - {at: begin, done: "yes"}
  - {choose: enough}
  - {reading: "12.18", confirmed: "yes", time: "2024-05-01T18:30:00Z"}
ends: {at: out, verdict: stay-unplugged, call: park}
"""


@pytest.fixture
def read(tree: Path, tmp_path: Path) -> Callable[[str], Any]:
    """Read and replay a recorded walk of the small tree."""

    def play(text: str) -> Any:
        path = tmp_path / "walk.yaml"
        path.write_text(text)
        library = Library(tree.parent)
        return replay(read_recorded(path, library), library)

    return play


@pytest.mark.parametrize("file", sorted(demo_data().glob("walks/*.yaml")), ids=lambda path: path.stem)
def test_the_walks_of_the_invented_campground_end_as_recorded(file: Path) -> None:
    """Every recorded walk leads to the ending that it names: verdict and first call."""
    recorded = read_recorded(file)
    _, problems = replay(recorded)
    assert not problems, "\n".join(map(str, problems))
    assert {"verdict", "call"} <= {name for _, name, _ in recorded.ends}


def test_a_walk_may_name_the_file_of_its_tree(tree: Path) -> None:
    """A tree of one's own is named by its file, seen from the recorded walk, wherever it is replayed from."""
    folder = tree.parent / "walks"
    folder.mkdir()
    file = folder / "enough.yaml"
    file.write_text(GOOD.replace("walk: small", "walk: ../small.yaml"), encoding="utf-8")
    end, problems = replay(read_recorded(file))
    assert not problems
    assert end is not None
    assert end.at == "out"
    file.write_text(GOOD.replace("walk: small", "walk: ../smal.yaml"), encoding="utf-8")
    with pytest.raises(
        TreeError, match=r'enough\.yaml:1:7: There is no tree "smal"\. Did you mean "small"\?'
    ):
        read_recorded(file)


def test_a_walk_that_ends_as_recorded_has_no_problem(read: Callable[[str], Any]) -> None:
    """Answers may leave out where they belong, and carry a time and a confirmation."""
    end, problems = read(GOOD)
    assert not problems
    assert end.verdict == "stay-unplugged"


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        (
            "verdict: stay-unplugged",
            "verdict: good-to-use",
            7,
            'verdict "stay-unplugged"; "good-to-use" is recorded',
        ),
        ("call: park", "call: electrician", 7, 'call "park"; "electrician" is recorded'),
        ("at: begin", "at: light", 4, 'to "light", but "begin" is asked'),
        ("choose: enough", "choose: plenty", 5, '"light" refuses this answer'),
        ("choose: enough", "choose: too-dark", 6, "ended before this answer"),
        (', confirmed: "yes"', "", 6, '"volts" refuses this answer'),
        ("- {choose: enough}", "- {at: light, choose: enough}\n  - {done: x}", 6, None),
    ],
)
def test_what_goes_otherwise_is_told_where_it_stands(
    read: Callable[[str], Any], old: str, new: str, line: int, words: str | None
) -> None:
    """A different ending, question or refusal names file, line and column of the answer."""
    text = GOOD.replace(old, new)
    if words is None:
        with pytest.raises(TreeError, match=rf"walk\.yaml:{line}:\d+: "):
            read(text)
        return
    _, problems = read(text)
    assert len(problems) == 1
    assert re.match(rf".*walk\.yaml:{line}:\d+: ", str(problems[0]))
    assert words in problems[0].message


def test_answers_that_stop_short_are_told(read: Callable[[str], Any]) -> None:
    """A walk that goes on after the last answer has not ended as recorded."""
    _, (problem,) = read(GOOD.replace("12.18", "121.8"))
    assert "goes on" in problem.message
    assert problem.place.line == 6


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("walk: smal\nanswers: []\nends: {at: out}\n", 'Did you mean "small"'),
        ("walk: small\nanswer: []\nends: {at: out}\n", 'Did you mean "answers"'),
        ("walk: small\nanswers: [{done: no}]\nends: {at: out}\n", "takes only true"),
        ("walk: small\nanswers: [{}]\nends: {at: out}\n", "exactly one of these keys"),
        ("walk: small\nanswers: [x]\nends: {at: out}\n", "Keys and values are wanted"),
        ("walk: small\nanswers: x\nends: {at: out}\n", "A list of answers is wanted"),
        ("walk: small\nanswers: []\n", "Keys and values are wanted"),
        ("walk: small\nanswers: []\nends: {verdit: x}\n", 'Did you mean "verdict"'),
        ("walk: small\nmeter: cheap\nanswers: []\nends: {at: out}\n", "cheap"),
        ("walk: [small]\nanswers: []\nends: {at: out}\n", "one word"),
        ("walk: small\nwalk: small\n", "second time"),
        ("", "is empty"),
        ("walk: {\n", ""),
    ],
)
def test_a_file_that_is_no_recorded_walk_is_told_with_its_place(
    read: Callable[[str], Any], text: str, words: str
) -> None:
    """Every mistake has file, line and column, and the nearest valid name."""
    with pytest.raises(TreeError, match=r"walk\.yaml:\d+:\d+: ") as caught:
        read(text)
    assert words in str(caught.value)


def test_all_mistakes_are_told_at_once(read: Callable[[str], Any]) -> None:
    """Nobody mends a file one message at a time."""
    with pytest.raises(TreeError) as caught:
        read("walk: smal\nmetre: basic\nanswers: [{doen: x}, {at: begin}]\nends: {att: x}\n")
    assert len(caught.value.problems) >= 4


def test_the_exit_code_is_the_worst_of_all_files(tmp_path: Path) -> None:
    """0 where all end as recorded, 1 where one does not, 3 where one cannot be read."""
    good = next(demo_data().glob("walks/tingle-*.yaml"))
    other = tmp_path / "other.yaml"
    other.write_text(re.sub("verdict: [a-z-]+", "verdict: good-to-use", good.read_text(encoding="utf-8")))
    said: list[str] = []
    assert replay_files([good], said.append, said.append) == Exit.CLEAN
    assert replay_files([good, other], said.append, said.append) == Exit.FINDINGS
    assert replay_files([other, tmp_path / "none.yaml", good], said.append, said.append) == Exit.UNFINISHED
    assert "none.yaml:1:1: The file cannot be read" in "\n".join(said)
