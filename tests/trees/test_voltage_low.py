"""The voltage is too low: at rest or under load, by the neighbours or not, at the pedestal or at our plug."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.walk.answers import Answer, Cannot, Choose, Read, Running, Unable, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]
SOME, FEW, FIFTY = Choose("up-to-20"), Choose("up-to-3"), Choose("50")
CALM: dict[str, Answer] = {
    "fed_by": Choose("pedestal"),
    "told_by": Choose("display"),
    "brighter": Choose("no"),
    "when": Choose("supper"),
    "sites": SOME,
    "load.which_load": Running((("water-heater", 1),)),  # 1,440 W, 12 A at 120 V
    "wanted": Running((("microwave", 1),)),
    **{f"{use}.grip": Choose("firm") for use in ("unplug", "unplug_moves", "unplug_unread")},
}


def low(idle: str = "111.8", loaded: str = "110.2", **given: Answer) -> dict[str, Answer]:
    """Return the answers of a rig that reads so, idle and with one heater; `__` stands for a point."""
    volts = {"idle.hot_neutral": Read(idle, confirmed=True), "load.loaded": Read(loaded, confirmed=True)}
    return CALM | volts | {at.replace("__", "."): answer for at, answer in given.items()}


def post(idle: str, loaded: str, at: str = "at_20") -> dict[str, Answer]:
    return {f"lost.{at}.before": Read(idle), f"lost.{at}.loaded": Read(loaded)}


BIG = Running((("air-conditioner", 1), ("space-heater", 1), ("water-heater", 1), ("microwave", 1)))


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # whom to call first is common practice throughout; 114, 110, 104 V are ANSI C84.1-2020
        (low(smell=Choose("burning")), "burning", "hands-off", "park"),
        (low(smell=Unsure()), "burning", "hands-off", "park"),
        (low(), "low_at_supper", "leave-as-is", "park"),
        (low(when=Choose("hot-day")), "low_at_supper", "leave-as-is", "park"),
        (low(when=Choose("always")), "low_of_itself", "leave-as-is", "park"),
        (low(when=Choose("after-rain")), "low_after_rain", "leave-as-is", "park"),
        (low("108.4", "107.7", sites=FEW), "low_beyond", "leave-as-is", "park"),
        (low(sites=Unsure()), "low_of_itself", "leave-as-is", "park"),
        (low(load__which_load=Unsure()), "low_of_itself", "leave-as-is", "park"),
        (low("121.4", "119.6"), "may_run", "leave-as-is", "park"),
        (low("121.4", "118.4", wanted=BIG), "too_much_wanted", "leave-as-is", "park"),
        (low("121.4", "119.6", wanted=Unsure()), "holds", "leave-as-is", "park"),
        (low("121.4", "119.6", load__which_load=Unsure()), "holds", "leave-as-is", "park"),
        (low("121.4", load__loaded=Unable()), "load_unread", "leave-as-is", "park"),
        (low("121.4", "119.6", outlet=Unsure()), "leg_unknown", "leave-as-is", "park"),
        (low("121.4", "119.6", outlet=FIFTY, idle__other_leg=Unable()), "leg_unknown", "leave-as-is", "park"),
        (
            low("121.4", "119.6", outlet=FIFTY, idle__other_leg=Read("0.0"), idle__other_outlet=Cannot()),
            "leg_unknown",
            "leave-as-is",
            "park",
        ),
        (low("127.0"), "high_instead", "leave-as-is", "park"),
        (low("101.0"), "lost_between", "stay-unplugged", "park"),
        (low("121.4", "109.3"), "falls_too_far", "stay-unplugged", "park"),
        (low("121.4", "119.6", load__ng_loaded=Read("7.0")), "falls_too_far", "stay-unplugged", "park"),
        (low("121.4", "115.6") | post("121.4", "116.7"), "sags_some", "leave-as-is", "park"),
        (low("121.4", "115.6") | post("121.4", "118.4"), "sags_at_plug", "leave-as-is", "park"),
        (low("121.4", "115.6") | post("121.4", "113.9"), "supply_weak", "stay-unplugged", "park"),
        (low("121.4", "115.6") | post("121.4", "120.9"), "plug_side", "stay-unplugged", "park"),
        (low("121.4", "115.6", lost__at_20__load_on=Cannot()), "sags_unread", "leave-as-is", "park"),
        (
            low("121.4", "115.6", lost__post__look__weather=Choose("rain")),
            "sags_unread",
            "leave-as-is",
            "park",
        ),
        (
            low("121.4", "115.6", outlet=Choose("20")) | post("121.4", "118.4", "at_half"),
            "sags_at_plug",
            "leave-as-is",
            "park",
        ),
        (
            low("121.4", "115.6", lost__shut_plug__main_off=Cannot()) | post("121.4", "120.9"),
            "not_out",
            "unplug-now",
            "park",
        ),
        (low(idle__with_the_meter=Cannot()), "unread", "stay-unplugged", "park"),
        (low(fed_by=Choose("generator")), "generator_low", "leave-as-is", "electrician"),
        (low(told_by=Choose("protector-cut")), "protector_holds", "leave-as-is", "park"),
    ],
)
def test_where_the_volts_go(go: Go, given: dict[str, Answer], at: str, verdict: str, call: str) -> None:
    """Only a generator is an electrician's first; supply, outlet and a moving neutral are the park's."""
    end = ending(go("voltage-low", given))
    assert (end.at.rpartition(".")[2], end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


def test_lamps_that_get_brighter_go_to_the_neutral_first(go: Go) -> None:
    """Seen, or not known: on to where the main goes off before anything is read."""
    for answer in (Choose("yes"), Unsure()):
        walk = go("voltage-low", low(brighter=answer), until="some-bright")
        assert walk.now.tree == "some-bright"
        assert not [known for known in walk.now.known if known.place]


@pytest.mark.parametrize(("sites", "amps"), [("up-to-3", 120.0), ("up-to-9", 247.5), ("up-to-20", 450.0)])
def test_what_the_neighbours_can_explain(go: Go, sites: str, amps: float) -> None:
    """3, 9 and 20 sites of 12,000 VA at 80, 55 and 45 % (NEC 2017, 551.73(A)), at 240 V, over our own ohms."""
    walk = go("voltage-low", low(sites=Choose(sites)))
    worked = {w.out: w.value for w in walk.now.worked_all}
    ohms = 1.6 / (12 * 110.2 / 120)
    assert worked["source-ohms"] == pytest.approx(ohms, rel=1e-3)
    assert worked["beyond-neighbours"] == pytest.approx(120 - 111.8 - amps * ohms, rel=1e-3)


def test_what_would_be_left_is_said(go: Go) -> None:
    """V0 - I R: 12.5 A of a microwave over 1.8 V / 11.96 A leave 119.5 V of 121.4."""
    end = ending(go("voltage-low", low("121.4", "119.6")))
    assert "119.5 V" in end.because


def test_no_motor_runs_while_it_is_looked_for(go: Go) -> None:
    """The air conditioner goes off before the first reading, for motors burn out at low voltage."""
    walk = go("voltage-low", low())
    asked = [answered.at for answered in walk.answers]
    assert asked.index("motors_off") < asked.index("idle.hot_neutral")


def test_a_dead_other_leg_is_read_again_and_leads_to_half_a_rig(go: Go) -> None:
    """Twice 0.0 V on the other leg: it goes on with the half that is dead, and calls nothing in range."""
    walk = go(
        "voltage-low",
        low("121.4", "119.6", outlet=Choose("50"), idle__other_leg=Read("0.0")),
        until="half-power",
    )
    assert [one.at for one in walk.answers].count("idle.other_leg") == 2
    assert walk.now.tree == "half-power"
