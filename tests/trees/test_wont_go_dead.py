"""Breaker off and still live: our own source, the wrong handle, a pole that stays closed, a ground from elsewhere."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.tree.library import Library
from shorewalk.walk.answers import Answer, Cannot, Choose, Read, Unable, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]
Given = dict[str, Answer]

PAIRS_50 = ("neutral_ground", "ground_earth", "hot1_earth", "hot2_earth", "hot1_ground", "hot2_ground",
            "hot1_neutral", "hot2_neutral", "hot_hot")  # fmt: skip
ALL_PAIRS = ("neutral_ground", "ground_earth", "hot_earth", "hot_ground", "hot_neutral")


def slots(outlet: str = "30", **shown: str) -> Given:
    """Return readings of an empty outlet, breakers off: 0.1 V at every pair that is not told."""
    readings: Given = {name: Read(text) for name, text in (dict.fromkeys(ALL_PAIRS, "0.1") | shown).items()}
    return {"how": Choose("meter"), "outlet": Choose(outlet)} | {
        f"dead_{outlet}.{name}": answer for name, answer in readings.items()
    }


def rig(what: str, handle: str = "off", **given: Answer) -> Given:
    return {"how": Choose("rig-has-power"), "what_runs": Choose(what), "handle": Choose(handle)} | given


NO_PEG: Given = {"peg": Cannot()}


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # dead is under 5 V at every pair, and 90 V on neutral or ground keeps hands off: common practice
        (slots(), "dead_now", "unplugged", "park"),
        (slots("20"), "dead_now", "unplugged", "park"),
        (slots() | NO_PEG, "dead_now", "unplugged", "park"),
        (slots() | {"prove": Cannot()}, "dead_unproved", "stay-unplugged", "park"),
        (slots(hot_ground="23.0"), "dead_30.stays_live", "stay-unplugged", "park"),
        (slots(hot_neutral="121.0"), "dead_30.stays_live", "stay-unplugged", "park"),
        (slots(hot_earth="121.0"), "dead_30.stays_live", "stay-unplugged", "park"),
        (slots(neutral_ground="45.0"), "dead_30.half_live", "stay-unplugged", "park"),
        (
            slots(neutral_ground="122.0") | {"dead_30.felt": Choose("no")},
            "dead_30.ground_live",
            "hands-off",
            "park",
        ),
        (
            slots(neutral_ground="122.0") | {"dead_30.felt": Choose("yes")},
            "dead_30.somebody_felt_it",
            "emergency",
            "park",
        ),
        (slots() | {"have_meter": Cannot()}, "unread", "stay-unplugged", "park"),
        (slots() | {"outlet": Unsure()}, "unread", "stay-unplugged", "park"),
        (slots() | {"dead_30.hot_neutral": Unable()}, "unread", "stay-unplugged", "park"),
        # our own side: an inverter or a generator is the electrician's
        (rig("battery-lights"), "came_from_rig", "leave-as-is", "electrician"),
        (rig("wall-lights"), "does_not_cut", "hands-off", "park"),
        (rig("both", "tripped"), "does_not_cut", "hands-off", "park"),
        (
            rig("wall-lights") | {"handle": Unsure(), "main_off": Cannot()},
            "does_not_cut",
            "hands-off",
            "park",
        ),
        (rig("both", sources_off=Cannot()), "sources_stay", "hands-off", "park"),
        (rig("both", "on") | {"out.cord_out": Cannot()}, "still_in", "hands-off", "park"),
        ({"how": Choose("detector")}, "detector_warns", "hands-off", "park"),
        ({"how": Unsure()}, "not_known", "hands-off", "park"),
        (slots() | {"shut.main_off": Cannot()}, "left_alone", "hands-off", "park"),
        (slots() | {"post.look.weather": Choose("rain")}, "wait_first", "hands-off", "park"),
    ],
)
def test_who_is_called(go: Go, given: Given, at: str, verdict: str, call: str) -> None:
    """What is live past its breaker is the park's; what our own source feeds is the electrician's."""
    end = ending(go("wont-go-dead", given))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


def test_the_wrong_handle_leads_to_the_same_readings(go: Go) -> None:
    """With another breaker off than ours the plug comes out in the usual order, then every pair is read."""
    walk = go("wont-go-dead", slots() | rig("both", "on"))
    order = [answered.at for answered in walk.answers]
    assert ending(walk).at == "dead_now"
    assert order.index("shut.main_off") < order.index("out.cord_out") < order.index("dead_30.neutral_ground")


def test_a_plug_whose_breaker_does_not_cut_stays_in(go: Go) -> None:
    """Where the breaker itself is in doubt nobody pulls the plug and nobody works the handle."""
    walk = go("wont-go-dead", rig("wall-lights"))
    assert not [answered.at for answered in walk.answers if answered.at.startswith(("out.", "post."))]
    assert walk.now.state["rig-main"] == "off"
    assert "Leave the plug in" in ending(walk).safe_action


def test_every_pair_of_the_50_is_read(go: Go, library: Library) -> None:
    """Two hots: one pole may stay closed alone, so that dead needs all six pairs, and both hots to earth."""
    place = library.site.places["pedestal-50"]
    zero: Given = {f"dead_50.{name}": Read("0.1") for name in PAIRS_50}
    given: Given = {"how": Choose("meter"), "outlet": Choose("50")} | zero
    walk = go("wont-go-dead", given)
    read = [answered.at for answered in walk.answers if answered.at in zero]
    assert len(read) == len(place.looks["full-look"].pairs) + 3
    assert ending(walk).at == "dead_now"
    assert (
        ending(go("wont-go-dead", given | {"dead_50.hot2_ground": Read("118.0")})).at == "dead_50.stays_live"
    )


def test_a_shock_ends_all_looking(go: Go) -> None:
    """Whoever was shocked goes on with hands off."""
    walk = go("wont-go-dead", {"how": Choose("felt")}, until="tingle")
    assert (walk.now.tree, walk.now.worst) == ("tingle", "danger")
