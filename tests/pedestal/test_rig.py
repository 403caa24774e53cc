"""A rig on its cord: breakers that trip by their current, a protector that looks, a ground-fault outlet, a battery."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest

from shorewalk.electrics.ground_fault import MUST_HOLD, MUST_TRIP, trip_seconds
from shorewalk.pedestal.faults import NOTHING, Fault, shipped_faults, stand_with
from shorewalk.pedestal.park import Park
from shorewalk.pedestal.person import Person
from shorewalk.pedestal.stand import Stand
from shorewalk.pedestal.switched import Switched
from shorewalk.pedestal.trips import AFTER_A_WHILE, LEAK, carried
from shorewalk.tree.library import shipped

FAULTS = {"nothing": NOTHING, **shipped_faults()}


def stand(fault: Fault | str, outlet: str) -> Stand:
    fault = FAULTS[fault] if isinstance(fault, str) else fault
    return stand_with(fault, Park(), outlet, Random(3))  # noqa: S311 - no secret


def used(fault: str, outlet: str, *, protector: bool = False) -> Stand:
    """The rig brought into use, as somebody did before a walk."""
    found = stand(fault, outlet)
    found.begin_in_use(fitted=protector)
    return found


def test_each_outlet_has_its_own_breaker() -> None:
    """The words of a step say which; every breaker off means all of them; without words they go together."""
    site = stand("nothing", "50")
    site.done([("pedestal-breaker", "on")], "Switch the breaker of the 50 A outlet on.")
    assert site.read("pedestal-50", "L1", "N") > 110
    assert site.read("pedestal-20", "L", "N") < 1
    site.done(
        [("pedestal-breaker", "on")], "Switch the breaker of the 20 A outlet on. Nothing is plugged in."
    )
    assert site.read("pedestal-20", "L", "N") > 110
    assert site.read("pedestal-30", "L", "N") < 1
    site.done([("pedestal-breaker", "off")], "Switch every breaker in the pedestal off.")
    assert max(site.read("pedestal-50", "L1", "N"), site.read("pedestal-20", "L", "N")) < 1
    site.done([("pedestal-breaker", "on")])
    assert min(site.read(f"pedestal-{outlet}", "L", "N") for outlet in ("30", "20")) > 110


@pytest.mark.parametrize(
    ("fault", "outlet", "when"),
    [
        ("nothing", "30", None),
        ("cord-short", "50", "at-plug-in"),
        ("cord-short", "20", "at-plug-in"),
        ("panel-short", "30", "at-main-on"),
        ("overload", "50", "after-a-while"),
        ("breaker-weak", "30", "after-a-while"),
        ("breaker-trips-at-once", "30", "cord-unplugged"),
        ("heater-leaky", "30", None),
    ],
)
def test_a_breaker_trips_by_what_it_carries(fault: str, outlet: str, when: str | None) -> None:
    """A short at once and where it lies, a load after a while, a leak never; and it can be seen at the handle."""
    site = used(fault, outlet)
    assert site.story.get("trip-when") == when
    person = Person(site, outlet)
    assert person.tells("breaker-position") == ("on" if when is None else "tripped")
    assert (max(site.legs()) > 110) is (when is None)


@pytest.mark.parametrize("outlet", ["50", "30", "20"])
def test_a_breaker_carries_its_number_and_trips_over_135_percent(outlet: str) -> None:
    """UL 489: 100 % for ever, 135 % within the hour. What a load of ohms draws at the volts there decides."""
    for share in (1.0, 1.3, 1.45):
        site = replace(stand("nothing", outlet), running=120 / (share * int(outlet)))
        carries = replace(site, trips_at=99.0)
        carries.begin_in_use(fitted=False)
        site.begin_in_use(fitted=False)
        assert (outlet in site.switched.tripped) is (carried(carries, outlet) > AFTER_A_WHILE)
        assert (outlet in site.switched.tripped) is (share == 1.45)


def test_a_breaker_that_was_reset_with_the_cord_out_stays_on() -> None:
    """Tripped, off, cord out, on: it holds and feels firm. With the short on it again, it trips again."""
    site = used("cord-short", "30")
    person = Person(site, "30")
    assert person.tells("breaker-feel") == "will-not-latch"
    site.done([("pedestal-breaker", "off")], "Push the handle of your pedestal breaker fully to OFF.")
    site.follow({"pedestal-breaker": "off", "cord": "unplugged"})
    site.done([("pedestal-breaker", "on")], "Push the handle to ON. Try once only.")
    assert (person.tells("breaker-position"), person.tells("breaker-feel")) == ("on", "firm")
    site.follow({"pedestal-breaker": "on", "cord": "pedestal-30"})
    assert person.tells("breaker-position") == "tripped"


@pytest.mark.parametrize(
    ("fault", "when"),
    [
        ("nothing", None),
        ("inlet-wet", "at-plug-in"),
        ("neutral-tied-in-rig", "at-plug-in"),
        ("heater-leaky", "one-appliance"),
        ("small-leaks", "one-appliance"),
    ],
)
def test_the_20_cuts_itself_off_for_a_leak(fault: str, when: str | None) -> None:
    """By what comes back through its own two contacts, or by neutral and ground joined behind it."""
    site = used(fault, "20")
    assert site.story.get("ground-fault-when") == when
    assert site.switched.popped is (when is not None)
    assert Person(site, "20").tells("reset-button") == ("pushed-in" if when is None else "popped-out")


def test_neutral_tied_to_ground_trips_it_with_no_current_anywhere() -> None:
    """Nobody else on the loop and our main off: it finds the two joined all the same (UL 943: it must)."""
    alone = replace(Park(), neighbour1=0.0, neighbour2=0.0)
    for fault, pops in (("neutral-tied-in-rig", True), ("nothing", False)):
        site = stand_with(FAULTS[fault], alone, "20", Random(3))  # noqa: S311 - no secret
        site.switch(Switched(breaker=True, cord="20"))
        assert site.switched.popped is pops


@pytest.mark.parametrize(("milliamps", "pops"), [(3.0, False), (4.5, False), (5.5, True), (8.0, True)])
def test_a_ground_fault_outlet_trips_between_its_two_corners(milliamps: float, pops: bool) -> None:  # noqa: FBT001
    """UL 943 Class A: under 4 mA it must hold, at 6 it must trip; ours does at 5."""
    assert MUST_HOLD < LEAK * 1000 < MUST_TRIP
    if milliamps < MUST_HOLD:
        assert trip_seconds(milliamps)[0] == float("inf")
    leak = replace(FAULTS["heater-leaky"].rig[0], ohms=(120_000 / milliamps, 120_000 / milliamps))
    site = stand(replace(NOTHING, rig=(leak,)), "20")
    site.begin_in_use(fitted=False)
    assert site.switched.popped is pops


@pytest.mark.parametrize(
    ("fault", "outlet", "state", "complaint"),
    [
        ("nothing", "50", "connected", "no-words"),
        ("supply-low", "30", "refusing", "low-volts"),
        ("supply-high", "50", "refusing", "high-volts"),
        ("reversed", "30", "refusing", "reversed"),
        ("ground-open", "30", "refusing", "open-ground"),
        ("neutral-open", "30", "dark", "no-words"),
        ("neutral-open", "50", "refusing", "open-neutral"),
        ("wired-for-240", "30", "refusing", "reversed"),
        ("false-ground", "30", "connected", "no-words"),
        ("neutral-loose", "50", "connected", "no-words"),
        ("neutral-ground-swapped", "30", "connected", "no-words"),
        ("outlet-dead", "30", "dark", "no-words"),
    ],
)
def test_a_protector_refuses_what_it_can_see_and_no_more(
    fault: str, outlet: str, state: str, complaint: str
) -> None:
    """Volts between its own pins: a false ground, a loose neutral without load and swapped grounds it lets through."""
    site = used(fault, outlet, protector=True)
    person = Person(site, outlet)
    assert person.tells("protector-state") == state
    assert person.tells("protector-complaint") == complaint
    assert (max(site.legs()) > 90) is (state == "connected")


def test_a_protector_goes_dark_with_the_breaker() -> None:
    """It sees nothing wrong and closes; then the cord's short trips the breaker, and there is nothing to see at all."""
    site = stand("cord-short", "30")
    site.done([("pedestal-breaker", "on")], "Switch the breaker of the 30 A outlet on.")
    site.follow({"pedestal-breaker": "on", "cord": "pedestal-30", "protector": "fitted"})
    person = Person(site, "30")
    assert [person.tells(sign) for sign in ("protector-state", "breaker-position")] == ["dark", "tripped"]


def test_a_protector_waits_first() -> None:
    """With power on it, it counts before it closes; till then nothing reaches the rig."""
    site = stand("nothing", "30")
    site.waits = 1
    site.done([("pedestal-breaker", "on")], "Switch the breaker of the 30 A outlet on.")
    site.follow({"pedestal-breaker": "on", "cord": "pedestal-30", "protector": "fitted", "rig-main": "on"})
    assert site.legs() == pytest.approx([0.0], abs=1)
    person = Person(site, "30")
    assert [person.tells("protector-state") for _ in range(2)] == ["waiting", "connected"]
    assert site.legs()[0] > 110


def test_a_battery_stands_higher_while_its_charger_lives() -> None:
    """Power on the wall side, the charger's breaker on, and a charger that is not dead: all three."""
    words = "Switch the battery charger's breaker {} in the rig."
    alive, dead = used("nothing", "30"), used("charger-dead", "30")
    assert alive.battery_volts() >= 13.5
    assert dead.battery_volts() < 12.5
    alive.done((), words.format("off"))
    assert alive.battery_volts() < 13
    alive.done((), words.format("on"))
    assert alive.battery_volts() >= 13.5
    alive.follow({"rig-main": "off"})
    assert alive.battery_volts() < 13


def test_heat_fades_when_nothing_runs() -> None:
    """Hot under load stays hot; with the main off it is warm at the next touch, then cool."""
    site = used("nothing", "30")
    person = Person(site, "30", signs={"heat": "hot", "heat-where": "inlet"})
    assert [person.tells("heat") for _ in range(2)] == ["hot", "hot"]
    site.follow({"rig-main": "off"})
    assert [person.tells("heat") for _ in range(3)] == ["hot", "warm", "cool"]


@pytest.mark.parametrize("name", FAULTS)
def test_what_there_is_to_see_is_one_of_the_answers_written(name: str) -> None:
    """A variant has one of each sign's answers; what shows only in use shows to nobody before."""
    fault, chance = FAULTS[name], Random(1)  # noqa: S311 - no secret
    before, after = fault.seen(chance, used=False), fault.seen(chance, used=True)
    assert before.keys() == fault.signs.keys()
    assert after.keys() == fault.signs.keys() | fault.used.keys()
    signs = shipped().site.signs
    assert all(answer in signs[sign].answers for sign, answer in after.items())


def test_a_sound_rig_at_a_sound_pedestal_shows_nothing() -> None:
    """In use on each outlet, with a protector and without: nothing trips, all is lit, the skin is at earth."""
    for outlet in ("50", "30", "20"):
        for protector in (False, True):
            site = used("nothing", outlet, protector=protector)
            assert site.story == {}
            assert min(site.legs()) > 115
            assert site.read("rig-skin", "skin", "earth") < 0.5
            person = Person(site, outlet)
            assert (person.tells("wall-outlets"), person.tells("something-broke")) == ("all", "no")


def test_metal_is_live_only_where_its_ground_is_broken() -> None:
    """A leak into a sound ground shows nothing; without the ground the rig's metal stands at the hot's volts."""
    assert used("heater-leaky", "30").read("rig-skin", "skin", "earth") < 0.5
    for fault in ("leak-without-ground", "metal-unbonded"):
        live = used(fault, "30")
        assert live.read("rig-skin", "skin", "earth") > 90
        assert Person(live, "30").tells("near-voltage") == "warns"


def test_switched_before_anybody_knows_the_outlet_lets_a_protector_through() -> None:
    """Whoever only follows a walk's words, as for what is not yet ruled out, sees the power come through."""
    told = Switched().told({"protector": "fitted", "cord": "pedestal-30", "pedestal-breaker": "on"}, "")
    assert (told.protector, told.cord, told.breaker) == ("absent", "30", True)
