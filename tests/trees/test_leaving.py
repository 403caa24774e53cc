"""Leaving: the order back, and who hears of what got warm or burnt."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.tree.library import Library
from shorewalk.tree.model import Measure
from shorewalk.walk.answers import Answer, Cannot, Choose, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]


def leave(go: Go, given: dict[str, Answer] | None = None, *, until: str = "") -> Walk:
    """Walk with a protector that goes dark with the breaker, but for what is given."""
    return go("leaving", {"light_out": Choose("dark")} | (given or {}), until=until)


def warm(where: str, how: str = "warm") -> dict[str, Answer]:
    return {"feel.heat": Choose(how), "feel.where": Choose(where)}


def lit(handle: str) -> dict[str, Answer]:
    """Return the answers of somebody whose protector stays lit, with the handle of that outlet so."""
    return {"light_out": Choose("connected"), "which_handle": Choose(handle)}


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # whom to call first is common practice throughout
        ({}, "on_the_road", "unplugged", "park"),
        ({"moving": Cannot()}, "on_the_road", "unplugged", "park"),
        (warm("outlet"), "warm_outlet", "stay-unplugged", "park"),
        (warm("plug", "hot"), "hot_outlet", "stay-unplugged", "park"),
        (warm("breaker"), "warm_outlet", "stay-unplugged", "park"),
        ({"feel.heat": Unsure(), "feel.where": Unsure()}, "hot_outlet", "stay-unplugged", "park"),
        (warm("inlet"), "warm_ours", "stay-unplugged", "electrician"),
        (warm("adapter", "hot"), "warm_ours", "stay-unplugged", "electrician"),
        (warm("cord"), "warm_ours", "stay-unplugged", "electrician"),
        (warm("inlet") | {"contacts.slots": Choose("present")}, "outlet_burnt", "stay-unplugged", "park"),
        ({"contacts.slots": Unsure()}, "outlet_burnt", "stay-unplugged", "park"),
        ({"contacts.blades": Choose("present")}, "plug_burnt", "stay-unplugged", "electrician"),
        ({"contacts.ground_pin": Choose("missing")}, "pin_broken", "stay-unplugged", "electrician"),
        (lit("off"), "still_live", "hands-off", "park"),
        (lit("tripped"), "still_live", "hands-off", "park"),
        (lit("on"), "still_live", "hands-off", "park"),
        (lit("off") | {"light_out": Unsure()}, "still_live", "hands-off", "park"),
        ({"cord_out": Cannot()}, "still_in", "hands-off", "park"),
        ({"breaker_off": Cannot()}, "still_in", "hands-off", "park"),
        ({"post.look.weather": Choose("thunder")}, "wait_first", "hands-off", "park"),
        ({"shut.branches_off": Cannot()}, "not_shut", "leave-as-is", "electrician"),
    ],
)
def test_how_it_ends(go: Go, given: dict[str, Answer], at: str, verdict: str, call: str) -> None:
    """Cool and clean is unplugged; heat and marks go to whom they belong; what is stuck or live stays."""
    end = ending(leave(go, given))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


def test_the_order_back(go: Go) -> None:
    """Loads, main, breaker, then the plug at the pedestal, and the rig's end last (common practice)."""
    order = [answered.at for answered in leave(go).answers]
    back = ["shut.branches_off", "shut.main_off", "breaker_off", "cord_out", "rig_end"]
    assert [at for at in order if at in back] == back
    assert order.index("feel.heat") < order.index("cord_out")


def test_a_hot_plug_cools_before_it_is_pulled(go: Go) -> None:
    """Too hot to hold, it stays in until it has cooled; a warm one may come out at once."""
    assert "let_cool" in [answered.at for answered in leave(go, warm("plug", "hot")).answers]
    assert "let_cool" not in [answered.at for answered in leave(go, warm("plug")).answers]


@pytest.mark.parametrize("said", [Choose("yes"), Unsure()])
def test_a_tingle_comes_first(go: Go, said: Answer) -> None:
    """Whoever may have felt a tingle touches neither rig nor pedestal to unplug it."""
    walk = leave(go, {"tingle": said}, until="tingle")
    assert walk.now.tree == "tingle"
    assert [answered.at for answered in walk.answers] == ["tingle"]
    assert walk.now.worst == "danger"


def test_nothing_is_measured(library: Library) -> None:
    """Nobody needs a meter to leave."""
    assert not [node for node in library.tree("leaving").nodes.values() if isinstance(node, Measure)]
