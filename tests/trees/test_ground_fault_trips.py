"""The ground-fault outlet trips: one reset with nothing on it, then whose leak it is by when it trips."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.tree.library import Library
from shorewalk.tree.model import Step
from shorewalk.walk.answers import Answer, Cannot, Choose, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]
TIMES = ("empty", "at-plug-in", "at-main-on", "one-appliance", "with-many", "after-rain")
CALM = {
    "tingle": "no",
    "button": "trips-and-resets",
    "wet": "dry",
    "neutral_plug": "no",
    "load_holds": "holds",
}


def trips(when: str | None, which: str = "pedestal-20", **given: Answer) -> dict[str, Answer]:
    """Return the answers of somebody whose outlet trips then; `__` in a name stands for a point."""
    answers: dict[str, Answer] = {at: Choose(answer) for at, answer in CALM.items()}
    time = Choose(when) if when else Unsure()
    answers |= {"which": Choose(which), "when": time, "rig_when": time, "rig_holds": Choose("holds")}
    return answers | {at.replace("__", "."): answer for at, answer in given.items()}


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # whom to call first is common practice: with nothing of ours on it the park's, else ours
        (trips("empty"), "came_and_went", "stay-unplugged", "park"),
        (trips("at-plug-in", button=Choose("will-not-reset")), "trips_empty", "stay-unplugged", "park"),
        (
            trips("at-plug-in", reset__feel=Choose("will-not-latch")),
            "trips_empty",
            "stay-unplugged",
            "park",
        ),
        (trips("at-plug-in", reset__feel=Choose("spongy")), "breaker_worn", "stay-unplugged", "park"),
        (trips("at-plug-in", all_empty=Cannot()), "no_reset", "stay-unplugged", "park"),
        (trips("at-plug-in", button=Choose("does-not-trip")), "test_fails", "stay-unplugged", "park"),
        (trips("at-plug-in", load_holds=Choose("trips")), "trips_with_load", "stay-unplugged", "park"),
        # neutral that touches ground on the load side trips it too (UL 943, found)
        (trips("at-plug-in"), "before_main", "stay-unplugged", "electrician"),
        (trips("at-main-on"), "behind_main", "stay-unplugged", "electrician"),
        (
            trips("at-plug-in", neutral_plug=Choose("yes")),
            "bonding_plug",
            "stay-unplugged",
            "electrician",
        ),
        (trips("at-plug-in", wet=Choose("wet")), "damp", "stay-unplugged", "electrician"),
        (trips("at-plug-in", wet=Unsure()), "damp", "stay-unplugged", "electrician"),
        (trips("after-rain"), "damp_somewhere", "stay-unplugged", "electrician"),
        # many small leaks: it must not trip under 4 mA and must at 6 mA (UL 943 Class A)
        (trips("with-many"), "leaks_add_up", "stay-unplugged", "electrician"),
        (trips("one-appliance", tape_circuit=Cannot()), "one_circuit", "stay-unplugged", "electrician"),
        (trips(None), "not_known", "stay-unplugged", "electrician"),
        (trips("at-plug-in", have_meter=Cannot()), "before_main", "stay-unplugged", "electrician"),
        (trips("at-main-on", "pedestal-breaker"), "behind_main", "stay-unplugged", "electrician"),
        (trips("one-appliance", "rig-outlet"), "appliance_leaks", "leave-as-is", "electrician"),
        (trips("with-many", "rig-outlet"), "rig_adds_up", "leave-as-is", "electrician"),
        (trips("after-rain", "rig-outlet"), "rig_damp", "leave-as-is", "electrician"),
        (trips("empty", "rig-outlet"), "rig_holds_now", "leave-as-is", "electrician"),
        (
            trips("one-appliance", "rig-outlet", rig_holds=Choose("trips")),
            "rig_left",
            "leave-as-is",
            "electrician",
        ),
        (trips("one-appliance", "rig-outlet", rig_reset=Cannot()), "rig_left", "leave-as-is", "electrician"),
        (trips("empty", smell=Choose("burning")), "burning", "hands-off", "park"),
        (trips("empty", post__look__weather=Choose("rain")), "wait_first", "hands-off", "park"),
        (trips("empty", out__cord_out=Cannot()), "still_in", "hands-off", "park"),
    ],
)
def test_whose_leak_it_is(go: Go, given: dict[str, Answer], at: str, verdict: str, call: str) -> None:
    """Nothing of ours on it: the park's. Only with our cord, one circuit, water or a tied neutral: ours."""
    end = ending(go("ground-fault-trips", given))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


@pytest.mark.parametrize("tingle", [Choose("yes"), Unsure()])
def test_a_tingle_comes_first(go: Go, tingle: Answer) -> None:
    """Whoever felt the leak, or does not know, gets the walk that begins with hands off; nothing was touched."""
    walk = go("ground-fault-trips", trips("at-plug-in", tingle=tingle), until="tingle")
    assert walk.now.tree == "tingle"
    assert walk.now.worst == "danger"


def test_a_plain_breaker_is_another_symptom(go: Go) -> None:
    """Without a test button it trips for current, not for a leak."""
    walk = go("ground-fault-trips", trips("with-many", "plain-breaker"), until="breaker-trips")
    assert walk.now.tree == "breaker-trips"


def test_one_circuit_stays_off_and_the_rest_is_measured_anew(go: Go) -> None:
    """Where one circuit leaks, the walk goes on in arrival with the cord out and no stop behind it."""
    walk = go("ground-fault-trips", trips("one-appliance"))
    assert walk.now.tree == "arrival"
    assert walk.now.state["cord"] == "unplugged"
    assert walk.now.state["test-load"] == "off"
    assert walk.now.worst != "stop"


def test_the_circuit_that_stays_off_is_the_electricians(go: Go) -> None:
    """At the end the rest is in use with care; the taped breaker was left off, and its fault is an electrician's."""
    walk = go("ground-fault-trips", trips("one-appliance"), until="nowhere")
    end = ending(walk)
    assert (end.at, end.verdict, end.call, end.lowered) == (
        "ready_but_one",
        "use-with-care",
        "electrician",
        (),
    )
    assert "circuit" in end.say
    asked = [answered.at for answered in walk.answers]
    assert "branches_but_one" in asked
    assert "branches" not in asked


@pytest.mark.parametrize("when", TIMES)
@pytest.mark.parametrize("which", ["pedestal-20", "pedestal-breaker", "rig-outlet"])
def test_one_reset_with_nothing_on_it(go: Go, library: Library, when: str, which: str) -> None:
    """Each walk resets once, with the cord out or the rig's main off."""
    walk = go("ground-fault-trips", trips(when, which))
    nodes = library.tree("ground-fault-trips").nodes
    resets = [
        node
        for answered in walk.answers
        if isinstance(node := nodes[answered.at], Step) and ("reset", "used") in node.leaves
    ]
    assert len(resets) == 1
    assert {("cord", "unplugged"), ("rig-main", "off")} & set(resets[0].needs)


def test_the_slots_are_read_before_a_heater_goes_in(go: Go) -> None:
    """Nothing is plugged into an outlet of the pedestal that was not measured."""
    order = [answered.at for answered in go("ground-fault-trips", trips("at-plug-in")).answers]
    assert order.index("slots.hot_neutral") < order.index("load_in")
    assert "load_in" not in [
        answered.at for answered in go("ground-fault-trips", trips("at-plug-in", have_meter=Cannot())).answers
    ]
