"""Trees that are others where the walk arrives, or somebody's own."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from shorewalk.handing import (
    NotTaken,
    handed_text,
    take_over,
)
from shorewalk.handing.taking_over import AHEAD, LOOK, NO_FURTHER, OTHER_TREES
from shorewalk.tree.library import Library
from shorewalk.walk.answers import Done
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import begin

from ..bench.handed.walks import WRITTEN, handed_of, walked
from .conftest import OWN, Machine, kept, rows, sent


def test_other_trees_take_what_fits_and_say_where_it_stopped(machine: Machine, tmp_path: Path) -> None:
    """Where a question is another one here, the walk stops before it, and says to look how things stand."""
    handed = handed_of(walked(upto=20))
    changed = list(handed.answers)
    changed[11] = replace(changed[11], at="asked_elsewhere_only")
    walk, keeper = take_over(replace(handed, answers=tuple(changed)), machine("there"))
    assert len(walk.answers) == 11
    news = str(keeper.news())
    assert "11 of 20 answers fit. Answer 12, to asked_elsewhere_only" in news
    assert LOOK in news
    assert len(rows(tmp_path / "there")) == 1 + 11


def test_what_fits_nothing_further_is_not_said_to_go_on(machine: Machine, tmp_path: Path) -> None:
    """Where the first new answer is to another question here, nothing is written, and that is what is said."""
    there = machine("there")
    take_over(handed_of(walked(upto=11)), there)
    before = rows(tmp_path / "there")
    handed = handed_of(walked(upto=20))
    changed = list(handed.answers)
    changed[11] = replace(changed[11], at="asked_elsewhere_only")
    walk, keeper = take_over(replace(handed, answers=tuple(changed)), there)
    news = str(keeper.news())
    assert news.startswith(f"{NO_FURTHER} The tree was changed since: 11 of 20 answers fit.")
    assert AHEAD not in news
    assert "Taken over" not in news
    assert len(walk.answers) == 11
    assert rows(tmp_path / "there") == before


def test_trees_that_differ_are_told_even_where_all_fits(machine: Machine) -> None:
    """What the trees were there stands in the file; where it is not what they are here, that is said."""
    _, keeper = take_over(handed_of(walked(upto=5), content="f" * 32), machine("there"))
    assert OTHER_TREES in str(keeper.news())
    _, keeper = take_over(handed_of(walked(upto=5)), machine("elsewhere"))
    assert OTHER_TREES not in str(keeper.news())


@pytest.mark.parametrize(
    ("other", "said"),
    [
        ({"tree": "arival"}, 'There is no tree "arival" here. Did you mean "arrival"?'),
        ({"tree": "../arrival"}, "There is no tree"),
        ({"tree": "site/states"}, "There is no tree"),
        ({"tree": "tingle"}, "Not one of its answers fits"),
        ({"shipped": False}, "take-over FILE --trees FOLDER"),
    ],
)
def test_a_walk_that_cannot_be_walked_here_leaves_nothing(
    machine: Machine, tmp_path: Path, other: dict[str, object], said: str
) -> None:
    """It is refused with what to do, and nothing of it is on the disk."""
    there = machine("there")
    with pytest.raises(NotTaken) as refused:
        take_over(handed_of(walked(upto=5), **other), there)
    assert said in str(refused.value)
    assert rows(tmp_path / "there") == []


def test_a_walk_in_own_trees_needs_their_folder(machine: Machine, tmp_path: Path) -> None:
    """The file names no folder of the other machine: whoever takes it over says where the same trees are."""
    folders = []
    for name in ("one", "two"):
        folder = tmp_path / name
        folder.mkdir()
        (folder / "small.yaml").write_text(OWN)
        folders.append(folder)
    walk = begin(Library(folders[0]), "small", parse_meter("basic")).answer(Done(), WRITTEN)
    keeper = kept(machine("here", WRITTEN), walk)
    handed = sent(walk, keeper)
    assert str(tmp_path) not in handed_text(walk, keeper)
    there = machine("there")
    with pytest.raises(NotTaken, match="--trees FOLDER"):
        take_over(handed, there)
    taken, own = take_over(handed, there, Library(folders[1]))
    assert taken.now.node.name == "look"
    assert own.number is not None
    assert there.entry(own.number).folder == str(folders[1])
    with pytest.raises(NotTaken, match="leave the folder out"):
        take_over(handed_of(walked(upto=3)), there, Library(folders[1]))
