"""The routine of arrival, fed with the readings each fault is known by.

The numbers come from nodal analysis of a 122 V source with a modest feeder, read by a 10 megohm meter.
They are typed here as they stand, so that a change of a judge's rows shows which fault it loses.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import pytest

from shorewalk.tree.library import Library, shipped
from shorewalk.tree.model import Ask, Measure, Step, Tally
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Read, Running, Unable, Unsure
from shorewalk.walk.message import Ending, ending
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import begin

Volts = dict[str, float]
CALM = {
    "weather": "clear", "light": "enough", "wet": "dry", "smell": "none", "sound": "silent", "damage": "none",
    "nest-or-insects": "none", "burn-marks": "none", "pedestal-case": "plastic", "plug-marks": "none",
    "ground-pin-looks": "whole", "adapter": "none", "face-up": "ground-down", "breaker-feel": "firm",
    "breaker-position": "on", "protector-owned": "yes", "protector-state": "connected", "plug-fit": "home",
    "test-button": "trips-and-resets", "test-load-warm": "yes", "something-broke": "no", "tingle": "no",
    "near-voltage": "silent", "heat": "cool", "outlet-grip": "firm", "cord-end-fit": "locked", "fire": "none",
    "broke-where": "rig", "only-tripped": "no",
}  # fmt: skip


def one(ln: float, lg: float, ng: float, le: float | None = None, ge: float = 0.1) -> Volts:
    """Readings of an outlet with one hot: L-N, L-G, N-G, L-earth (as L-N), G-earth."""
    return {"L N": ln, "L G": lg, "N G": ng, "L earth": ln if le is None else le, "G earth": ge}


def two(
    l1n: float, l2n: float, l1l2: float, ng: float, *, l1g: float | None = None, l2g: float | None = None,
    l1e: float | None = None, l2e: float | None = None, ge: float = 0.1,
) -> Volts:  # fmt: skip
    """Readings of the outlet with two hots; to ground and to earth as to neutral, where not given."""
    to_ground = (l1n if l1g is None else l1g, l2n if l2g is None else l2g)
    to_earth = (l1n if l1e is None else l1e, l2n if l2e is None else l2e)
    return {
        "L1 N": l1n, "L2 N": l2n, "L1 L2": l1l2, "N G": ng, "G earth": ge,
        "L1 G": to_ground[0], "L2 G": to_ground[1], "L1 earth": to_earth[0], "L2 earth": to_earth[1],
    }  # fmt: skip


@dataclass(frozen=True)
class Site:
    """What a meter shows: breaker on, breaker off, test load on at the pedestal, in the rig, on its metal."""

    idle: Volts
    off: Volts = field(default_factory=dict)
    loaded: Volts = field(default_factory=dict)
    rig: Volts = field(default_factory=lambda: {"a": 119.0, "b": 121.2, "ng": 0.6})
    rig_idle: float = 0.3
    skin: float = 0.1
    peg: bool = True
    other_ground: bool = True
    seen: dict[str, str] = field(default_factory=dict)
    ran: Answer = field(default_factory=lambda: Running((("space-heater", 1),)))

    @property
    def outlet(self) -> str:
        return "50" if "L1 N" in self.idle else "30"


SOUND_20 = one(122.0, 122.0, 0.3, 122.0, 0.2)


def reads(site: Site, node: Measure, *, on: bool) -> float:
    """Return what the meter shows at this question."""
    pair, loaded = f"{node.from_} {node.to}", node.load.amount != "none"
    if node.place == "rig-skin":
        return site.skin
    if node.place.startswith("rig-outlet"):
        what = "ng" if node.to == "G" else node.place[-1]
        return site.rig[what] if loaded else {"a": 121.0, "b": 121.2, "ng": site.rig_idle}[what]
    if not on:
        return site.off.get(pair, 0.0)
    if node.place != f"pedestal-{site.outlet}":
        return SOUND_20[pair]
    return site.loaded.get(pair, site.idle[pair]) if loaded else site.idle[pair]


def answer(site: Site, node: object, *, on: bool) -> Answer:
    """Return what somebody at this pedestal answers."""
    match node:
        case Step(name=name):
            return Cannot() if name.startswith("peg_") and not site.peg else Done()
        case Ask(sign=sign) if site.seen.get(sign) == "":
            return Unsure()
        case Ask(sign=sign):
            return Choose(site.outlet if sign == "outlet-used" else (CALM | site.seen)[sign])
        case Tally(name=name) if name.startswith("ran_"):
            return site.ran
        case Tally():
            return Running((("space-heater", 1),))
        case Measure(to="other-ground") if not site.other_ground:
            return Unable()
        case Measure():
            return Read(f"{reads(site, node, on=on):.1f}", confirmed=True)
    raise AssertionError(node)


def arrive(site: Site, library: Library | None = None) -> Ending:
    """Walk arrival at this pedestal to its ending."""
    walk = begin(library or shipped(), "arrival", parse_meter("basic,tenths"))
    while not walk.ended:
        walk = walk.answer(answer(site, walk.now.node, on=walk.now.state.get("pedestal-breaker") != "off"))
    return ending(walk)


STOPS = {
    "neutral open upstream, weak leg": (Site(one(106, 122, 15, 122)), "neutral_upstream"),
    "neutral open upstream, neighbours unequal": (
        Site(two(137, 106, 243, 15, l1g=122, l2g=121, l1e=122, l2e=121)),
        "neutral_upstream",
    ),
    "the same, neighbours balanced": (
        Site(two(121, 122, 243, 0.8), loaded={"L1 N": 174, "L2 N": 68, "N G": 53}),
        "gave_way_high",
    ),
    "the same, nobody else on the loop": (
        Site(two(122, 122, 244, 0.0), loaded={"L1 N": 0, "L2 N": 244, "N G": 122}),
        "gave_way_low",
    ),
    "neutral open at the 50": (
        Site(two(68, 68, 243, 0.02, l1g=122, l2g=121, l1e=122, l2e=121)),
        "neutral_open",
    ),
    "neutral open at the 30": (Site(one(25, 122, 25, 122)), "neutral_open"),
    "neutral loose at the 50": (
        Site(two(122, 121, 243, 0.1), rig={"a": 100, "b": 143, "ng": 21}),
        "contact_poor",
    ),
    "neutral loose upstream": (
        Site(two(123, 120, 243, 1.8), loaded={"L1 N": 109, "L2 N": 134, "N G": 12}),
        "gave_way_high",
    ),
    "hot contact burnt": (Site(one(122, 122, 0.1), rig={"a": 111, "b": 122, "ng": 0.6}), "contact_poor"),
    "ground open at the 30": (Site(one(122, 25, 25)), "ground_open"),
    "ground open at the 50, ghosts cancel": (Site(two(122, 121, 243, 0.06, l1g=68, l2g=68)), "ground_open"),
    "ground open upstream, 30-only loop": (Site(one(122, 68, 53)), "ground_open"),
    "ground open upstream, 208 V": (Site(two(122, 121, 210, 40, l1g=107)), "neutral_upstream"),
    "ground live from elsewhere": (
        Site(one(122, 0.2, 122, ge=122), off={"N G": 122, "G earth": 122}),
        "ground_live",
    ),
    "hot and neutral reversed, 30": (Site(one(122, 0.1, 122, 0.1)), "reversed"),
    "hot and neutral reversed, 50": (
        Site(two(122, 243, 121, 122, l1g=0.1, l2g=121, l1e=0.1, l2e=121)),
        "reversed",
    ),
    "hot and ground swapped, 30": (Site(one(0.1, 122, 122, 0.1, 122)), "swapped"),
    "the same to a meter, no peg": (Site(one(0.1, 122, 122), peg=False), "swapped_or_open"),
    "neutral open upstream, neighbours on its leg, 30": (
        Site(one(0.0, 122.4, 122.4, 122.4, 0)),
        "neutral_live",
    ),
    "the same, no peg": (Site(one(0.0, 122.4, 122.4), peg=False), "swapped_or_open"),
    "neutral open upstream, neighbours on the other leg, 30": (Site(one(244, 122, 122, 122, 0)), "two_hots"),
    "neutral open upstream, neighbours on one leg, 50": (
        Site(two(0.0, 244, 244, 122, l1g=122, l2g=122, l1e=122, l2e=122, ge=0)),
        "neutral_live",
    ),
    "the same, no peg, 50": (Site(two(244, 0.0, 244, 122, l1g=122, l2g=122), peg=False), "neutral_live"),
    "hot and ground swapped, 50": (
        Site(two(0.1, 121, 121, 122, l1g=122, l2g=243, ge=122, l1e=0.1, l2e=121)),
        "swapped",
    ),
    "false ground, 30": (Site(one(122, 122, 0.0, 0.1, 122)), "false_ground"),
    "false ground, 50": (Site(two(122, 243, 121, 0.0, ge=122, l1e=0.1, l2e=121)), "false_ground"),
    "no service bond, 30": (Site(one(122, 243, 122, 243, 0)), "no_bond"),
    "no service bond, 50": (Site(two(122, 121, 243, 122, l1g=243, l2g=0, ge=0, l1e=243, l2e=0)), "no_bond"),
    "neutral and ground both open": (Site(one(0, 0, 0, 122, 0)), "both_open"),
    "240 V on the 30": (Site(one(243, 122, 121, 122)), "two_hots"),
    "one leg lost": (Site(two(122, 0, 122, 0.1)), "leg_lost"),
    "one leg lost, a ghost on it": (Site(two(122, 40, 83, 0.1)), "leg_lost"),
    "one leg lost, fed back": (Site(two(121, 65, 56, 0.3)), "leg_lost"),
    "one leg lost, fed back, nothing else on it": (Site(two(121, 121, 0.0, 0.3)), "one_leg_twice"),
    "one pole stays closed": (
        Site(two(122, 121, 243, 0.1), off={"L1 N": 23, "L2 N": 121, "L1 L2": 45}),
        "stays_live",
    ),
    "two legs of 208 V, neutral open": (
        Site(two(105, 105, 210, 61, l1g=122, l2g=122, l1e=122, l2e=122)),
        "neutral_upstream",
    ),
    "high leg": (Site(two(121, 211, 244, 0.1)), "high_leg"),
    "a floating source": (Site(one(120, 60, 60)), "ground_open"),
    "a low hot against a good peg": (Site(one(122, 122, 0.1, 40, 0.5)), "earth_in_doubt"),
    "low supply": (Site(one(105.3, 105.2, 0.1)), "too_low"),
    "high supply": (Site(one(128.1, 128.1, 0.1)), "too_high"),
}

USES = {
    "sound, 30": (Site(one(122, 122, 0.1)), "ready"),
    "sound, 50": (Site(two(122, 121, 243, 0.1)), "ready"),
    "sound, legs that add up over the whole": (Site(two(121.2, 121.3, 243.0, 0.1)), "ready"),
    "a busy loop": (Site(one(122, 124, 2.5)), "ready_with_care"),
    "a lopsided loop": (Site(two(122, 117, 239, 1.0)), "ready_with_care"),
    "two legs of 208 V": (Site(two(122, 121, 210, 0.9)), "ready_208"),
    "125.9 V shown as 127.4": (Site(one(127.4, 127.4, 0.1)), "ready_with_care"),
    "no peg": (Site(one(122, 122, 0.1), peg=False), "ready_unchecked"),
}


@pytest.mark.parametrize("name", STOPS)
def test_every_fault_is_told_by_its_readings(name: str) -> None:
    """A fault that readings show is named by its own ending, allows no use, and is the park's to mend."""
    site, expected = STOPS[name]
    end = arrive(site)
    assert end.at.rpartition(".")[2] == expected
    assert end.verdict in ("stay-unplugged", "hands-off")
    assert end.call == "park"
    assert not end.lowered


@pytest.mark.parametrize("name", USES)
def test_sound_pedestals_may_be_used(name: str) -> None:
    """What is no fault ends in use, and what no look shows is always named."""
    site, expected = USES[name]
    end = arrive(site)
    assert end.at == expected
    assert end.verdict == ("good-to-use" if expected == "ready" else "use-with-care")
    assert any("further up the line" in fault for fault in end.not_ruled_out)
    assert not end.lowered


WEAK: Volts = {"a": 111, "b": 122, "ng": 0.6}
LOOSE: Volts = {"a": 119, "b": 121.2, "ng": 6.5}


@pytest.mark.parametrize("rig", [WEAK, LOOSE], ids=["hot", "neutral"])
@pytest.mark.parametrize(
    ("seen", "at", "call"),
    [  # heat at outlet and plug is the park's first, at inlet, cord and adapter ours: common practice
        ({}, "poor", "park"),
        ({"heat": "warm", "heat-where": "plug"}, "hot_outlet", "park"),
        ({"heat": "hot", "heat-where": "breaker"}, "hot_outlet", "park"),
        ({"heat": "warm", "heat-where": "inlet"}, "hot_ours", "electrician"),
        ({"heat": "warm", "heat-where": "cord"}, "hot_ours", "electrician"),
        ({"heat": "hot", "heat-where": "adapter"}, "hot_ours", "electrician"),
        ({"outlet-grip": "loose"}, "outlet_loose", "park"),
    ],
)
def test_what_fails_only_through_our_plug_is_looked_at(
    rig: Volts, seen: dict[str, str], at: str, call: str
) -> None:
    """What is warm or loose tells whose contact it is; where nothing does, the park comes first."""
    end = arrive(Site(one(122, 122, 0.1), rig=rig, seen=seen))
    assert end.at.rpartition(".")[2].endswith(at)
    assert (end.verdict, end.call) == ("stay-unplugged", call)
    if not seen:
        assert "electrician" in end.safe_action
        assert "electrician" in end.say


@pytest.mark.parametrize(
    ("seen", "at"),
    [
        ({"something-broke": "yes", "only-tripped": "rig-breaker"}, "circuit_trips"),
        ({"something-broke": ""}, "something_broke"),
    ],
    ids=["in the rig", "not sure"],
)
def test_a_branch_that_fails_behind_a_sound_outlet_is_ours(seen: dict[str, str], at: str) -> None:
    """The outlet read sound, with a load through our plug too: what then trips is the electrician's."""
    end = arrive(Site(one(122, 122, 0.1), seen=seen))
    assert (end.at, end.verdict, end.call) == (at, "stay-unplugged", "electrician")
    assert "read sound" in end.say


@pytest.mark.parametrize(
    ("ran", "at", "call"),
    [  # 80 % of 30 A is 24 A for hours (NEC); a breaker that trips below it is the park's (common practice)
        (Running((("space-heater", 1),)), "trips_early", "park"),
        (Running((("space-heater", 2), ("air-conditioner", 1))), "ran_too_much", "park"),
        (Unsure(), "pedestal_trips", "electrician"),
    ],
)
def test_a_pedestal_breaker_that_trips_is_judged_by_what_ran(ran: Answer, at: str, call: str) -> None:
    """Little: the park checks it. Much: less is to run. Nobody knows: our circuits are looked at."""
    end = arrive(
        Site(one(122, 122, 0.1), ran=ran, seen={"something-broke": "yes", "only-tripped": "pedestal"})
    )
    assert (end.at, end.verdict, end.call) == (at, "stay-unplugged", call)


def test_a_ground_that_is_open_only_through_our_plug_is_ours() -> None:
    """Neutral and ground agree in the empty slots and are apart in the rig with no load on: no neutral does that."""
    end = arrive(Site(one(122, 122, 0.1), rig_idle=38.0))
    assert (end.at, end.verdict, end.call) == ("look_b_30.ground_poor", "stay-unplugged", "electrician")


def test_a_flash_as_the_branches_come_on_goes_on_in_the_tree_for_it() -> None:
    """Nobody is sent to the pedestal before fire, harm and where it popped were asked."""
    end = arrive(Site(one(122, 122, 0.1), seen={"something-broke": "yes", "broke-where": "outlet"}))
    assert (end.tree, end.at, end.verdict, end.call) == (
        "something-broke",
        "at_pedestal",
        "hands-off",
        "park",
    )


def test_live_metal_behind_a_proved_ground_is_ours() -> None:
    """Voltage on the rig's metal behind a ground that read right is the electrician's; hands stay off."""
    end = arrive(Site(one(122, 122, 0.1), skin=60))
    assert (end.at, end.verdict, end.call) == ("skin_30.live_ours", "hands-off", "electrician")


@pytest.mark.parametrize("tingle", ["yes", ""], ids=["felt", "not sure"])
@pytest.mark.parametrize(
    "site",
    [
        Site(one(122, 122, 122, ge=95)),
        Site(two(122, 121, 243, 122, ge=95)),
        Site(one(122, 122, 0.1), off={"N G": 30}),
        Site(two(122, 121, 243, 0.1), off={"N G": 30}),
        Site(one(122, 122, 0.1), off={"G earth": 7}),
    ],
    ids=["30", "50", "30, half live and off", "50, half live and off", "half live against the earth"],
)
def test_a_live_ground_that_somebody_felt_is_an_emergency(site: Site, tingle: str) -> None:
    """Where neutral or ground is live it is asked whether anybody felt it; not to know counts as felt."""
    end = arrive(replace(site, seen={"tingle": tingle}))
    assert end.at.rpartition(".")[2] == "somebody_felt_it"
    assert (end.verdict, end.first, end.call) == ("emergency", "emergency-services", "park")


def test_a_false_ground_without_a_peg_shows_at_the_rigs_metal() -> None:
    """Where no peg could be set, another outlet's ground shows the live metal before anybody touches it."""
    end = arrive(Site(one(122, 122, 0.0), peg=False, skin=122))
    assert (end.at, end.verdict, end.call) == ("skin_30.live_park", "hands-off", "park")


def test_the_detector_stands_in_last_and_names_what_it_leaves_open() -> None:
    """With neither peg nor free outlet a silent detector allows careful use; the false ground stays open."""
    end = arrive(Site(one(122, 122, 0.1), peg=False, other_ground=False))
    assert (end.at, end.verdict) == ("ready_unchecked", "use-with-care")
    assert any("false ground" in fault for fault in end.not_ruled_out)
