"""Plug and outlet do not fit: out first, then whose it is; nothing is forced, bent or poked."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.walk.answers import Answer, Cannot, Choose, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]


def fits(trouble: str, *, elsewhere: str = "firm", grip: str = "firm", **given: Answer) -> dict[str, Answer]:
    """Return the answers of somebody whose plug sits so; `__` in a name stands for a point."""
    told = {"trouble": Choose(trouble), "elsewhere": Choose(elsewhere), "grip": Choose(grip)}
    return told | {at.replace("__", "."): answer for at, answer in given.items()}


def goes_not_in(**given: Answer) -> dict[str, Answer]:
    """Return the answers of somebody whose plug does not go in, though it looks right."""
    told: dict[str, Answer] = {"shape": Choose("same"), "in_the_way": Choose("nothing")}
    return fits("will-not-go-in") | told | {at.replace("__", "."): answer for at, answer in given.items()}


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # whom to call first is common practice throughout
        (fits("falls-out", grip="loose"), "outlet_worn", "stay-unplugged", "park"),
        (fits("falls-out", elsewhere="unknown", grip="loose"), "outlet_worn", "stay-unplugged", "park"),
        (fits("falls-out", grip="firm") | {"grip": Unsure()}, "outlet_worn", "stay-unplugged", "park"),
        (fits("falls-out", elsewhere="loose"), "plug_worn", "stay-unplugged", "electrician"),
        (fits("falls-out", pulled=Choose("nothing")), "fell_out", "stay-unplugged", "park"),
        (
            fits("falls-out", pulled=Choose("hangs"), hold_up=Cannot()),
            "fell_out",
            "stay-unplugged",
            "park",
        ),
        (fits("stuck"), "came_out", "unplugged", "park"),
        (fits("stuck", pull=Cannot()), "stuck_in", "hands-off", "park"),
        (fits("partly-in", in_the_way=Choose("nothing")), "too_tight", "stay-unplugged", "park"),
        (
            fits("falls-out", feel__heat=Choose("warm"), feel__where=Choose("outlet")),
            "hot_loose",
            "stay-unplugged",
            "park",
        ),
        (
            fits("falls-out", feel__heat=Choose("hot"), feel__where=Choose("inlet")),
            "hot_ours",
            "stay-unplugged",
            "electrician",
        ),
        (fits("falls-out", contacts__slots=Choose("present")), "outlet_burnt", "stay-unplugged", "park"),
        (
            fits("falls-out", contacts__blades=Choose("present")),
            "plug_burnt",
            "stay-unplugged",
            "electrician",
        ),
        (goes_not_in(), "too_tight", "stay-unplugged", "park"),
        (goes_not_in(in_the_way=Choose("blocked")), "blocked", "stay-unplugged", "park"),
        (
            goes_not_in(contacts_out__ground_pin=Choose("missing")),
            "pin_bent",
            "stay-unplugged",
            "electrician",
        ),
        (goes_not_in(shape=Unsure()), "ask_the_office", "stay-unplugged", "park"),
        (goes_not_in(breaker_off=Cannot()), "breaker_stuck", "stay-unplugged", "park"),
        (goes_not_in(shut__main_off=Cannot()), "not_shut_out", "leave-as-is", "electrician"),
        (fits("partly-in", shut__main_off=Cannot()), "not_shut_in", "unplug-now", "park"),
        (goes_not_in(post__look__weather=Choose("rain")), "wait_out", "stay-unplugged", "park"),
        (fits("falls-out", post__look__weather=Choose("rain")), "wait_in", "hands-off", "park"),
    ],
)
def test_whose_it_is(go: Go, given: dict[str, Answer], at: str, verdict: str, call: str) -> None:
    """What does not grip or is blocked is the park's; a plug loose everywhere, burnt or bent is ours."""
    end = ending(go("outlet-loose", given))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


@pytest.mark.parametrize(
    "given",
    [
        fits("falls-out", pulled=Choose("hangs")),
        fits("falls-out", pulled=Choose("taut")),
        fits("partly-in", in_the_way=Choose("lid")),
        goes_not_in(in_the_way=Choose("lid")),
        goes_not_in(in_the_way=Choose("shutters")),
    ],
)
def test_what_can_be_put_right_goes_on_in_arrival(go: Go, given: dict[str, Answer]) -> None:
    """A weight, a taut cord, a lid or shutters are put right, with the cord out and all measured anew."""
    walk = go("outlet-loose", given)
    assert walk.now.tree == "arrival"
    assert (walk.now.state["cord"], walk.now.state["rig-main"]) == ("unplugged", "off")
    assert walk.now.worst in (None, "ok")


@pytest.mark.parametrize("trouble", ["falls-out", "partly-in", "stuck"])
def test_the_breaker_goes_off_before_a_hand_comes_near(go: Go, trouble: str) -> None:
    """Blades that show may be live: rig off, breaker off, and only then a hand near it (common practice)."""
    order = [answered.at for answered in go("outlet-loose", fits(trouble, grip="loose")).answers]
    back = ["shut.main_off", "power_off", "feel.heat", "pull", "contacts.slots"]
    assert [at for at in order if at in back] == back
