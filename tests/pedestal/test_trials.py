"""The bench that tries faults many times: a few of each, and what its tables say."""

from __future__ import annotations

from random import Random

import pytest

from shorewalk.pedestal.faults import NOTHING
from shorewalk.pedestal.park import build

from ..bench.sound import HIGH, LOW, range_a
from ..bench.trials import Job, arrival_table, harmed_lines, referral_lines, sound_lines, walk


def test_sound_loops_lie_within_range_a_and_are_of_every_kind() -> None:
    """Split phase, 208 V and one hot; neighbours even and lopsided; each leg of the pedestal between 114 and 126 V."""
    loops = [range_a(Random(seed)) for seed in range(40)]  # noqa: S311 - no secret
    assert {loop.service for loop in loops} == {"split-phase", "208", "one-hot"}
    assert any(loop.neighbour1 and not loop.neighbour2 for loop in loops)
    for loop in loops:
        solved = build(loop).solve()
        for leg in loop.hots:
            assert LOW <= solved.read(f"pedestal.{leg}", "pedestal.N")[0] <= HIGH


def test_a_sound_loop_is_used_and_a_fault_of_the_park_is_not() -> None:
    """Two variants at each outlet; counted by verdict, by call, and by who was let into use unnamed."""
    sound = walk(Job("arrival", NOTHING.id, 1, 2, sound=True))
    found = {("arrival", "reversed"): walk(Job("arrival", "reversed", 1, 2))}
    assert next(sound_lines(sound)) == "Sound loops within Range A: 6 of 6 in use (100.00 %)."
    assert list(arrival_table(found))[2:] == ["| reversed | park | 6 | 6 | 0 | 0 | park 6 |"]
    assert list(harmed_lines(found)) == []


@pytest.mark.parametrize(("fault", "row"), [("panel-short", "electrician 6 | fault_at_main 6 |")])
def test_a_fault_in_its_own_tree_is_a_line_of_who_is_called(fault: str, row: str) -> None:
    """Whose it is, the tree, the calls, where the walks ended."""
    found = {("breaker-trips", fault): walk(Job("breaker-trips", fault, 1, 2, felt=True))}
    assert list(referral_lines(found))[2:] == [f"| {fault} | rig | breaker-trips | {row}"]
