"""The recorded walks of the trees that begin plugged in or in trouble."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk.folders import demo_data
from shorewalk.replay import read_recorded, replay
from shorewalk.tree.library import Library

TREES = (
    "adapter",
    "air-conditioner",
    "bad-pedestal",
    "batteries-flat",
    "breaker-trips",
    "comes-and-goes",
    "generator-change",
    "ground-fault-trips",
    "half-power",
    "hot-plug",
    "leaving",
    "lights-dim",
    "no-power",
    "outlet-loose",
    "protector-refuses",
    "some-bright",
    "somebody-hurt",
    "something-broke",
    "storm",
    "tingle",
    "voltage-high",
    "voltage-low",
    "wont-go-dead",
)
FILES = sorted(
    path
    for path in demo_data().glob("walks/*.yaml")
    if path.read_text(encoding="utf-8").startswith(tuple(f"walk: {name}\n" for name in TREES))
)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_a_recorded_walk_ends_as_recorded(path: Path, library: Library) -> None:
    """The same answers lead to the same ending, verdict and call as when they were recorded."""
    recorded = read_recorded(path, library)
    end, problems = replay(recorded, library)
    assert not problems
    assert end is not None
    assert {name for _, name, _ in recorded.ends} >= {"at", "verdict", "call"}


@pytest.mark.parametrize("tree", TREES)
def test_the_main_endings_are_recorded(tree: str, library: Library) -> None:
    """Every tree has walks to at least five different endings, and every file says that it is invented."""
    mine = [path for path in FILES if path.read_text(encoding="utf-8").startswith(f"walk: {tree}\n")]
    ends = {value for path in mine for _, name, value in read_recorded(path, library).ends if name == "at"}
    assert len(ends) >= 5
    assert all("invented" in path.read_text(encoding="utf-8") for path in mine)
