"""What `paths --record` writes: its names, its words, its readings; and what it proves to be in no walk."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk.author.coverage import coverage_of
from shorewalk.author.folding import folded
from shorewalk.author.keeping import to_uncovered, write_walks
from shorewalk.author.never import never_met
from shorewalk.author.paths_text import says
from shorewalk.author.trail import gone_on, traced
from shorewalk.folders import demo_data
from shorewalk.recorded import read_recorded
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.source import Problem
from shorewalk.walk.meter import parse_meter

from .conftest import END

METER = parse_meter("basic,tenths")
TREE = """\
tree: dim
symptom: The lamps are dim
begin: seen
nodes:
  seen:
    ask: What do the lights do?
    sign: lights-how
    choices:
      dim: {says: They are dim, goto: volts}
      flicker: {says: They flicker, goto: volts}
      some-dim-some-bright: {says: "Some brighter", goto: volts}
      too-bright: {says: Too bright, goto: volts}
    unsure: volts
  volts:
    measure: {what: ac-volts, place: pedestal-30, from: L, to: "N"}
    bands:
      - {below: utilization-b-low, grade: stop, goto: low}
      - {below: service-a-low, grade: watch, goto: sort}
      - {grade: ok, goto: sort}
    unable: low
  sort:
    judge:
      - {when: {seen: flicker}, goto: low}
      - {when: {seen: flicker}, goto: never}
      - {goto: fine}
    of: [volts]
    missing: never
"""


@pytest.fixture(scope="module")
def dim(tmp_path_factory: pytest.TempPathFactory) -> Library:
    """A library of one small tree: a judge behind bands, two of whose ways no walk can take."""
    folder = tmp_path_factory.mktemp("dim")
    ends = "".join(END.format(name=name) for name in ("low", "fine", "never"))
    (folder / "dim.yaml").write_text(TREE + ends, encoding="utf-8")
    return Library(folder)


@pytest.fixture(scope="module")
def written(dim: Library, tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """The files written for it."""
    missing = coverage_of(dim, ["dim"], []).missing
    walks = to_uncovered(dim, ["dim"], missing, METER)
    return write_walks(walks, tmp_path_factory.mktemp("walks"), dim.folder)


def test_what_is_not_covered_then_is_in_no_walk(dim: Library, written: list[Path]) -> None:
    """All that walks can cover is; the rest is proved, not given up."""
    left = coverage_of(dim, ["dim"], written).missing
    assert {says(mark) for mark in left} == {"sort, row 2", "sort, missing", "ending never"}
    assert never_met(dim, ["dim"], left) == set(left)


def test_nothing_that_a_walk_covers_is_said_to_be_in_none(dim: Library) -> None:
    """What is proved leaves out only those three."""
    every = coverage_of(dim, ["dim"], []).every
    assert len(never_met(dim, ["dim"], every)) == 3


def test_a_file_is_named_by_where_it_ends_and_says_so(written: list[Path]) -> None:
    """Tree and ending first, then the answer that led there; what happened stands in its `about`."""
    assert all(path.stem.startswith(("dim-low", "dim-fine")) for path in written)
    told = "".join(path.read_text(encoding="utf-8") for path in written)
    assert "What the lights do: They flicker." in told
    assert "Ends in leave as is; the park is called first." in told
    assert told.count("a campground that does not exist.") == len(written)


def test_readings_lie_away_from_the_limits(written: list[Path], dim: Library) -> None:
    """Limits there are 104 and 114 V; no reading lies within a volt of one, though one in each band is recorded."""
    answers = [answer for path in written for _, _, answer, _ in read_recorded(path, dim).answers]
    read = [float(text) for answer in answers if (text := getattr(answer, "text", None))]
    assert {sum(volts >= limit for limit in (104, 114)) for volts in read} == {0, 1, 2}
    assert all(abs(volts - limit) > 1 for volts in read for limit in (104, 114))


def test_walks_folded_together_go_as_each_alone() -> None:
    """Every answer, way and ending of the recorded walks of one tree, with times and without."""
    library = shipped()
    files = [*demo_data().glob("walks/tingle-*.yaml"), *demo_data().glob("walks/arrival-30-late-*.yaml")]
    recorded = [read_recorded(path, library) for path in files]
    assert len(recorded) > 10
    for one, found in folded(library, recorded):
        assert not isinstance(found, Problem)
        answers = [(answer, time) for _, _, answer, time in one.answers]
        alone, ways = traced(library, one.walk, one.meter, answers)
        assert found.answers == alone.answers
        assert gone_on(found) == ways
        assert found.now.node is alone.now.node
