"""The model site reads as pedestals with these faults do.

Check values: worked by another nodal analysis of a 122 V source on a modest feeder with a 10 megohm
meter. Loads and capacitances differ, so numbers come near, not equal.
"""

from __future__ import annotations

from typing import Any

import pytest

from shorewalk.pedestal.stand import Stand, Switched

from .table import GOOD, SEEN_BY_NONE, STOPS, Fault

ROWS = {row.id: row for row in [*GOOD, *SEEN_BY_NONE, *STOPS]}
NAMES = {"50": ("L1 N", "L2 N", "L1 L2", "N G"), "30": ("L N", "L G", "N G"), "20": ("L N", "L G", "N G")}


def live(fault: Fault, outlet: str, **more: Any) -> Stand:
    stand = fault.stand(outlet)
    stand.switched = Switched(breaker=True, **more)
    return stand


def readings(stand: Stand, outlet: str, pairs: tuple[str, ...]) -> list[float]:
    return [stand.read(f"pedestal-{outlet}", *pair.split()) for pair in pairs]


def near(volts: tuple[float, ...]) -> object:
    """Come near: 6 %, or half a volt where it is small."""
    return pytest.approx(volts, rel=0.06, abs=0.6)


@pytest.mark.parametrize(
    ("fault", "outlet", "volts"),
    [
        ("none", "50", (122, 121, 243, 0.1)),
        ("very lopsided loop", "50", (119, 124, 242, 2.0)),
        ("neutral open upstream, neighbours unequal", "50", (137, 106, 243, 15)),
        ("neutral open upstream, neighbours unequal", "20", (106, 122, 15)),
        ("neutral open upstream, balanced", "50", (121, 122, 243, 0.8)),
        ("neutral open upstream, nobody else", "50", (122, 122, 244, 0.0)),
        ("neutral open at the outlet", "50", (68, 68, 243, 0.02)),
        ("neutral open at the outlet", "30", (25, 122, 25)),
        ("neutral loose at the outlet", "50", (122, 121, 243, 0.1)),
        ("neutral loose upstream", "50", (123, 120, 243, 0.6)),
        ("hot contact burnt", "30", (122, 122, 0.1)),
        ("ground open at the outlet", "30", (122, 25, 25)),
        ("ground open upstream", "50", (122, 121, 243, 0.3)),
        ("ground open upstream, one-hot loop", "30", (122, 65, 56)),
        ("ground open upstream, 208Y", "30", (122, 107, 39)),
        ("ground live from elsewhere", "30", (122, 0.2, 122)),
        ("hot and neutral reversed", "30", (122, 0.1, 122)),
        ("hot and neutral reversed", "50", (122, 243, 121, 122)),
        ("hot and ground swapped", "30", (0.1, 122, 122)),
        ("false ground", "30", (122, 122, 0.0)),
        ("false ground of all outlets", "30", (122, 122, 0.0)),
        ("neutral tied to ground", "50", (122, 121, 243, 0.0)),
        ("neutral and ground swapped", "50", (122, 121, 243, 0.1)),
        ("no service bond, a neighbour's fault", "30", (122, 243, 122)),
        ("neutral and ground both open", "30", (0, 0, 0)),
        ("240 V on it", "30", (243, 122, 121)),
        ("one leg lost, back-fed", "50", (121, 65, 56, 0.4)),
        ("one leg lost, back-fed, bare", "50", (121, 121, 0, 0.1)),
        ("both hots from one leg", "50", (122, 122, 0, 0.1)),
        ("208Y", "50", (122, 121, 210, 0.3)),
        ("208Y, neutral open", "50", (105, 105, 210, 61)),
        ("high leg", "50", (121, 211, 244, 0.3)),
        ("floating neutral, as of a generator", "30", (120, 60, 60)),
    ],
)
def test_empty_slots_read_as_they_do_with_this_fault(
    fault: str, outlet: str, volts: tuple[float, ...]
) -> None:
    """Hot-neutral, leg to leg and neutral-ground of a 50; hot-neutral, hot-ground, neutral-ground of a 30 or 20."""
    assert readings(live(ROWS[fault], outlet), outlet, NAMES[outlet]) == near(volts)


@pytest.mark.parametrize(
    ("fault", "outlet", "ground_earth", "hot_earth"),
    [
        ("none", "30", 0, 122),
        ("false ground", "30", 122, 0.1),
        ("hot and ground swapped", "50", 122, 0),
        ("ground live from elsewhere", "50", 122, 122),
        ("no service bond, a neighbour's fault", "30", 0, 243),
    ],
)
def test_the_earth_tells_what_no_slot_tells(
    fault: str, outlet: str, ground_earth: float, hot_earth: float
) -> None:
    """Ground slot and hot slot to the peg."""
    hot = "L1" if outlet == "50" else "L"
    found = readings(live(ROWS[fault], outlet), outlet, ("G earth", f"{hot} earth"))
    assert found == near((ground_earth, hot_earth))


def test_a_dead_outlet_can_have_a_live_slot() -> None:
    """Neutral and ground both open: nothing between the slots, 122 V to earth."""
    assert readings(live(ROWS["neutral and ground both open"], "30"), "30", ("L earth",)) == near((122,))


@pytest.mark.parametrize(
    ("fault", "volts"),
    [
        ("none", (122, 120, 0.6)),
        ("neutral open upstream, balanced", (174, 68, 53)),
        ("neutral open upstream, nobody else", (244, 0, 122)),
        ("neutral loose upstream", (133, 109, 11)),
    ],
)  # the load hangs on leg 2 here
def test_one_heater_in_the_20_shows_it_at_the_free_50(fault: str, volts: tuple[float, ...]) -> None:
    """The leg without the load, the leg with it, neutral to ground."""
    stand = live(ROWS[fault], "50", load="pedestal-20", load_on=True)
    assert readings(stand, "50", ("L1 N", "L2 N", "N G")) == near(volts)


@pytest.mark.parametrize(
    ("fault", "volts"),
    [
        ("none", (120, 122, 0.8)),
        ("neutral loose at the outlet", (99.5, 142.5, 21)),
        ("neutral contact burnt", (99.5, 142.5, 21)),
        ("hot contact burnt", (111, 122, 0.7)),
    ],
)
def test_one_heater_in_the_rig_shows_what_its_own_plug_hides(fault: str, volts: tuple[float, ...]) -> None:
    """At rig outlets: the loaded leg, the other, neutral to ground."""
    stand = live(ROWS[fault], "50", cord="50", main=True, branches="test-only", load="rig", load_on=True)
    pairs = (("rig-outlet-a", "L"), ("rig-outlet-b", "L"), ("rig-outlet-a", "G"))
    assert [stand.read(place, slot, "N") for place, slot in pairs] == near(volts)


def test_a_pole_that_stays_closed_shows_with_the_breaker_off() -> None:
    """Handle off: 121 on one hot, ghosts of 23 and 45 beside it."""
    stuck = ROWS["one pole stays closed"].stand("50")
    assert readings(stuck, "50", ("L2 N", "L1 N", "L1 L2")) == near((23, 121, 45))
    sound = ROWS["none"].stand("50")
    assert readings(sound, "50", ("L2 N", "L1 N", "L1 L2", "N G")) == near((0, 0, 0, 0.1))


def test_equal_loads_on_both_legs_hide_a_loose_neutral() -> None:
    """Why the test load is one heater on one leg."""
    stand = live(ROWS["neutral loose at the outlet"], "50", cord="50", main=True, branches="on")
    assert stand.read("rig-outlet-a", "L", "N") == pytest.approx(121, abs=1.5)
    assert stand.read("rig-outlet-b", "L", "N") == pytest.approx(121, abs=1.5)
