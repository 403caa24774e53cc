"""The protector refuses: a meter can confirm its complaint, and clear only low and high volts."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.walk.answers import Answer, Cannot, Choose, Read, Unable, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]


def refusing(complaint: Answer, **given: Answer) -> dict[str, Answer]:
    more = {at.replace("__", "."): answer for at, answer in given.items()}
    return {"state": Choose("refusing"), "complaint": complaint} | more


def dark(since: str = "always", handle: str = "on", **given: Answer) -> dict[str, Answer]:
    more = {at.replace("__", "."): answer for at, answer in given.items()}
    return {"state": Choose("dark"), "handle": Choose(handle), "since_when": Choose(since)} | more


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # whom to call first is common practice throughout
        ({"state": Choose("connected")}, "it_was_timing", "leave-as-is", "park"),
        (refusing(Choose("open-ground")), "not_cleared", "stay-unplugged", "park"),
        (refusing(Choose("open-neutral")), "not_cleared", "stay-unplugged", "park"),
        (refusing(Choose("reversed")), "not_cleared", "stay-unplugged", "park"),
        (refusing(Choose("frequency")), "not_cleared", "stay-unplugged", "park"),
        (refusing(Choose("frequency"), hertz_30=Read("55.0")), "wrong_hertz", "stay-unplugged", "park"),
        (refusing(Choose("frequency"), hertz_30=Unable()), "not_cleared", "stay-unplugged", "park"),
        (refusing(Unsure()), "not_cleared", "stay-unplugged", "park"),
        (refusing(Choose("heat")), "too_hot", "stay-unplugged", "electrician"),
        (refusing(Choose("no-words")), "mute", "stay-unplugged", "electrician"),
        (refusing(Choose("reversed"), read__slots__have_meter=Cannot()), "unread", "stay-unplugged", "park"),
        (refusing(Choose("no-words"), read__which=Unsure()), "unread", "stay-unplugged", "park"),
        (refusing(Choose("heat"), outlet_marks=Choose("present")), "outlet_burnt", "stay-unplugged", "park"),
        (
            refusing(Choose("heat"), our_marks=Choose("present")),
            "plug_burnt",
            "stay-unplugged",
            "electrician",
        ),
        (refusing(Choose("heat"), out__cord_out=Cannot()), "still_in", "hands-off", "park"),
        (dark(), "mute", "stay-unplugged", "electrician"),
        (dark("after-rain"), "surge_took_it", "stay-unplugged", "electrician"),
        (
            dark(handle="tripped", reset__feel=Choose("will-not-latch")),
            "trips_empty",
            "stay-unplugged",
            "park",
        ),
        (dark(handle="tripped", reset__feel=Choose("spongy")), "breaker_worn", "stay-unplugged", "park"),
    ],
)
def test_who_is_called(go: Go, given: dict[str, Answer], at: str, verdict: str, call: str) -> None:
    """Wiring complaints are the park's though readings look normal; mute, heat and our own marks are not."""
    end = ending(go("protector-refuses", given))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


def test_a_meter_confirms_an_open_ground(go: Go) -> None:
    """A ghost between hot and ground at the empty outlet ends it with that finding (25 V: nodal analysis)."""
    slots = "read.slots.at_30."
    ghost: dict[str, Answer] = {
        slots + "hot_ground": Read("25.1", confirmed=True),
        slots + "neutral_ground": Read("24.8"),
    }
    end = ending(
        go("protector-refuses", refusing(Choose("open-ground")) | ghost | {"read.slots.peg": Cannot()})
    )
    assert (end.at, end.verdict, end.call) == ("read.slots.at_30.ground_open", "stay-unplugged", "park")


@pytest.mark.parametrize(
    "given",
    [
        refusing(Choose("low-volts")),
        refusing(Choose("high-volts")),
        {"state": Choose("off-and-on"), "complaint": Choose("no-words")},
        dark(handle="off"),
        dark(handle="tripped"),
    ],
)
def test_what_a_meter_can_clear_goes_on_in_arrival(go: Go, given: dict[str, Answer]) -> None:
    """Low or high volts, a breaker that was off, or a protector that drops out: unplug and begin anew."""
    walk = go("protector-refuses", given)
    assert walk.now.tree == "arrival"
    assert walk.now.state["cord"] == "unplugged"


def test_a_protector_that_counts_is_waited_for_twice(go: Go) -> None:
    """Waiting is asked again; one that still counts after two waits is not just timing."""
    walk = go("protector-refuses", {"state": Choose("waiting"), "complaint": Choose("no-words")})
    asked = [answered.at for answered in walk.answers]
    assert asked[:5] == ["state", "wait", "state", "wait", "complaint"]
