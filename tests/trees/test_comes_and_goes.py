"""The power comes and goes: park-wide, a protector's delay, a loose contact, a breaker, or two sources that meet."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.walk.answers import Answer, Cannot, Choose, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]


def drops(goes: str = "no-pattern", **given: str) -> dict[str, Answer]:
    """Return what somebody answers to whom the power goes then; `__` in a name stands for a point."""
    return {at.replace("__", "."): Choose(choice) for at, choice in ({"goes": goes} | given).items()}


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # whom to call first is common practice throughout
        (drops(neighbours="same"), "park_wide.park_out", "leave-as-is", "park"),
        (drops(drops="battery-side"), "battery_side", "leave-as-is", "electrician"),
        (drops(drops="one-appliance"), "appliance_cycles", "leave-as-is", "electrician"),
        (drops(drops="some-outlets"), "circuit_loose", "leave-as-is", "electrician"),
        (
            drops(drops="some-outlets") | {"circuit_off": Cannot()},
            "circuit_unknown",
            "leave-as-is",
            "electrician",
        ),
        # back in seconds, and a protector waits minutes: lost behind it
        (drops(protector="yes"), "behind_protector", "stay-unplugged", "electrician"),
        (drops(protector="no"), "hidden", "stay-unplugged", "park"),
        (drops("heat", protector="no"), "hidden", "stay-unplugged", "park"),
        ({"goes": Unsure(), "protector": Unsure()}, "hidden", "stay-unplugged", "park"),
        (drops("cord-moves", back="minutes"), "at_the_plug", "stay-unplugged", "park"),
        (drops("after-rain"), "after_rain", "stay-unplugged", "park"),
        (drops("source-starts"), "two_sources", "stay-unplugged", "electrician"),
        (drops("cord-moves", out__cord_end="loose"), "inlet_loose", "stay-unplugged", "electrician"),
        (drops("cord-moves", out__grip="loose"), "out.outlet_loose", "stay-unplugged", "park"),
        (drops("cord-moves") | {"out.grip": Unsure()}, "at_the_plug", "stay-unplugged", "park"),
        (
            drops("heat", out__heat__heat="hot", out__heat__where="outlet"),
            "out.hot_outlet",
            "stay-unplugged",
            "park",
        ),
        (
            drops("source-starts") | {"out.shut.main_off": Cannot()},
            "out.left_alone",
            "hands-off",
            "park",
        ),
        (drops(smell="burning"), "burning", "hands-off", "park"),
    ],
)
def test_where_the_contact_is_lost(
    go: Go, given: dict[str, Answer], at: str, verdict: str, call: str
) -> None:
    """What cannot be told from outside is the park's first; behind a protector, or at our inlet, it is ours."""
    end = ending(go("comes-and-goes", given))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


@pytest.mark.parametrize(
    ("given", "tree"),
    [
        (drops(back="minutes", protector="yes"), "protector-refuses"),
        (drops(back="after-reset"), "breaker-trips"),
        (drops("load-starts"), "lights-dim"),
        (drops(drops="half"), "half-power"),
        (drops(bright="yes"), "some-bright"),
        ({"bright": Unsure()}, "some-bright"),
    ],
)
def test_another_symptom_has_its_own_tree(go: Go, given: dict[str, Answer], tree: str) -> None:
    """A delay of minutes is the protector's, a reset the breaker's, a start that pulls the lights down a sag."""
    assert go("comes-and-goes", given, until=tree).now.tree == tree


def test_two_sources_are_parted_at_once(go: Go) -> None:
    """A generator can feed back into the park's line and kill (common practice): off before the next question."""
    asked = [answered.at for answered in go("comes-and-goes", drops("source-starts")).answers]
    assert asked[asked.index("goes") + 1] == "source_off"


def test_what_comes_and_goes_never_goes_on_in_arrival(go: Go) -> None:
    """A sound idle reading clears no loose contact, so no such walk plugs in again by itself."""
    for goes in ("no-pattern", "cord-moves", "heat", "after-rain", "source-starts"):
        walk = go("comes-and-goes", drops(goes))
        assert walk.ended
        assert ending(walk).verdict == "stay-unplugged"
