"""Recorded walks cover all of every shipped tree, as far as any walk can."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import pytest

from shorewalk.author.coverage import Coverage, coverage_of
from shorewalk.author.never import never_met
from shorewalk.author.paths_text import says
from shorewalk.author.trail import Mark
from shorewalk.folders import demo_data
from shorewalk.tree.library import Library

STILL_RECORDED: tuple[str, ...] = ()
"""Trees whose walks are not all written yet. This has to become empty, and stay so."""

NEVER = Path(__file__).with_name("in_no_walk.txt")
ARGUED = {
    "lights-dim.yaml what_it_was, row 36": "every reading that leads here as a stop meets a row above",
    "post-sag.yaml own, missing": "a meter without tenths is not led to the free slots",
    "post-sag.yaml sag_plain, missing": "a meter without tenths is not led to the free slots",
}
"""Ways that are in no walk either, by arithmetic that the linter does not follow."""


@pytest.fixture(scope="module")
def shipped_names(library: Library) -> list[str]:
    """The trees that are held to it."""
    return [name for name in library.names() if name not in STILL_RECORDED]


@pytest.fixture(scope="module")
def covered(library: Library, shipped_names: list[str]) -> Coverage:
    """What all recorded walks cover of them; nothing is searched."""
    return coverage_of(library, shipped_names, sorted((demo_data() / "walks").glob("*.yaml")))


def _words(marks: Iterable[Mark]) -> set[str]:
    return {f"{Path(mark.file).name} {says(mark)}" for mark in marks}


def _listed() -> set[str]:
    lines = NEVER.read_text(encoding="utf-8").splitlines()
    return {line for line in lines if line and not line.startswith("#")}


def test_every_ending_way_band_and_exit_is_in_a_recorded_walk(covered: Coverage) -> None:
    """Only what is known to be in no walk is not covered; what came to be covered is taken off that list."""
    left, known = _words(covered.missing), _listed() | ARGUED.keys()
    assert not covered.problems, "\n".join(map(str, covered.problems))
    assert not left - known, "Not covered:\n" + "\n".join(sorted(left - known))
    assert not known - left, f"Covered, or gone; take it off {NEVER.name}:\n" + "\n".join(
        sorted(known - left)
    )


def test_what_is_listed_is_in_no_walk(library: Library, covered: Coverage) -> None:
    """The linter, going through every walk from every tree, comes to none of the ways that are listed."""
    never = _words(never_met(library, library.names(), covered.missing))
    assert not _listed() - never, "In a walk after all:\n" + "\n".join(sorted(_listed() - never))
