"""From one supply to the other: exhaust first, one off and out before the other goes on, never two at once."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.tree.library import Library
from shorewalk.tree.model import Step
from shorewalk.walk.answers import Answer, Cannot, Choose, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]
JOINS = ("transfer-switch", "shore-cord", "own-outlets")


def change(way: str, joined: str | None = "transfer-switch", **given: Answer) -> dict[str, Answer]:
    """Return the answers of somebody who changes that way; `__` in a name stands for a point."""
    calm = {"gas": "silent", "exhaust": "clear", "pipe": "clear", "came": "no", "sound": "clicks"}
    answers: dict[str, Answer] = {at: Choose(answer) for at, answer in calm.items()}
    answers |= {"way": Choose(way), "joined": Choose(joined) if joined else Unsure()}
    return answers | {at.replace("__", "."): answer for at, answer in given.items()}


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # whom to call first is common practice: generator and transfer switch are the electrician's
        (change("to-generator"), "ready_built_in", "unplugged", "electrician"),
        (change("to-generator", "shore-cord"), "ready_portable", "unplugged", "electrician"),
        (change("to-generator", "own-outlets"), "ready_single", "unplugged", "electrician"),
        (change("to-inverter"), "ready_inverter", "unplugged", "electrician"),
        (change("to-inverter", charger_off=Cannot()), "inverter_waits", "unplugged", "electrician"),
        (change("both-on"), "all_off", "unplugged", "electrician"),
        (change("both-on", broke=Choose("yes")), "met", "stay-unplugged", "electrician"),
        (change("to-generator", "two-plugs"), "two_plugs", "stay-unplugged", "electrician"),
        (change("to-pedestal", "two-plugs"), "two_plugs", "stay-unplugged", "electrician"),
        (change("to-pedestal", None), "not_known", "stay-unplugged", "electrician"),
        (change("dead-on-generator"), "generator_dead", "stay-unplugged", "electrician"),
        (
            change("dead-on-generator", sound=Choose("buzzes")),
            "transfer_buzzes",
            "stay-unplugged",
            "electrician",
        ),
        (change("dead-on-generator", came=Choose("yes")), "it_was_waiting", "leave-as-is", "electrician"),
        (change("dead-on-pedestal"), "transfer_dead", "stay-unplugged", "electrician"),
        (
            change("dead-on-pedestal", dead_here__slots__have_meter=Cannot()),
            "not_read",
            "stay-unplugged",
            "park",
        ),
        # 6 m: at least 20 feet, the US Consumer Product Safety Commission and state health departments, as told
        (
            change("to-generator", "shore-cord", exhaust=Choose("near")),
            "exhaust_near",
            "stay-unplugged",
            "park",
        ),
        (change("to-generator", pipe=Unsure()), "pipe_bad", "stay-unplugged", "electrician"),
        (
            change("to-generator", contacts__slots=Choose("present")),
            "outlet_burnt",
            "stay-unplugged",
            "park",
        ),
        (change("to-pedestal", shut__sources_off=Cannot()), "not_off", "hands-off", "park"),
        (change("to-pedestal", automatic=Cannot()), "not_off", "hands-off", "park"),
        (change("to-generator", post__look__weather=Choose("rain")), "wait_first", "hands-off", "park"),
        ({"gas": Choose("sounds")}, "gas_alarm", "emergency", "park"),
        ({"gas": Unsure()}, "gas_alarm", "emergency", "park"),
        (change("to-pedestal", smell=Choose("burning")), "burning", "hands-off", "park"),
    ],
)
def test_where_a_change_ends(go: Go, given: dict[str, Answer], at: str, verdict: str, call: str) -> None:
    """Back and forth, and what goes wrong: the generator's side is the electrician's, the outlet the park's."""
    end = ending(go("generator-change", given))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


@pytest.mark.parametrize("joined", JOINS)
def test_the_way_to_the_pedestal_is_the_routine_of_arrival(go: Go, joined: str) -> None:
    """All off, the cord out of both, then the outlet is measured as on the first day."""
    now = go("generator-change", change("to-pedestal", joined)).now
    assert now.tree == "arrival"
    assert {name: now.state[name] for name in ("other-source", "rig-main", "cord", "pedestal-breaker")} == {
        "other-source": "off",
        "rig-main": "off",
        "cord": "unplugged",
        "pedestal-breaker": "off",
    }


def test_no_step_switches_a_second_supply_on(library: Library) -> None:
    """The tree only switches off and takes out; the one source is started after the walk, with the cord out."""
    for node in library.tree("generator-change").nodes.values():
        if isinstance(node, Step) and not node.name.startswith("dead_here."):
            assert ("other-source", "on") not in node.leaves
            assert ("pedestal-breaker", "on") not in node.leaves


@pytest.mark.parametrize("way", ["to-pedestal", "to-generator", "to-inverter", "both-on"])
@pytest.mark.parametrize("joined", [*JOINS, "two-plugs"])
def test_the_cord_comes_out_with_every_source_off(go: Go, way: str, joined: str) -> None:
    """Generator, automatic start and main are off before anybody goes to the pedestal."""
    order = [answered.at for answered in go("generator-change", change(way, joined)).answers]
    last = max(order.index(at) for at in ("shut.sources_off", "automatic", "shut.main_off"))
    assert last < order.index("post.look.weather") < order.index("out.cord_out")


def test_two_supplies_at_once_are_parted_before_any_question(go: Go) -> None:
    """With both on the generator and the inverter go off first; nothing runs on to cool down (common practice)."""
    order = [answered.at for answered in go("generator-change", change("both-on")).answers]
    assert order.index("off_now") == order.index("way") + 1
    assert "run_down" not in order
