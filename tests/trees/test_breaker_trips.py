"""The breaker trips: whose it is, by when it trips; never more than one reset, and with the cord out."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.tree.library import Library
from shorewalk.tree.model import Step
from shorewalk.walk.answers import Answer, Cannot, Choose, Read, Running, Unable, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]


def when(name: str, **given: Answer) -> dict[str, Answer]:
    """Return the answers of somebody whose breaker trips then; `__` in a name stands for a point."""
    return {"trip_when": Choose(name)} | {at.replace("__", "."): answer for at, answer in given.items()}


def running(**loads: int) -> Running:
    return Running(tuple((name.replace("_", "-"), count) for name, count in loads.items()))


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # whom to call first is common practice throughout
        (when("cord-unplugged"), "trips_empty", "stay-unplugged", "park"),
        (when("cord-unplugged", main_off=Cannot()), "left_alone", "hands-off", "park"),
        (when("at-plug-in"), "fault_in_cord", "stay-unplugged", "electrician"),
        (when("at-main-on"), "fault_at_main", "stay-unplugged", "electrician"),
        (when("at-plug-in", reset__feel=Choose("will-not-latch")), "trips_empty", "stay-unplugged", "park"),
        (when("at-main-on", reset__feel=Choose("spongy")), "breaker_worn", "stay-unplugged", "park"),
        (when("at-main-on", reset__on_once=Cannot()), "no_reset", "stay-unplugged", "park"),
        (when("one-circuit"), "circuit_stays_off", "leave-as-is", "electrician"),
        (when("when-motor-starts"), "motor_stays_off", "leave-as-is", "electrician"),
        (
            when("after-a-while", heat=Choose("warm"), heat_where=Choose("outlet")),
            "hot_outlet",
            "stay-unplugged",
            "park",
        ),
        (
            when("after-a-while", heat=Choose("hot"), heat_where=Choose("plug")),
            "hot_outlet",
            "stay-unplugged",
            "park",
        ),
        (
            when("after-a-while", heat=Choose("hot"), heat_where=Choose("breaker")),
            "hot_outlet",
            "stay-unplugged",
            "park",
        ),
        (
            when("hot-day", heat=Choose("warm"), heat_where=Choose("inlet")),
            "hot_ours",
            "stay-unplugged",
            "electrician",
        ),
        (
            when("hot-day", heat=Unsure(), heat_where=Choose("adapter")),
            "hot_ours",
            "stay-unplugged",
            "electrician",
        ),
        (when("hot-day", out__breaker_off=Cannot()), "still_in", "hands-off", "park"),
        (when("hot-day", post__look__weather=Choose("rain")), "wait_first", "hands-off", "park"),
        (when("hot-day", shut__main_off=Cannot()), "left_alone", "hands-off", "park"),
        ({"smell": Choose("burning")}, "burning", "hands-off", "park"),
        ({"smell": Unsure()}, "burning", "hands-off", "park"),
    ],
)
def test_whose_it_is(go: Go, given: dict[str, Answer], at: str, verdict: str, call: str) -> None:
    """With nothing plugged in it is the park's; at plug, main or one circuit ours; heat by where it is."""
    end = ending(go("breaker-trips", given))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


@pytest.mark.parametrize(
    ("loads", "goes"),
    [  # 80 % of 30 A is 24 A (NEC 210.20(A)); at 121.4 V: refrigerator and kettle 13 A, two heaters more 37 A
        (running(refrigerator=1, kettle=1), "trips_early"),
        (running(air_conditioner=1, kettle=1, television=1), "fewer"),
        (running(air_conditioner=1, water_heater=1, space_heater=1), "far_fewer"),
        (Unsure(), "fewer"),
    ],
)
def test_what_was_running_is_added_up(go: Go, loads: Answer, goes: str) -> None:
    """Under 80 % the breaker is worn and the park's; over it, fewer loads and the arrival routine."""
    walk = go("breaker-trips", when("after-a-while") | {"add_30.running": loads})
    if goes == "trips_early":
        end = ending(walk)
        assert (end.at, end.call) == (goes, "park")
        assert " A" in end.say
    else:
        assert walk.now.tree == "arrival"
        assert goes in [answered.at for answered in walk.answers]


def test_the_volts_measured_change_the_amps(go: Go) -> None:
    """A microwave draws more amps at a low voltage, a kettle fewer (P = V I, V = I R)."""

    def amps(volts: Answer, loads: Running) -> float:
        given = when("after-a-while", add_30__hot_neutral=volts, add_30__running=loads)
        walk = go("breaker-trips", given, until="")  # stops at the first ending, here of 80 % or less
        return next(known.value or 0 for known in walk.now.known if known.at == "add_30.running")

    nominal = amps(Unable(), running(microwave=1))
    assert nominal == pytest.approx(1500 / 120)
    assert amps(Read("110.0"), running(microwave=1)) == pytest.approx(1500 / 110)
    assert amps(Read("110.0"), running(kettle=1)) == pytest.approx(1250 / 120 * 110 / 120)


@pytest.mark.parametrize(
    ("shown", "at"), [("101.3", "volts_wrong"), ("140.2", "volts_wrong"), ("55", "volts_wrong")]
)
def test_a_bad_voltage_ends_it(go: Go, shown: str, at: str) -> None:
    """A voltage out of range at the empty outlet is the park's, whatever was running."""
    given = when("after-a-while", add_30__hot_neutral=Read(shown, confirmed=True))
    end = ending(go("breaker-trips", given))
    assert (end.at, end.call) == (at, "park")


@pytest.mark.parametrize("name", ["one-circuit", "when-motor-starts", "after-a-while", "hot-day", None])
def test_after_a_reset_comes_arrival(go: Go, name: str | None) -> None:
    """Where the breaker holds and the loads were the cause, the walk goes on in arrival, unplugged."""
    given: dict[str, Answer] = when(name) if name else {"trip_when": Unsure()}
    tripped = {
        "which_breaker": Choose("tripped"),
        "add_30.running": running(air_conditioner=1, space_heater=1),
    }
    walk = go("breaker-trips", given | tripped)
    assert walk.now.tree == "arrival"
    assert walk.now.state["cord"] == "unplugged"
    assert walk.now.worst != "stop"


def test_one_reset_with_the_cord_out(library: Library) -> None:
    """Only one step switches the breaker on, it needs the cord out, and no way leads back to it."""
    tree = library.tree("breaker-trips")
    resets = [
        node
        for node in tree.nodes.values()
        if isinstance(node, Step) and ("pedestal-breaker", "on") in node.leaves
    ]
    assert [node.name for node in resets] == ["reset.on_once"]
    assert ("cord", "unplugged") in resets[0].needs


@pytest.mark.parametrize(
    "given",
    [
        when("one-circuit", which_breaker=Choose("tripped")),
        when(
            "when-motor-starts",
            which_breaker=Choose("tripped"),
            **{"add_30.running": running(refrigerator=1)},
        ),
    ],
    ids=["circuit", "motor"],
)
def test_the_circuit_that_stays_off_is_the_electricians(go: Go, given: dict[str, Answer]) -> None:
    """At the end the rest is in use with care; the taped breaker was left off, and its fault is an electrician's."""
    end = ending(go("breaker-trips", given, until="nowhere"))
    assert (end.at, end.verdict, end.call, end.lowered) == (
        "ready_but_one",
        "use-with-care",
        "electrician",
        (),
    )
