"""The voltage is too high: whether it is true, whose it is, and whether a loose neutral is behind it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.walk.answers import Answer, Cannot, Choose, Read, Running, Unable, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]
HEATER = Running((("space-heater", 1),))  # 1,300 to 1,500 W, 10.8 to 12.5 A at 120 V
CALM: dict[str, Answer] = {
    "fed_by": Choose("pedestal"),
    "told_by": Choose("meter"),
    "brighter": Choose("no"),
    "when": Choose("always"),
    "load.which_load": HEATER,
    **{f"{use}.grip": Choose("firm") for use in ("unplug", "unplug_moves", "unplug_unread")},
}


def high(idle: str = "126.8", loaded: str = "125.2", **given: Answer) -> dict[str, Answer]:
    """Return the answers of a rig that reads so, idle and with one heater; `__` stands for a point."""
    volts = {"idle.hot_neutral": Read(idle, confirmed=True), "load.loaded": Read(loaded, confirmed=True)}
    return CALM | volts | {at.replace("__", "."): answer for at, answer in given.items()}


def legs(idle: tuple[str, str], loaded: tuple[str, str]) -> dict[str, Answer]:
    return high(idle[0], loaded[0], outlet=Choose("50")) | {
        "idle.other_leg": Read(idle[1], confirmed=True),
        "load.other_loaded": Read(loaded[1], confirmed=True),
    }


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # whom to call first is common practice throughout; 126 V is ANSI C84.1-2020, service, Range A
        (high(smell=Choose("burning")), "burning", "hands-off", "park"),
        (high(smell=Unsure()), "burning", "hands-off", "park"),
        (high("121.4", "119.6"), "in_range", "leave-as-is", "park"),
        (high("121.4", "119.6", when=Choose("quiet-hours")), "in_range_by_day", "leave-as-is", "park"),
        (high("121.4", "119.6", outlet=Unsure()), "leg_unknown", "leave-as-is", "park"),
        (
            high("121.4", "119.6", outlet=Choose("50"), idle__other_leg=Unable()),
            "leg_unknown",
            "leave-as-is",
            "park",
        ),
        (
            high("124.9", outlet=Choose("50"), idle__other_leg=Read("126.8"), load__loaded=Unable()),
            "bit_high",
            "leave-as-is",
            "park",
        ),
        (high(at_20=Read("126.9")), "bit_high", "leave-as-is", "park"),
        (high(at_20=Unable()), "bit_high", "leave-as-is", "park"),
        (high(at_20=Read("119.2")), "ours_high", "leave-as-is", "electrician"),
        (high(at_20=Read("125.4")), "bit_high", "leave-as-is", "park"),
        (high(at_20=Read("131.0")), "supply_out", "stay-unplugged", "park"),
        (high(at_20=Read("131.0"), shut__main_off=Cannot()), "not_out", "unplug-now", "park"),
        (high(outlet=Choose("20"), at_half=Read("126.6")), "bit_high", "leave-as-is", "park"),
        (high(outlet=Choose("20"), at_half=Read("119.0")), "ours_high", "leave-as-is", "electrician"),
        (high(post__look__weather=Choose("rain")), "bit_high", "leave-as-is", "park"),
        (high(when=Choose("jumps")), "came_and_went", "stay-unplugged", "park"),
        (high("133.0"), "came_and_went", "stay-unplugged", "park"),
        (high("101.0"), "came_and_went", "stay-unplugged", "park"),
        (high("111.0"), "low_instead", "leave-as-is", "park"),
        (high("124.0", "118.0"), "sags_too", "leave-as-is", "park"),
        (high("124.0", "112.0"), "neutral_loose", "stay-unplugged", "park"),
        (high("121.4", load__loaded=Unable()), "load_unread", "leave-as-is", "park"),
        # one leg up as the other is down is the neutral (Kirchhoff), usable as each may be
        (legs(("127.0", "112.5"), ("0", "0")), "neutral_loose", "stay-unplugged", "park"),
        # neutral of 2 ohm, one leg loaded: 100, 143 (nodal analysis)
        (legs(("122.0", "122.0"), ("110.0", "143.0")), "neutral_loose", "stay-unplugged", "park"),
        (legs(("122.0", "122.0"), ("118.0", "126.8")), "neutral_loose", "stay-unplugged", "park"),
        (high(idle__neutral_ground=Read("15.0")), "neutral_loose", "stay-unplugged", "park"),
        (high(idle__neutral_ground=Read("95", confirmed=True)), "metal_live", "hands-off", "park"),
        (high(load__ng_loaded=Read("95", confirmed=True)), "metal_live", "hands-off", "park"),
        (high(idle__with_the_meter=Cannot()), "unread", "stay-unplugged", "park"),
        (high(fed_by=Choose("generator")), "generator_high", "leave-as-is", "electrician"),
        (high(told_by=Choose("protector-cut")), "protector_holds", "leave-as-is", "park"),
    ],
)
def test_whose_it_is(go: Go, given: dict[str, Answer], at: str, verdict: str, call: str) -> None:
    """A supply and a neutral are the park's; a booster in the rig and a generator an electrician's."""
    end = ending(go("voltage-high", given))
    assert (end.at.rpartition(".")[2], end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


@pytest.mark.parametrize(
    "given",
    [{"told_by": Choose("lamps")}, {"brighter": Choose("yes")}, {"brighter": Unsure()}],
)
def test_lamps_that_glare_are_switched_off_first(go: Go, given: dict[str, Answer]) -> None:
    """They lead on to where the main goes off before anything is read."""
    walk = go("voltage-high", high() | given, until="some-bright")
    assert walk.now.tree == "some-bright"
    assert not [known for known in walk.now.known if known.place]


def test_a_meter_without_tenths_clears_no_neutral(go: Go) -> None:
    """Whole volts cannot tell so small a move: the neutral is not ruled out, nor said to hold."""
    end = ending(go("voltage-high", high("127", "126", idle__tenths=Choose("no")), meter="basic,whole"))
    assert (end.at, end.verdict) == ("bit_high", "leave-as-is")
    assert "a loose neutral, which only shows under load" in end.not_ruled_out
    assert "hardly" not in f"{end.because} {end.say}"


def test_a_dead_other_leg_is_read_again_and_leads_to_half_a_rig(go: Go) -> None:
    """Twice 0.0 V on the other leg: it goes on with the half that is dead, and calls nothing in range."""
    walk = go(
        "voltage-high",
        high("121.4", "119.6", outlet=Choose("50"), idle__other_leg=Read("0.0")),
        until="half-power",
    )
    assert [one.at for one in walk.answers].count("idle.other_leg") == 2
    assert walk.now.tree == "half-power"
