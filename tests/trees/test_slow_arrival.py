"""Somebody who takes long: readings at the slots that are too old when the cord goes in."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

import pytest

from shorewalk.folders import demo_data
from shorewalk.recorded import read_recorded
from shorewalk.tree.library import Library
from shorewalk.walk.answers import Answer, Choose, Done
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk, begin, resume

AGAIN = (("sockets_again", "sockets"), ("dead_at_last", "dead_again"), ("hook_up_again", "hook_up"))
Slow = Callable[..., Walk]


@pytest.fixture(params=["arrival-20-bare", "arrival-30-good", "arrival-50-good"])
def slowly(request: pytest.FixtureRequest, library: Library) -> Slow:
    """Walk as recorded, eight seconds an answer; more minutes go by before the `late` ones."""
    recorded = read_recorded(demo_data() / f"walks/{request.param}.yaml", library)
    given: dict[str, list[Answer]] = {}
    for _, at, answer, _ in recorded.answers:
        given.setdefault(str(at), []).append(answer)

    def walk_on(late: Mapping[str, int]) -> Walk:
        walk, seconds, left = begin(library, recorded.walk, recorded.meter), 0, dict(late)
        told = {at: list(answers) for at, answers in given.items()}
        while not walk.ended:
            name = walk.now.node.name
            seconds += 8 + 60 * left.pop(re.sub("_[235]0", "", name), 0)
            walk = walk.answer(_as_recorded(name, told, given), _time(seconds))
        assert not left
        return walk

    return walk_on


def _time(seconds: int) -> str:
    minutes, second = divmod(seconds, 60)
    return f"2026-05-01T{10 + minutes // 60:02d}:{minutes % 60:02d}:{second:02d}Z"


def _as_recorded(name: str, told: dict[str, list[Answer]], given: dict[str, list[Answer]]) -> Answer:
    """Return what was recorded there; of what is asked again, what was recorded the first time."""
    if told.get(name):
        return told[name].pop(0)
    for again, before in AGAIN:
        name = name.replace(again, before)
    return given[name][0] if name in given else Done()


def _asked(walk: Walk) -> list[str]:
    return [answered.at for answered in walk.answers]


def test_who_is_quick_is_not_sent_back(slowly: Slow) -> None:
    """At eight seconds an answer nothing is read twice, and the walk ends well."""
    walk = slowly({})
    assert not [at for at in _asked(walk) if "again" in at and at.startswith(("sockets", "hook_up"))]
    assert ending(walk).verdict in ("good-to-use", "use-with-care")


@pytest.mark.parametrize("late", ["hook_up.uncoil", "hook_up.rig_end", "hook_up.fit", "hook_up.breaker_on"])
def test_who_is_slow_reads_again_and_ends_well(slowly: Slow, late: str) -> None:
    """Twenty minutes anywhere between slots and power: the plug out if it is in, the slots again, used with care."""
    walk = slowly({late: 20})
    asked = [re.sub("_[235]0", "", at) for at in _asked(walk)]
    assert asked.count("stale") == 1
    pulled = {"hook_up.fit": "hook_up.stale_in", "hook_up.breaker_on": "hook_up.stale_on.cord_out"}
    out = [at for at in asked if at.endswith(("stale_in", "stale_on.cord_out"))]
    assert out == ([pulled[late]] if late in pulled else [])
    assert "hook_up_again.uncoil" not in asked
    assert asked.index("sockets_again.neutral_ground") < asked.index("hook_up_again.breaker_on")
    end = ending(walk)
    assert (end.verdict, end.lowered) == ("use-with-care", ())
    assert walk.now.looks["full-look"]
    assert not walk.now.looks["look-a"]


def test_who_is_slow_once_more_ends_with_the_cord_out(slowly: Slow) -> None:
    """Nobody is sent round for ever: too late a second time the cord stays out, and the park is called for help."""
    walk = slowly({"hook_up.uncoil": 20, "hook_up_again.fit": 20})
    end = ending(walk)
    assert (end.at, end.verdict, end.call, end.lowered) == ("too_slow", "stay-unplugged", "park", ())


def test_a_walk_taken_up_again_later_is_sent_back(slowly: Slow, library: Library) -> None:
    """What was answered before keeps its time: the first new answer makes the readings of then too old."""
    walk = slowly({})
    at = next(i for i, answered in enumerate(walk.answers) if answered.at.endswith(".fit"))
    taken_up, lost = resume(library, "arrival", walk.meter, walk.answers[:at])
    assert lost == 0
    assert taken_up.answer(Choose("home"), "2026-05-02T09:00:00Z").now.node.name.endswith(".stale_in")
