"""All recorded walks, tree by tree; what walks have in common from the beginning is folded once."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk.author.folding import folded
from shorewalk.folders import demo_data
from shorewalk.recorded import Recorded, read_recorded
from shorewalk.replay import differences
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.source import Problem
from shorewalk.walk.ending import ending
from shorewalk.walk.walk import Walk

TREES = shipped().names()
FILES = sorted(demo_data().glob("walks/*.yaml"))


def _of(tree: str) -> list[Path]:
    return [path for path in FILES if path.read_text(encoding="utf-8").startswith(f"walk: {tree}\n")]


@pytest.mark.parametrize("tree", TREES)
def test_every_recorded_walk_ends_as_recorded(tree: str, library: Library) -> None:
    """The same answers, to the same questions, lead to the same ending, verdict and call as when they were recorded."""
    recorded = [read_recorded(path, library) for path in _of(tree)]
    wrong = [text for one, found in folded(library, recorded) for text in _otherwise(one, found)]
    assert not wrong, "\n".join(wrong)


def _otherwise(recorded: Recorded, found: Walk | Problem) -> list[str]:
    """Return where a walk went otherwise than recorded."""
    if isinstance(found, Problem):
        return [str(found)]
    for (place, at, _, _), answered in zip(recorded.answers, found.answers, strict=True):
        if at != answered.at:
            return [f"{place}: this answers {answered.at}, not {at}"]
    if not found.ended:
        return [f"{recorded.file}: the walk goes on at {found.now.node.name}"]
    lacking = {"at", "verdict", "call"} - {name for _, name, _ in recorded.ends}
    return [
        *map(str, differences(recorded, ending(found))),
        *(f"{recorded.file}: no {name}" for name in lacking),
    ]


@pytest.mark.parametrize("tree", TREES)
def test_every_tree_has_walks_that_say_they_are_invented(tree: str) -> None:
    """There are walks from the beginning of every tree, and none can be taken for one that happened."""
    mine = _of(tree)
    assert mine
    assert all("invented" in path.read_text(encoding="utf-8") for path in mine)


def test_no_two_files_hold_the_same_walk(library: Library) -> None:
    """What is recorded twice is written once."""
    seen: dict[object, str] = {}
    for path in FILES:
        one = read_recorded(path, library)
        key = (one.walk, one.meter, tuple((answer, time) for _, _, answer, time in one.answers))
        assert key not in seen, f"{path.name} is {seen[key]} once more."
        seen[key] = path.name
