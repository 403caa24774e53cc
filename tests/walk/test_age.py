"""How long a reading at the slots counts: 15 minutes, until the power is on."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from shorewalk.walk.age import noted, seconds_of
from shorewalk.walk.answers import Answer, Cannot, Done, Read
from shorewalk.walk.asked import gone_over
from shorewalk.walk.meter import Meter
from shorewalk.walk.walk import Walk, begin, resume

from .conftest import SITE, Make, Shelf

NOW = "2026-05-01T12:{:02d}:00Z"


def aging_site() -> Any:
    """The small site, with looks at the slots that last 15 minutes."""
    place = SITE.places["pedestal-30"]
    looks = {
        name: look if name == "look-b" else replace(look, lasts=15.0) for name, look in place.looks.items()
    }
    return replace(SITE, places={**SITE.places, "pedestal-30": replace(place, looks=looks)})


@pytest.fixture
def slots(make: Make, basic: Meter) -> Walk:
    """The three slot pairs, then the breaker off, the cord in, the breaker on, and the cord out and in again."""
    shelf = Shelf(aging_site()).add(
        "slots",
        make.step("on", "hot_neutral", pedestal_breaker="on"),
        make.measure("hot_neutral", "pedestal-30 L N", "hot_ground"),
        make.measure("hot_ground", "pedestal-30 L G", "neutral_ground"),
        make.measure("neutral_ground", "pedestal-30 N G", "off"),
        make.step("off", "wait", pedestal_breaker="off"),
        make.step("wait", "plug_in", "aside"),
        make.step("aside", "bad"),
        make.step("plug_in", "power", cord="pedestal-30"),
        make.step("power", "later", pedestal_breaker="on"),
        make.step("later", "off_again"),
        make.step("off_again", "out_again", pedestal_breaker="off"),
        make.step("out_again", "in_again", cord="unplugged"),
        make.step("in_again", "on_again", cord="pedestal-30"),
        make.step("on_again", "bad", pedestal_breaker="on"),
        make.end("bad"),
        starts={"cord": "unplugged"},
    )
    return begin(shelf, "slots", basic)


READINGS: tuple[Answer, ...] = (Done(), Read("121.4"), Read("121.3"), Read("0.2"))


def at(walk: Walk, answer: Answer, minute: int | None) -> Walk:
    return walk.answer(answer, None if minute is None else NOW.format(minute))


def read_at(walk: Walk, minute: int | None) -> Walk:
    for answer in READINGS:
        walk = at(walk, answer, minute)
    return walk


def full(walk: Walk) -> bool:
    return walk.now.looks["full-look"]


@pytest.mark.parametrize(("minute", "holds"), [(10, True), (24, True), (25, True), (26, False)])
def test_a_reading_counts_for_15_minutes(slots: Walk, minute: int, holds: bool) -> None:  # noqa: FBT001
    """The look holds while no pair of it is over 15 minutes older than the latest answer."""
    assert full(at(read_at(slots, 10), Done(), minute)) is holds


def test_one_old_pair_is_enough_to_lose_the_look(slots: Walk) -> None:
    """The look is as old as the oldest of its pairs."""
    walk = slots
    for answer, minute in zip(READINGS, (0, 10, 11, 12), strict=True):
        walk = at(walk, answer, minute)
    assert full(at(walk, Done(), 25))
    assert not full(at(walk, Done(), 26))


@pytest.mark.parametrize(("read", "then"), [(None, 50), (10, None), (None, None)])
def test_a_time_that_is_not_known_ages_nothing(slots: Walk, read: int | None, then: int | None) -> None:
    """Neither a reading without a time nor an answer without one makes a look too old."""
    assert full(at(read_at(slots, read), Done(), then))


def test_once_the_power_is_on_age_counts_no_more(slots: Walk) -> None:
    """What counted when the breaker went on with the cord in goes on counting, however long the walk is."""
    walk = read_at(slots, 10)
    for minute in (11, 12, 13, 20):
        walk = at(walk, Done(), minute)
    assert walk.now.energised == "yes"
    assert full(at(walk, Done(), 59))


def test_with_the_cord_in_and_the_breaker_off_age_still_counts(slots: Walk) -> None:
    """Until power comes to the rig time goes by for the readings, also with the plug in."""
    walk = read_at(slots, 10)
    for minute in (11, 12, 13):
        walk = at(walk, Done(), minute)
    assert full(walk)
    assert not full(at(walk, Done(), 26))  # the breaker went on too late; it stays so
    assert not full(at(at(walk, Done(), 26), Done(), 27))


def test_with_the_cord_out_and_in_again_age_counts_again(slots: Walk) -> None:
    """The second time the power comes on the readings of before the first are too old."""
    walk = read_at(slots, 10)
    for minute in (11, 12, 13, 14, 30):
        walk = at(walk, Done(), minute)
    assert full(walk)
    for minute in (31, 32, 33, 34):
        walk = at(walk, Done(), minute)
        assert not full(walk)
    assert walk.now.energised == "yes"


def test_a_clock_that_went_back_makes_nothing_fresh(slots: Walk) -> None:
    """Nobody knows how long it was then: what was read before counts no more, whatever the clock shows later."""
    walk = at(read_at(slots, 30), Done(), 29)
    assert not full(walk)
    assert not full(at(walk, Done(), 31))


def test_what_is_read_after_the_clock_went_back_counts(slots: Walk) -> None:
    """Readings taken by the changed clock are as old as it says."""
    walk = at(slots, READINGS[0], 50)
    for answer in READINGS[1:]:
        walk = at(walk, answer, 10)
    assert full(at(walk, Done(), 25))
    assert not full(at(walk, Done(), 26))


def test_an_answer_changed_later_makes_no_reading_younger(slots: Walk) -> None:
    """A corrected answer keeps the time of the one it corrects, and the clock has not gone back behind it."""
    walk = at(read_at(slots, 10), Done(), 20).revise(1, Read("121.5"), NOW.format(24))
    assert full(walk)
    assert walk.answers[1].time == NOW.format(10)
    assert not full(at(walk, Done(), 26))


def test_times_are_read_in_every_zone() -> None:
    """One moment is one number, whatever zone it is written in; what is no time is not known."""
    assert seconds_of("2026-05-01T12:00:00Z") == seconds_of("2026-05-01T14:00:00+02:00")
    assert seconds_of("2026-05-01T12:00:00") == seconds_of("2026-05-01T12:00:00Z")
    assert seconds_of("noon") is None
    assert seconds_of(None) is None


@pytest.fixture
def judged(make: Make, basic: Meter) -> Walk:
    """The slots read, the breaker off, then a judge of their age between them and the plug."""
    shelf = Shelf(aging_site()).add(
        "slots",
        make.step("on", "hot_neutral", pedestal_breaker="on"),
        make.measure("hot_neutral", "pedestal-30 L N", "hot_ground"),
        make.measure("hot_ground", "pedestal-30 L G", "neutral_ground"),
        make.measure("neutral_ground", "pedestal-30 N G", "fresh"),
        make.judge("fresh", [make.row("stale", lacks="full-look"), make.row("plug_in")]),
        make.step("plug_in", "power", cord="pedestal-30"),
        make.step("power", "bad", pedestal_breaker="on"),
        make.step("stale", "bad"),
        make.end("bad"),
        starts={"cord": "unplugged"},
    )
    return begin(shelf, "slots", basic)


def taken_up(walk: Walk, minute: int) -> Walk:
    return resume(walk.library, walk.tree, walk.meter, walk.answers, NOW.format(minute))[0]


@pytest.mark.parametrize(
    ("minute", "node"), [(10, "plug_in"), (25, "plug_in"), (26, "stale"), (59, "stale"), (9, "stale")]
)
def test_a_walk_taken_up_is_judged_by_the_age_its_readings_have_then(
    judged: Walk, minute: int, node: str
) -> None:
    """What was fresh when it was left may be too old when it is taken up; a clock that went back makes it so."""
    left = read_at(judged, 10)
    assert left.now.node.name == "plug_in"
    again = taken_up(left, minute)
    assert again.now.node.name == node
    assert [answered.time for answered in again.answers] == [answered.time for answered in left.answers]


def test_a_walk_taken_up_comes_back_the_same_way(judged: Walk) -> None:
    """When it was taken up is kept with the answer before, so that later answers fit again, and corrections too."""
    walk = at(taken_up(read_at(judged, 10), 40), Done(), 41)
    assert walk.ended
    assert resume(walk.library, walk.tree, walk.meter, walk.answers) == (walk, 0)
    assert walk.back().now.node.name == "stale"
    assert walk.revise(1, Read("121.9")).ended


def test_taking_back_makes_no_reading_younger(judged: Walk) -> None:
    """What was too old stays so when the answer is taken back that told it, and when that of taking up is."""
    left = at(read_at(judged, 10), Done(), 11)
    assert left.now.node.name == "power"
    assert left.back().now.node.name == "plug_in"
    assert taken_up(left, 40).back().now.node.name == "stale"
    assert taken_up(left, 40).back().answers[-1].resumed == NOW.format(40)
    assert at(read_at(judged, 10), Done(), 40).back().now.node.name == "stale"
    assert left.back(NOW.format(40)).now.node.name == "stale"
    assert left.back(NOW.format(20)) == read_at(judged, 10)


def test_a_clock_set_back_after_taking_up_frees_nothing_taken_back(judged: Walk) -> None:
    """The time that the walk was taken up at stands where the clock shows less when its answer is taken back."""
    late = taken_up(at(read_at(judged, 10), Done(), 11), 40)
    assert late.back(NOW.format(12)).now.node.name == "stale"


def test_a_change_that_leads_elsewhere_makes_no_reading_younger(slots: Walk) -> None:
    """A correction that ends before the answer that carried the time of taking up is judged by it all the same."""
    left = read_at(slots, 10)
    for minute in (11, 12, 13):
        left = at(left, Done(), minute)
    late = taken_up(left, 40)
    assert [full(walk) for walk in (left, late)] == [True, False]
    for now in (None, NOW.format(14), NOW.format(41)):
        elsewhere = late.revise(5, Cannot(), now)
        assert elsewhere.now.node.name == "aside"
        assert not full(elsewhere)
    assert full(left.revise(5, Cannot(), NOW.format(14)))
    assert not full(left.revise(5, Cannot(), NOW.format(40)))


def test_a_walk_that_ended_stays_as_it_ended(judged: Walk) -> None:
    """Looking at it later judges nothing anew."""
    walk = at(at(read_at(judged, 10), Done(), 11), Done(), 12)
    assert walk.ended
    assert taken_up(walk, 59) == walk


def test_a_clock_that_was_never_set_is_no_time_to_show() -> None:
    """What a small computer calls 1970 is told to nobody as the time of a reading."""
    assert noted("1970-01-01T00:03:00Z") is None
    assert noted(None) is None
    assert noted("2026-05-01T12:00:00Z") == "2026-05-01T12:00:00Z"


def test_the_record_of_a_walk_that_was_taken_up_goes_the_way_the_walk_went(judged: Walk) -> None:
    """What was asked anew because readings had grown old stands in the record, and none of it is refused."""
    walk = at(taken_up(read_at(judged, 10), 40), Done(), 41)
    assert [one.at for one in walk.answers][-1] == "stale"
    assert len(gone_over(walk).asked) == len(walk.answers)
    assert gone_over(walk).asked[-1].question == walk.back().now.text
