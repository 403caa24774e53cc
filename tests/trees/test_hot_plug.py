"""Something at the plug is hot: load off, main off, breaker off, it cools where it is, and whose it was."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.tree.library import Library
from shorewalk.tree.model import Jump, Measure
from shorewalk.walk.answers import Answer, Cannot, Choose, Running, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]


def hot(where: str, how: str = "hot", **given: Answer) -> dict[str, Answer]:
    """Return the answers of somebody who feels it there; `__` in a name stands for a point."""
    felt: dict[str, Answer] = {"feel.heat": Choose(how), "feel.where": Choose(where)}
    return felt | {at.replace("__", "."): answer for at, answer in given.items()}


def running(**loads: int) -> Running:
    return Running(tuple((name.replace("_", "-"), count) for name, count in loads.items()))


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # whom to call first is common practice throughout
        ({"fire": Choose("smoke")}, "burns", "emergency", "park"),
        ({"fire": Choose("flames")}, "burns", "emergency", "park"),
        ({"fire": Unsure()}, "burns", "emergency", "park"),
        ({"shut.main_off": Cannot()}, "not_shut", "unplug-now", "park"),
        ({"post.look.weather": Choose("rain")}, "wait_first", "hands-off", "park"),
        ({"post.look.burns": Choose("present")}, "post.look.scorched", "hands-off", "park"),
        ({"breaker_off": Cannot()}, "breaker_stuck", "hands-off", "park"),
        ({}, "cool_now", "unplugged", "park"),
        (hot("outlet"), "pair_hot", "stay-unplugged", "park"),
        (hot("plug"), "pair_hot", "stay-unplugged", "park"),
        ({"feel.heat": Unsure(), "feel.where": Unsure()}, "pair_hot", "stay-unplugged", "park"),
        (hot("breaker", "warm"), "breaker_hot", "stay-unplugged", "park"),
        (hot("plug", contacts__slots=Choose("present")), "outlet_burnt", "stay-unplugged", "park"),
        (hot("plug", contacts__blades=Choose("present")), "plug_burnt", "stay-unplugged", "electrician"),
        (hot("plug", contacts__ground_pin=Unsure()), "pin_gone", "stay-unplugged", "electrician"),
        (hot("inlet", inlet_ring=Choose("loose")), "inlet_hot", "stay-unplugged", "electrician"),
        (hot("adapter", "warm"), "adapter_hot", "stay-unplugged", "electrician"),
        (hot("cord", "warm", how_laid=Choose("coiled")), "cord_coiled", "stay-unplugged", "electrician"),
        (hot("cord", how_laid=Choose("extended")), "cord_thin", "stay-unplugged", "electrician"),
        (hot("plug", cold=Choose("hot")), "still_heats", "hands-off", "park"),
        (hot("plug", cold=Unsure()), "left_in", "hands-off", "park"),
        (hot("plug", cold=Choose("warm")), "left_in", "hands-off", "park"),
        (hot("plug", cooling=Cannot()), "left_in", "hands-off", "park"),
        (hot("plug", cord_out=Cannot()), "melted_in", "hands-off", "park"),
    ],
)
def test_whose_it_is(go: Go, given: dict[str, Answer], at: str, verdict: str, call: str) -> None:
    """Outlet, breaker and the plug in it are the park's first; inlet, adapter, cord and a burnt plug ours."""
    end = ending(go("hot-plug", given))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert (end.first == "emergency-services") == (verdict == "emergency")
    assert not end.lowered


@pytest.mark.parametrize(
    ("outlet", "loads", "at"),
    [  # 80 % of the breaker's number for hours: 16, 24, 40 A (NEC 210.20(A)); labels at 120 V
        ("20", running(converter=1), "pair_warm"),
        ("20", running(space_heater=2), "pair_loaded"),
        ("30", running(air_conditioner=1, refrigerator=1), "pair_warm"),
        ("30", running(air_conditioner=1, kettle=1, refrigerator=1), "pair_loaded"),
        ("50", running(air_conditioner=1), "pair_warm"),
        ("50", running(air_conditioner=2, water_heater=1, kettle=1), "pair_loaded"),
        ("30", Unsure(), "pair_warm"),
    ],
)
def test_warm_under_what_load(go: Go, outlet: str, loads: Answer, at: str) -> None:
    """Warm under a light load is a poor contact; over 80 % a good one warms as well. Neither goes in again."""
    given = hot("plug", "warm", outlet=Choose(outlet)) | {f"ran_{outlet}.loads": loads}
    end = ending(go("hot-plug", given))
    assert (end.at, end.verdict, end.call) == (at, "stay-unplugged", "park")


def test_off_in_order_and_the_plug_stays_in_until_cold(go: Go) -> None:
    """Loads, main, breaker; then half an hour, a hand near it, and only then the plug (common practice)."""
    order = [answered.at for answered in go("hot-plug", hot("plug")).answers]
    back = ["fire", "loads_off", "shut.main_off", "breaker_off", "feel.heat", "cooling", "cold", "cord_out"]
    assert [at for at in order if at in back] == back


def test_nothing_leads_back_to_the_outlet(library: Library) -> None:
    """A plug that was hot is not plugged in again on the same walk, and nothing is measured."""
    tree = library.tree("hot-plug")
    assert not [node for node in tree.nodes.values() if isinstance(node, Jump | Measure)]
