"""The lights are dim: battery side or wall side, the neutral first, then where the volts are lost."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.walk.answers import Answer, Cannot, Choose, Read, Running, Unable, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]
HEATER = Running((("water-heater", 1),))  # 1,440 W, 12 A at 120 V


def lights(which: str, how: str = "dim", **given: Answer) -> dict[str, Answer]:
    more = {at.replace("__", "."): answer for at, answer in given.items()}
    seen: dict[str, Answer] = {"how": Choose(how), "which": Choose(which), "which_load": HEATER}
    return seen | more


def battery(now: str, rest: str = "12.1", charging: str = "13.4") -> dict[str, Answer]:
    volts = {"battery_now": Read(now), "battery_rest": Read(rest), "battery_charging": Read(charging)}
    return lights("battery-lights") | volts


def wall(idle: str, loaded: str, how: str = "dim", **given: Answer) -> dict[str, Answer]:
    volts = {"hot_neutral_before": Read(idle, confirmed=True), "hot_neutral": Read(loaded, confirmed=True)}
    return lights("wall-lights", how, **given) | volts


def post(idle: str, loaded: str) -> dict[str, Answer]:
    return {"at_20.before": Read(idle), "at_20.loaded": Read(loaded)}


FIFTY = Choose("50")


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # battery: 13.5 V or a rise of 0.3 V within a minute shows a charger (common practice)
        (lights("both", "flicker", smell=Choose("burning")), "burning", "hands-off", "park"),
        (lights("both", smell=Unsure()), "burning", "hands-off", "park"),
        (battery("13.6"), "charger_lives", "leave-as-is", "electrician"),
        (battery("12.4", "12.1", "12.4"), "battery_low", "leave-as-is", "electrician"),
        (battery("12.1", "12.1", "12.1"), "charger_dead", "leave-as-is", "electrician"),
        (battery("0.3"), "battery_empty", "leave-as-is", "electrician"),
        (battery("12.4", "0.3"), "battery_unread", "leave-as-is", "electrician"),
        (battery("12.4", "12.1", "0.3"), "battery_unread", "leave-as-is", "electrician"),
        (lights("battery-lights", battery_now=Unable()), "battery_unread", "leave-as-is", "electrician"),
        (wall("121.4", "119.6"), "steady", "leave-as-is", "electrician"),
        (wall("121.4", "119.6", how="flicker"), "flickers", "leave-as-is", "electrician"),
        (wall("121.4", "119.6", outlet=Unsure()), "leg_unknown", "leave-as-is", "park"),
        (
            wall("121.4", "119.6", outlet=FIFTY, other_leg_before=Unable()),
            "leg_unknown",
            "leave-as-is",
            "park",
        ),
        (
            wall("121.4", "119.6", outlet=FIFTY, other_leg_before=Read("0.0"), other_outlet=Cannot()),
            "leg_unknown",
            "leave-as-is",
            "park",
        ),
        (wall("111.8", "110.2", when_low=Choose("supper")), "bit_low", "leave-as-is", "park"),
        (wall("126.8", "125.4"), "bit_high", "leave-as-is", "park"),
        (wall("101.0", "99.0"), "out_of_range", "stay-unplugged", "park"),
        # one heater of 12 A: 5 % of 121 V is 6 V, 7 % is 8.5 V at 12.5 A
        (wall("121.4", "109.3"), "contact_poor", "stay-unplugged", "park"),
        (wall("121.4", "101.0"), "contact_poor", "stay-unplugged", "park"),
        (wall("121.4", "115.6") | post("121.4", "117.4"), "sags_some", "leave-as-is", "park"),
        (wall("121.4", "115.6") | post("121.4", "116.7"), "sags_some", "leave-as-is", "park"),
        (wall("121.4", "115.6") | post("121.4", "113.9"), "supply_weak", "stay-unplugged", "park"),
        (wall("121.4", "115.6") | post("121.4", "120.9"), "plug_side", "stay-unplugged", "park"),
        (wall("121.4", "115.6") | post("121.4", "118.4"), "sags_at_plug", "leave-as-is", "park"),
        (wall("121.4", "115.6") | {"at_20.load_on": Cannot()}, "sags_unread", "leave-as-is", "park"),
        (wall("121.4", "115.6", post__look__weather=Choose("rain")), "sags_unread", "leave-as-is", "park"),
        (wall("121.4", "115.6", outlet=Unsure()), "sags_unread", "leave-as-is", "park"),
        # neutral open, nobody else on the loop: 0 and 244 V, and the heater stays cold (nodal analysis)
        (wall("122.0", "0.3", outlet=FIFTY), "neutral_loose", "stay-unplugged", "park"),
        (wall("121.4", "119.6", load_warm=Choose("no")), "unread", "stay-unplugged", "park"),
        # neutral of 2 ohm at the 50 A outlet, one leg loaded: 100, 143, 21 V (nodal analysis)
        (wall("122.0", "100.0", outlet=FIFTY), "contact_poor", "stay-unplugged", "park"),
        (
            wall("122.0", "106.5", outlet=FIFTY, other_leg=Read("143", confirmed=True)),
            "neutral_loose",
            "stay-unplugged",
            "park",
        ),
        (
            wall("122.0", "116.0", outlet=FIFTY, other_leg=Read("126.9")),
            "neutral_loose",
            "stay-unplugged",
            "park",
        ),
        (wall("122.0", "118.0", neutral_ground=Read("7.0")), "neutral_loose", "stay-unplugged", "park"),
        (
            wall("122.0", "118.0", neutral_ground=Read("95", confirmed=True)),
            "metal_live",
            "hands-off",
            "park",
        ),
        (lights("both", how="some-dim-some-bright"), "neutral_suspected", "stay-unplugged", "park"),
        (lights("both", how="too-bright"), "neutral_suspected", "stay-unplugged", "park"),
        ({"how": Unsure()}, "neutral_suspected", "stay-unplugged", "park"),
        (lights("wall-lights", with_the_meter=Cannot()), "unread", "stay-unplugged", "park"),
        (lights("wall-lights", hot_neutral_before=Unable()), "unread", "stay-unplugged", "park"),
        (
            lights("wall-lights", hot_neutral_before=Unable(), shut__main_off=Cannot()),
            "not_out",
            "unplug-now",
            "park",
        ),
    ],
)
def test_where_the_volts_are_lost(go: Go, given: dict[str, Answer], at: str, verdict: str, call: str) -> None:
    """Battery and one circuit are an electrician's; supply, outlet and a moving neutral the park's first."""
    end = ending(go("lights-dim", given))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


def test_bright_lights_mean_main_off_at_once(go: Go) -> None:
    """Before any other question the rig's main goes off, and nothing is measured before the cord is out."""
    walk = go("lights-dim", lights("both", how="some-dim-some-bright"))
    asked = [answered.at for answered in walk.answers]
    assert asked[:2] == ["how", "main_now"]
    readings = [known for known in walk.now.known if known.place]
    assert readings
    assert asked.index("out.cord_out") < min(known.index for known in readings)


def test_both_kinds_of_lights_lead_to_the_battery_too(go: Go) -> None:
    """Where the wall side holds, lights of both kinds are looked for on the battery side as well."""
    end = ending(
        go("lights-dim", wall("121.4", "119.6") | {"which": Choose("both"), "battery_now": Read("13.7")})
    )
    assert end.at == "charger_lives"


@pytest.mark.parametrize(
    ("given", "at"),
    [
        (battery("0.3"), "battery_now"),
        (battery("12.4", "0.3"), "battery_rest"),
        (battery("12.4", "12.1", "0.3"), "battery_charging"),
    ],
)
def test_a_battery_that_shows_next_to_nothing_is_read_once_more(
    go: Go, given: dict[str, Answer], at: str
) -> None:
    """So little is most often the wrong dial: it is looked at once before anything is said of the battery."""
    asked = [answered.at for answered in go("lights-dim", given).answers]
    assert asked.count(at) == 2
    assert asked[asked.index(at) + 1].startswith("dial")


def test_sag_is_told_for_each_ampere(go: Go) -> None:
    """Z = (V0 - V1) / I: 6 V at 11.6 A (1,440 W at 116 V) is about half an ohm, and 5.3 % at 12.5 A."""
    walk = go("lights-dim", wall("122.0", "116.0") | post("122.0", "118.0"))
    worked = {w.out: w.value for w in walk.now.worked_all}
    assert worked["source-ohms"] == pytest.approx(6 / 11.6, rel=0.01)
    assert worked["rig-sag-percent"] == pytest.approx(100 * 6 / 122 * 12.5 / 11.6, rel=0.01)
    assert worked["rig-share"] == pytest.approx(2 / 11.6, rel=0.01)


def test_a_dead_other_leg_leads_to_half_a_rig(go: Go) -> None:
    """Twice 0.0 V on the other leg: it goes on with the half that is dead, and no heater goes on."""
    walk = go(
        "lights-dim", wall("121.4", "119.6", outlet=FIFTY, other_leg_before=Read("0.0")), until="half-power"
    )
    asked = [one.at for one in walk.answers]
    assert asked.count("other_leg_before") == 2
    assert "load_on" not in asked
    assert walk.now.tree == "half-power"
