"""A walk begun on one machine is finished on another; no file claims an ending."""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from pathlib import Path

import pytest

from shorewalk.handing import (
    NothingToHandOver,
    NotTaken,
    hand_over,
    handed_text,
    read_file,
    read_handed,
    take_over,
)
from shorewalk.journal import Keeper
from shorewalk.journal.store import FILE
from shorewalk.walk.answers import Read
from shorewalk.walk.message import ending

from ..bench.handed.walks import LONG, WRITTEN, handed_of, walked
from .conftest import Machine, bare, kept, rows, sent


def test_a_walk_begun_by_one_is_finished_by_another(machine: Machine, tmp_path: Path) -> None:
    """Through a file, half a walk comes to another machine, is finished there, and comes back whole."""
    here, there = machine("here", WRITTEN), machine("there", WRITTEN)
    whole = walked()
    half = walked(upto=30)
    keeper = kept(here, half)
    path = hand_over(half, keeper, tmp_path)
    walk, other = take_over(read_handed(read_file(path)), there)
    assert (bare(walk), walk.now.node) == (bare(half), half.now.node)
    for answered in whole.answers[30:]:
        walk = walk.answer(answered.answer, WRITTEN)
        other.keep(walk)
    back, _ = take_over(sent(walk, other), here)
    assert bare(back) == bare(walk)
    assert len(here.walks()) == 1


@pytest.mark.parametrize("name", [LONG, "arrival-not-out", "arrival-plug-scorched"])
def test_grades_and_ending_come_out_the_same(machine: Machine, name: str) -> None:
    """A walk that ended has its verdict, its grades and its words there as here."""
    walk = walked(name)
    there, _ = take_over(handed_of(walk), machine("there"))
    assert there.ended
    assert ending(there) == ending(walk)
    assert [known.grade for known in there.now.known] == [known.grade for known in walk.now.known]
    assert there.now.worst == walk.now.worst


@pytest.mark.parametrize("part", range(4))
def test_no_file_claims_an_ending(machine: Machine, part: int) -> None:
    """Without an answer, or with a dead slot where 120 V were read, the same later answers end at nothing good."""
    walk = walked()
    assert ending(walk).verdict == "good-to-use"
    there = machine("there", WRITTEN)
    for n in range(part, len(walk.answers), 12):
        before, answered, after = walk.answers[:n], walk.answers[n], walk.answers[n + 1 :]
        files = [(*before, *after)]
        if isinstance(answered.answer, Read) and answered.answer.text > "1":
            files.append((*before, replace(answered, answer=Read("60.0", confirmed=True)), *after))
        for number, answers in enumerate(files):
            handed = handed_of(walk, answers=answers, id=f"{n:016x}{number:016x}")
            try:
                taken, _ = take_over(handed, there)
            except NotTaken:
                continue
            assert not taken.ended or ending(taken).verdict != "good-to-use", n


def test_nothing_answered_is_nothing_to_hand_over(machine: Machine) -> None:
    """A walk without an answer is begun on the other machine as well."""
    with pytest.raises(NothingToHandOver, match="nothing to hand over"):
        handed_text(walked(upto=0), Keeper(machine("here")))


def test_no_file_is_written_over(machine: Machine, tmp_path: Path) -> None:
    """Handed over twice on one day, there are two files."""
    walk = walked(upto=4)
    keeper = kept(machine("here"), walk)
    first, second = (hand_over(walk, keeper, tmp_path) for _ in range(2))
    assert [path.name for path in (first, second)] == [
        "arrival-2026-05-01.walk.json",
        "arrival-2026-05-01-2.walk.json",
    ]


def test_a_reading_with_an_odd_blank_is_handed_over(machine: Machine) -> None:
    """A blank that cannot be seen is taken by the meter's line, so the file must not be refused for it."""
    walk = walked()
    at = next(n for n, each in enumerate(walk.answers) if isinstance(each.answer, Read))
    text = walk.answers[at].answer.text  # type: ignore[union-attr]
    odd = walked(upto=at).answer(Read(f"{text}\u00a0\x1f V"), WRITTEN)
    handed = sent(odd, kept(machine("here", WRITTEN), odd))
    assert handed.answers[-1].answer == Read(f"{text} V")


def test_a_disk_that_fails_takes_all_or_nothing(machine: Machine, tmp_path: Path) -> None:
    """Where the disk gives up halfway, the walk is refused and nothing of it is there."""
    there = machine("there")
    take_over(handed_of(walked(upto=6)), there)
    with sqlite3.connect(tmp_path / "there" / FILE) as other:
        other.execute(
            "create trigger full before insert on answers when new.n = 9 begin select raise(abort, 'full'); end"
        )
    other.close()
    before = rows(tmp_path / "there")
    for handed in (handed_of(walked(upto=20)), handed_of(walked(upto=20), id="f" * 32)):
        with pytest.raises(NotTaken, match="not taken over"):
            take_over(handed, there)
        assert rows(tmp_path / "there") == before
