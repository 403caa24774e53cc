"""An arrival that is left anywhere and taken up later: which readings are asked again, and when that is too late."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta

import pytest

from shorewalk.folders import demo_data
from shorewalk.recorded import read_recorded
from shorewalk.tree.library import Library
from shorewalk.tree.model import Measure
from shorewalk.walk import state as states
from shorewalk.walk.answers import Answer, Done, Read
from shorewalk.walk.walk import Walk, begin, resume

BEGUN = datetime(2026, 5, 1, 10, 0, tzinfo=UTC)
EVERY = timedelta(seconds=8)
"""How long somebody takes for an answer."""
LASTS = timedelta(minutes=15)
AGAIN = (("sockets_again", "sockets"), ("dead_at_last", "dead_again"), ("hook_up_again", "hook_up"))
WALKS = ("arrival-20-bare", "arrival-30-good", "arrival-50-good")


class Arrival:
    """A recorded arrival; what is asked again is answered as the first time."""

    def __init__(self, name: str, library: Library) -> None:
        recorded = read_recorded(demo_data() / f"walks/{name}.yaml", library)
        self.library, self.recorded = library, recorded
        self.given: dict[str, Answer] = {}
        for _, at, answer, _ in recorded.answers:
            self.given.setdefault(str(at), answer)

    def begin(self) -> Walk:
        return begin(self.library, self.recorded.walk, self.recorded.meter)

    def answer(self, name: str) -> Answer:
        if name not in self.given:
            for again, before in AGAIN:
                name = name.replace(again, before)
        return self.given.get(name, Done())

    def go_on(self, walk: Walk, now: datetime) -> Iterator[Walk]:
        """Yield the walk at every question from here on, then at its ending."""
        while not walk.ended:
            yield walk
            now += EVERY
            walk = walk.answer(self.answer(walk.now.node.name), now.isoformat())
        yield walk


@pytest.fixture(scope="module", params=WALKS)
def arrival(request: pytest.FixtureRequest, library: Library) -> Arrival:
    return Arrival(request.param, library)


def slot(walk: Walk) -> bool:
    """Whether the open question is a reading at the slots of a pedestal's outlet."""
    node = walk.now.node
    return isinstance(node, Measure) and node.place.startswith("pedestal-")


def plug_may_be_in(walk: Walk) -> bool:
    node = walk.now.node
    assert isinstance(node, Measure)
    return states.may(walk.ledger.standing, "cord", node.place, walk.library.site.states)


def oldest_look(walk: Walk, outlet: str) -> datetime:
    """When the oldest of the pairs of the full look was last read."""
    pairs = {
        frozenset((pair.from_, pair.to)) for pair in walk.library.site.places[outlet].looks["full-look"].pairs
    }
    last: dict[frozenset[str], str] = {}
    for answered in walk.answers:
        node = walk.library.tree(answered.tree).nodes[answered.at]
        if not isinstance(node, Measure) or not isinstance(answered.answer, Read) or not answered.time:
            continue
        if node.place == outlet and node.load.amount == "none" and "dead" not in node.name:
            last[frozenset((node.from_, node.to))] = answered.time
    return min(datetime.fromisoformat(last[pair]) for pair in pairs)


def taken_up(left: Walk, now: datetime) -> Walk:
    walk, lost = resume(left.library, left.tree, left.meter, left.answers, now.isoformat())
    assert lost == 0
    return walk


@pytest.mark.parametrize("minutes", [0, 16, 180, -30])
def test_left_anywhere_it_comes_to_power_only_by_fresh_readings(arrival: Arrival, minutes: int) -> None:
    """Wherever it was left: no slot is read that may hold a plug, and the breaker goes on by readings under 15 minutes.

    Who comes back at once is asked nothing twice.
    """
    course = list(arrival.go_on(arrival.begin(), BEGUN))
    for cut in range(1, len(course) - 1, 2 if minutes == 16 else 7):
        left = course[cut]
        now = BEGUN + EVERY * cut + timedelta(minutes=minutes)
        powered = left.now.energised
        for walk in arrival.go_on(taken_up(left, now), now):
            assert not (slot(walk) and plug_may_be_in(walk)), walk.now.node.name
            if walk.now.energised == "yes" != powered:
                outlet = walk.now.state["cord"]
                read, switched = oldest_look(walk, outlet), walk.answers[-1].time
                assert timedelta(0) <= datetime.fromisoformat(switched or "") - read <= LASTS
            powered = walk.now.energised
        if minutes == 0:
            assert [one.at for one in walk.answers] == [one.at for one in course[-1].answers]


@pytest.mark.parametrize(
    ("minutes", "asked"), [(0, "plug_in"), (5, "plug_in"), (16, "stale"), (180, "stale"), (-30, "stale")]
)
def test_left_with_the_plug_in_hand_the_slots_come_first(arrival: Arrival, minutes: int, asked: str) -> None:
    """Taken up too late, nobody is told to plug in by what was read before: the way back to the slots comes at once."""
    course = list(arrival.go_on(arrival.begin(), BEGUN))
    left = next(walk for walk in course if ".plug_in" in walk.now.node.name)
    walk = taken_up(left, datetime.fromisoformat(left.answers[-1].time or "") + timedelta(minutes=minutes))
    came = "plug_in" if "plug_in" in walk.now.node.name else "stale"
    assert came == asked
    assert walk.now.looks["full-look"] == (asked == "plug_in")


@pytest.mark.parametrize("minutes", [16, -30])
def test_left_with_the_plug_in_it_comes_out_first(arrival: Arrival, minutes: int) -> None:
    """With the plug in, and the power not on yet, the plug comes out before the slots are asked for."""
    course = list(arrival.go_on(arrival.begin(), BEGUN))
    left = next(walk for walk in course if re.fullmatch(r"hook_up_\d+\.breaker_on", walk.now.node.name))
    now = datetime.fromisoformat(left.answers[-1].time or "") + timedelta(minutes=minutes)
    assert taken_up(left, now).now.node.name.endswith(".stale_in")


@pytest.mark.parametrize("now", [None, timedelta(hours=3), timedelta(minutes=-30)])
def test_taken_back_after_taking_up_late_the_breaker_stays_off(
    arrival: Arrival, now: timedelta | None
) -> None:
    """Taken up 3 hours after the breaker went on, that answer taken back, nobody is told to switch it on again."""
    course = list(arrival.go_on(arrival.begin(), BEGUN))
    switched = next(walk for walk in course if re.fullmatch(r"hook_up_\d+\.breaker_on", walk.now.node.name))
    left = course[course.index(switched) + 1]
    last = datetime.fromisoformat(left.answers[-1].time or "")
    walk = taken_up(left, last + timedelta(hours=3))
    back = walk.back(None if now is None else (last + now).isoformat())
    assert back.now.node.name.endswith(".stale_in")
    assert not back.now.looks["full-look"]
    assert left.back(last.isoformat()).now.node.name == switched.now.node.name
