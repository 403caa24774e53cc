"""The air conditioner: off first, then what its start would leave of the volts, then whose it is."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.walk.answers import Answer, Cannot, Choose, Read, Running, Unable, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]
CALM: dict[str, Answer] = {
    "held_off": Choose("none"),
    "breakers": Choose("all-on"),
    "air": Choose("strong"),
    "now": Choose("runs"),
    "load.which_load": Running((("water-heater", 1),)),  # 1,440 W, 12 A at 120 V
    "others": Running((("converter", 1),)),
    **{f"{use}.grip": Choose("firm") for use in ("unplug", "unplug_moves")},
}


def cool(
    does: str = "hums", idle: str = "121.4", loaded: str = "119.9", **given: Answer
) -> dict[str, Answer]:
    """Return the answers of a rig whose air conditioner does so, idle and with one heater; `__` is a point."""
    volts = {"idle.hot_neutral": Read(idle, confirmed=True), "load.loaded": Read(loaded, confirmed=True)}
    more = {at.replace("__", "."): answer for at, answer in given.items()}
    return CALM | {"does": Choose(does)} | volts | more


def post(idle: str, loaded: str) -> dict[str, Answer]:
    return {"lost.at_20.before": Read(idle), "lost.at_20.loaded": Read(loaded)}


MUCH = Running((("water-heater", 1), ("space-heater", 1), ("microwave", 1), ("converter", 1)))


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # whom to call first is common practice throughout; 104 and 110 V are ANSI C84.1-2020
        (cool(), "runs_well", "leave-as-is", "electrician"),
        (cool(now=Choose("hums")), "motor_itself", "leave-as-is", "electrician"),
        (cool(now=Choose("trips")), "tripped_again", "leave-as-is", "electrician"),
        (cool(now=Choose("nothing")), "control", "leave-as-is", "electrician"),
        (cool(running=Read("107.0")), "runs_low", "leave-as-is", "park"),
        (cool(running=Read("101.0")), "falls_too_far", "stay-unplugged", "park"),
        (cool(running=Unable()), "runs_unread", "leave-as-is", "park"),
        # 3 V for 12 A is usual at a rig outlet: its start leaves 107 V, so the supply is not blamed
        (cool(loaded="118.4", now=Choose("hums")), "motor_itself", "leave-as-is", "electrician"),
        (cool("blows-warm"), "cooling", "leave-as-is", "electrician"),
        (cool("stops"), "stops_again", "leave-as-is", "electrician"),
        (cool("stops", air=Choose("ice")), "iced", "leave-as-is", "electrician"),
        (cool("blows-warm", air=Choose("weak")), "filter", "leave-as-is", "electrician"),
        (cool("nothing", held_off=Choose("holds-off")), "managed", "leave-as-is", "electrician"),
        (cool("nothing", breakers=Choose("one-off")), "motor_itself", "leave-as-is", "electrician"),
        (cool("trips"), "motor_itself", "leave-as-is", "electrician"),
        (cool("trips", which_breaker=Choose("tripped")), "pedestal_tripped", "leave-as-is", "park"),
        (cool("trips", others=Unsure()), "start_unproved", "leave-as-is", "electrician"),
        (cool("trips", others=Running()), "motor_itself", "leave-as-is", "electrician"),  # it ran alone
        (cool(others=Running()), "runs_well", "leave-as-is", "electrician"),
        (cool(others=MUCH, idle="118.0", loaded="116.2"), "run_less", "leave-as-is", "park"),
        (cool(idle="117.0", loaded="113.0") | post("117.0", "114.4"), "weak_supply", "leave-as-is", "park"),
        (cool(idle="121.4", loaded="115.6") | post("121.4", "118.4"), "weak_plug", "leave-as-is", "park"),
        (cool(idle="121.4", loaded="115.6") | post("121.4", "120.9"), "plug_side", "stay-unplugged", "park"),
        (
            cool(idle="121.4", loaded="115.6") | post("121.4", "113.9"),
            "supply_weak",
            "stay-unplugged",
            "park",
        ),
        (
            cool(idle="121.4", loaded="115.6", lost__post__look__weather=Choose("rain")),
            "weak_somewhere",
            "leave-as-is",
            "park",
        ),
        (cool(idle="121.4", loaded="109.0"), "falls_too_far", "stay-unplugged", "park"),
        (cool(idle="101.0"), "came_and_went", "stay-unplugged", "park"),
        (cool(idle__with_the_meter=Cannot()), "unread", "leave-as-is", "electrician"),
        (cool(load__loaded=Unable()), "unread", "leave-as-is", "electrician"),
        (cool(rested=Cannot()), "start_unproved", "leave-as-is", "electrician"),
        (cool(smell=Choose("burning")), "burning", "hands-off", "park"),
        (cool(smell=Unsure()), "burning", "hands-off", "park"),
    ],
)
def test_whose_it_is(go: Go, given: dict[str, Answer], at: str, verdict: str, call: str) -> None:
    """The motor and its controls are an electrician's; volts that its start would not leave, the park's."""
    end = ending(go("air-conditioner", given))
    assert (end.at.rpartition(".")[2], end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


@pytest.mark.parametrize("does", ["nothing", "hums", "trips", "stops", "blows-warm"])
def test_it_goes_off_before_anything_is_asked(go: Go, does: str) -> None:
    """A stalled motor heats up within seconds, so the first step switches it off."""
    walk = go("air-conditioner", cool(does))
    assert walk.answers[0].at == "off_first"


@pytest.mark.parametrize(
    "given",
    [cool("trips"), cool("nothing", breakers=Choose("one-off")), cool(idle="117.0", loaded="113.0")],
)
def test_it_is_not_tried_again(go: Go, given: dict[str, Answer]) -> None:
    """After a trip, or where its start would leave too few volts, nobody is told to switch it on."""
    walk = go("air-conditioner", given)
    assert "try_once" not in [answered.at for answered in walk.answers]


def test_what_its_start_would_leave(go: Go) -> None:
    """Four times 12 to 15 A for a moment (extension tables): V0 - 4 I R, alone and beside the rest."""
    walk = go("air-conditioner", cool(now=Choose("hums")))
    ohms = 1.5 / (12 * 119.9 / 120)
    running, rest = 1620 / 120 * 121.4 / 120, 875 / 121.4  # load_amps: of a motor the greater
    starts = [w.value for w in walk.now.worked_all if w.out == "start-volts"]
    assert starts == pytest.approx(
        [121.4 - 4 * running * ohms, 121.4 - rest * ohms - 4 * running * ohms], abs=0.01
    )


def test_alone_it_starts_on_what_it_starts_on(go: Go) -> None:
    """Where nothing else ran, its start leaves the same volts beside the rest as alone: the rest is 0 A."""
    walk = go("air-conditioner", cool(others=Running(), now=Choose("hums")))
    alone, beside = [w.value for w in walk.now.worked_all if w.out == "start-volts"]
    assert alone == pytest.approx(beside)


def test_a_dead_other_leg_leads_to_half_a_rig(go: Go) -> None:
    """Twice 0.0 V on the other leg: the air conditioner may hang on it, so that comes first."""
    walk = go("air-conditioner", cool(outlet=Choose("50"), idle__other_leg=Read("0.0")), until="half-power")
    assert walk.now.tree == "half-power"
