"""Whatever of a walk is there already is neither lost nor doubled."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from shorewalk.handing import (
    NotTaken,
    take_over,
)
from shorewalk.handing.taking_over import AHEAD, APART, BEHIND, OPEN, SAME
from shorewalk.tree.model import Ask, Measure
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Unable, Unsure
from shorewalk.walk.walk import Refused, Walk

from ..bench.handed.walks import NAME, WRITTEN, handed_of, walked
from .conftest import HOLDS, Machine, bare, rows


def test_where_it_was_goes_along(machine: Machine) -> None:
    """Site and park are kept there; what the other machine knows better of the same walk stays."""
    there = machine("there")
    _, keeper = take_over(handed_of(walked(upto=5)), there)
    assert keeper.number is not None
    assert there.entry(keeper.number)[-5:] == ("Someday Flats", "14", None, None, "handed")
    there.label(keeper.number, site="15")
    take_over(handed_of(walked(upto=6)), there)
    assert there.entry(keeper.number)[-5:] == ("Someday Flats", "15", None, None, "handed")


def test_the_same_walk_again_changes_nothing(machine: Machine, tmp_path: Path) -> None:
    """A file that is taken over twice is said to be here already, and opens the walk that is here."""
    there = machine("there")
    first, one = take_over(handed_of(walked(upto=20)), there)
    before = rows(tmp_path / "there")
    again, two = take_over(handed_of(walked(upto=20)), there)
    assert (two.number, bare(again)) == (one.number, bare(first))
    assert SAME in str(two.news())
    assert rows(tmp_path / "there") == before


def test_an_older_file_takes_nothing_away(machine: Machine, tmp_path: Path) -> None:
    """Where the walk here is further on, it stays so."""
    there = machine("there")
    take_over(handed_of(walked(upto=20)), there)
    before = rows(tmp_path / "there")
    walk, keeper = take_over(handed_of(walked(upto=12)), there)
    assert len(walk.answers) == 20
    assert BEHIND in str(keeper.news())
    assert rows(tmp_path / "there") == before


def test_a_later_file_goes_on_with_the_same_walk(machine: Machine) -> None:
    """Where the file is further on, the walk here goes on; times that were taken here are kept."""
    there = machine("there")
    _, one = take_over(handed_of(walked(upto=12)), there)
    later = handed_of(walked(upto=20))
    moved = replace(later, answers=tuple(replace(each, time=WRITTEN) for each in later.answers))
    walk, two = take_over(moved, there)
    assert two.number == one.number
    assert AHEAD in str(two.news())
    assert [each.time for each in walk.answers[:12]] == [each.time for each in walked(upto=12).answers]
    assert {each.time for each in walk.answers[12:]} == {WRITTEN}
    assert len(there.walks()) == 1


def other_way(walk: Walk) -> Walk:
    """Answer the question after a walk otherwise than the recorded one, and the next one too."""
    for answer in (Unsure(), Cannot()):
        try:
            other = walk.answer(answer, WRITTEN)
        except Refused:
            continue
        if not other.ended:
            return other
    raise LookupError


def test_two_ways_on_are_two_walks(machine: Machine) -> None:
    """Answered on in two places, both are kept; the file of the other one finds its own walk again, and goes on."""
    there = machine("there")
    ours = next(walk for n in range(8, 20) if (walk := _or_none(n)))
    take_over(handed_of(walked(upto=30)), there)
    walk, keeper = take_over(handed_of(ours), there)
    assert bare(walk) == bare(ours)
    assert APART in str(keeper.news())
    assert len(there.walks()) == 2
    again, same = take_over(handed_of(ours), there)
    assert (same.number, bare(again)) == (keeper.number, bare(ours))
    further = ours.answer(Unable() if isinstance(ours.now.node, Measure) else _first(ours), WRITTEN)
    longer, third = take_over(handed_of(further), there)
    assert (third.number, bare(longer)) == (keeper.number, bare(further))
    assert len(there.walks()) == 2


def _or_none(count: int) -> Walk | None:
    try:
        return other_way(walked(upto=count))
    except LookupError:
        return None


def _first(walk: Walk) -> Answer:
    node = walk.now.node
    return Choose(node.choices[0].id) if isinstance(node, Ask) else Done()


def test_a_walk_that_is_open_in_another_terminal_is_not_written_over(
    machine: Machine, tmp_path: Path
) -> None:
    """Two programs do not write one walk: the file waits until it is left there."""
    there = machine("there")
    number = there.take_in(walked(upto=12), NAME)
    before = rows(tmp_path / "there")
    words = [sys.executable, "-c", HOLDS, str(tmp_path / "there"), str(number)]
    with subprocess.Popen(words, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as other:
        assert other.stdout
        assert other.stdout.readline() == "True\n"
        with pytest.raises(NotTaken, match=OPEN[:30]):
            take_over(handed_of(walked(upto=20)), there)
        other.communicate()
    assert rows(tmp_path / "there") == before
    take_over(handed_of(walked(upto=20)), there)
    assert rows(tmp_path / "there") != before
