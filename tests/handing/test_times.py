"""Times in a file: none of them makes a reading younger than it is."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from shorewalk.handing import (
    take_over,
)
from shorewalk.handing.taking_over import CLOCKS
from shorewalk.handing.times import LONG_AGO, believed
from shorewalk.tree.library import shipped
from shorewalk.walk.answers import Read
from shorewalk.walk.record import record_markdown
from shorewalk.walk.walk import resume

from ..bench.handed.walks import LATER, SOON, handed_of, walked
from .conftest import Machine, bare

AT_A_LOOK = 48
"""Answers of the long walk after which slots were read and the next question rests on it."""


@pytest.mark.parametrize(
    "time", [None, "", "noon", "2026-05-01T12:08:00", "2999-01-01T00:00:00Z", "2026-05-01T13:00:01Z"]
)
def test_a_reading_of_no_time_that_can_be_is_old(time: str | None) -> None:
    """Missing, not to be read, without a zone, or later than the file: the reading counts as taken long ago."""
    walk = walked(upto=AT_A_LOOK)
    assert any(walk.now.looks.values())
    answers = tuple(
        replace(each, time=time) if isinstance(each.answer, Read) else each for each in walk.answers
    )
    believing = believed(handed_of(walk, answers=answers), SOON)
    assert {each.time for each in believing if isinstance(each.answer, Read)} == {LONG_AGO}


def test_readings_are_as_old_as_they_are(machine: Machine) -> None:
    """Taken over at once, the looks hold; taken over hours later, they do not, as on the machine they came from."""
    walk = walked(upto=AT_A_LOOK)
    last = str(walk.answers[-1].time)
    handed = handed_of(walk, written=last)
    held = {look for look, holds in walk.now.looks.items() if holds}
    at_once, _ = take_over(handed, machine("there", last))
    assert held
    assert {look for look, holds in at_once.now.looks.items() if holds} == held
    late, _ = take_over(handed, machine("elsewhere", LATER))
    assert not any(late.now.looks.values())


def test_a_clock_that_is_ahead_makes_nothing_fresh(machine: Machine) -> None:
    """Where the file was written at a time yet to come here, the walk comes back the way it went, all of it old."""
    walk = walked(upto=AT_A_LOOK)
    there, keeper = take_over(handed_of(walk), machine("there", "2026-05-01T12:08:30Z"))
    assert CLOCKS in str(keeper.news())
    assert bare(there) == bare(walk)
    assert any(walk.now.looks.values())
    assert not any(there.now.looks.values())
    assert all(str(each.time) < "2000" for each in there.answers)
    assert {known.time for known in there.now.known} == {None}
    record = record_markdown(there)
    assert "When: not noted" in record
    assert not re.search(r"\b1999\b|\d\d:\d\d:\d\d", record)


def test_no_time_in_a_file_makes_a_reading_younger() -> None:
    """Whatever stands for a time, no look holds there that would not hold with the times as they were."""
    walk = walked(upto=AT_A_LOOK)
    for n in [n for n, each in enumerate(walk.answers) if isinstance(each.answer, Read)][::3]:
        for time in (
            "2026-05-01T13:30:00Z",
            "2026-05-01T12:00:00+14:00",
            "9999-12-31T23:59:59-14:00",
            "0001-01-01T00:00:00+23:59",
        ):
            answers = (
                *walk.answers[:n],
                replace(walk.answers[n], time=time, resumed=time),
                *walk.answers[n + 1 :],
            )
            believing = believed(handed_of(walk, answers=answers), LATER)
            again, _ = resume(shipped(), walk.tree, walk.meter, believing, LATER)
            assert not any(again.now.looks.values())
