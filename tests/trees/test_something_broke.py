"""Something popped at plugging in: step back, off from where it is safe, the park, then an electrician."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.tree.library import Library
from shorewalk.tree.model import End
from shorewalk.walk.answers import Answer, Cannot, Choose, Read, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]
Given = dict[str, Answer]

SLOTS = "read.slots.at_30"
WIRED_FOR_240: Given = {
    f"{SLOTS}.neutral_ground": Read("121.0"),
    f"{SLOTS}.hot_ground": Read("122.0"),
    f"{SLOTS}.hot_neutral": Read("243.0"),
    f"{SLOTS}.hot_earth": Read("122.0"),
}


def broke(where: str, **given: Answer) -> Given:
    return {"where": Choose(where)} | {at.replace("__", "."): answer for at, answer in given.items()}


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # park first, then an electrician before power returns: common practice
        ({"fire": Choose("smoke")}, "on_fire", "emergency", "park"),
        ({"fire": Unsure()}, "on_fire", "emergency", "park"),
        (broke("outlet"), "at_pedestal", "hands-off", "park"),
        (broke("outlet", inside_off=Cannot()), "at_pedestal", "hands-off", "park"),
        ({"where": Unsure()}, "at_pedestal", "hands-off", "park"),
        (broke("protector", smell=Choose("burning")), "at_pedestal", "hands-off", "park"),
        (broke("rig", smell=Choose("burning")), "off_and_watched", "hands-off", "park"),
        (broke("rig", smell=Unsure(), breaker_off=Cannot()), "power_on", "hands-off", "park"),
        (broke("rig", smell=Unsure(), all_out=Cannot()), "power_on", "hands-off", "park"),
        (broke("rig", post__look__weather=Choose("rain")), "wait_first", "hands-off", "park"),
        (broke("rig", shut__main_off=Cannot()), "still_in", "hands-off", "park"),
        (broke("rig", cord_out=Cannot()), "still_in", "hands-off", "park"),
        (broke("rig", contacts__slots=Choose("present")), "outlet_burnt", "stay-unplugged", "park"),
        (broke("rig", contacts__blades=Choose("present")), "plug_burnt", "stay-unplugged", "electrician"),
        (broke("rig", read__slots__have_meter=Cannot()), "unread", "stay-unplugged", "park"),
        (broke("rig"), "reads_sound", "stay-unplugged", "park"),
        (broke("protector"), "protector_broke", "stay-unplugged", "park"),
        (broke("rig") | WIRED_FOR_240, f"{SLOTS}.two_hots", "stay-unplugged", "park"),
    ],
)
def test_who_is_called(go: Go, given: Given, at: str, verdict: str, call: str) -> None:
    """The park, unless the slots are clean and our own plug is burnt; never an end that allows use."""
    end = ending(go("something-broke", given))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert (end.first == "emergency-services") == (verdict == "emergency")
    assert not end.lowered


def test_nothing_is_read_before_all_is_off(go: Go) -> None:
    """Breaker off, rig off, cord out, tape on: then the first reading."""
    walk = go("something-broke", broke("rig"))
    order = [answered.at for answered in walk.answers]
    first = next(
        at for at, answered in zip(order, walk.answers, strict=True) if isinstance(answered.answer, Read)
    )
    wanted = ["inside_off", "breaker_off", "shut.main_off", "cord_out", "tape", first]
    assert sorted(wanted, key=order.index) == wanted


def test_nobody_goes_in_or_near_for_the_main(go: Go, library: Library) -> None:
    """After a flash at the pedestal the rig's metal may be live: only who is inside switches, nobody goes there."""
    walk = go("something-broke", broke("outlet"))
    assert not [a.at for a in walk.answers if a.at.startswith(("post.", "breaker_off", "cord_out"))]
    step = library.tree("something-broke").nodes["inside_off"]
    assert step.hint is not None
    assert "Touch no part of the rig" in step.hint


@pytest.mark.parametrize("answer", [Choose("yes"), Unsure()])
def test_somebody_hurt_comes_first(go: Go, answer: Answer) -> None:
    """Whoever was hurt, or may have been, is helped before anything else is looked at."""
    assert go("something-broke", {"hurt": answer}, until="somebody-hurt").now.tree == "somebody-hurt"


def test_power_returns_only_after_an_electrician(library: Library) -> None:
    """Every own ending but the fire says that an electrician looks before power returns, or calls one."""
    for end in library.tree("something-broke").nodes.values():
        if isinstance(end, End) and "." not in end.name and end.verdict != "emergency":
            assert "electrician" in (end.safe_action or "") or end.call == "electrician", end.name
