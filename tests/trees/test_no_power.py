"""No power: which side is dead, then from the inside out, and whose it is once the empty outlet was read."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.tree.library import Library
from shorewalk.walk.answers import Answer, Cannot, Choose, Read, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]


def dead(what: str = "wall-power", **given: str) -> dict[str, Answer]:
    """Return what somebody answers to whom that is dead; `__` in a name stands for a point."""
    return {at.replace("__", "."): Choose(choice) for at, choice in ({"dead": what} | given).items()}


def no_volts() -> dict[str, Answer]:
    """Return a 30 A outlet that reads dead at every pair, its breaker on."""
    names = ("hot_neutral", "hot_ground", "neutral_ground", "hot_earth", "ground_earth")
    return {f"read.read.at_30.{name}": Read("0.1") for name in names}


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # whom to call first is common practice throughout
        (dead(neighbours="same"), "park_wide.park_out", "leave-as-is", "park"),
        (
            dead(neighbours="same") | {"park_wide.main_off": Cannot()},
            "park_wide.park_out_main_on",
            "leave-as-is",
            "park",
        ),
        (dead("battery-side"), "battery_side", "leave-as-is", "electrician"),
        (dead("one-appliance"), "appliance_alone", "leave-as-is", "electrician"),
        (dead("some-outlets"), "circuit.joint_loose", "leave-as-is", "electrician"),
        (
            dead("some-outlets") | {"circuit.joint_off": Cannot()},
            "circuit.joint_unknown",
            "leave-as-is",
            "electrician",
        ),
        (dead() | no_volts(), "read.outlet_dead", "stay-unplugged", "park"),
        (dead("everything") | no_volts(), "read.outlet_dead", "stay-unplugged", "park"),
        (dead() | {"read.read.have_meter": Cannot()}, "read.unread", "stay-unplugged", "park"),
        (dead(protector="yes"), "behind_protector", "stay-unplugged", "electrician"),
        (dead(protector="none"), "at_the_plug", "stay-unplugged", "park"),
        (dead() | {"protector": Unsure()}, "at_the_plug", "stay-unplugged", "park"),
        (dead(source="other") | {"to_shore": Cannot()}, "switch_stuck", "stay-unplugged", "electrician"),
        (dead(rig_main="off") | {"who_main": Cannot()}, "main_unexplained", "stay-unplugged", "electrician"),
        (dead(handle="off") | {"who_breaker": Cannot()}, "breaker_unexplained", "stay-unplugged", "park"),
        (dead(out__cord_end="loose") | {"lock_it": Cannot()}, "inlet_worn", "stay-unplugged", "electrician"),
        (dead(out__inlet_marks="present"), "out.inlet_burnt", "stay-unplugged", "electrician"),
        (
            dead(out__heat__heat="warm", out__heat__where="inlet"),
            "out.hot_ours",
            "stay-unplugged",
            "electrician",
        ),
        (dead(out__contacts__ground_pin="missing"), "out.pin_gone", "stay-unplugged", "electrician"),
        (dead() | {"out.shut.main_off": Cannot()}, "out.left_alone", "hands-off", "park"),
        (dead() | {"out.pull.cord_out": Cannot()}, "out.still_in", "hands-off", "park"),
        (dead(out__post__look__weather="thunder"), "out.wait_first", "hands-off", "park"),
        (dead(smell="burning"), "burning", "hands-off", "park"),
        ({"smell": Unsure()}, "burning", "hands-off", "park"),
    ],
)
def test_which_side_is_dead(go: Go, given: dict[str, Answer], at: str, verdict: str, call: str) -> None:
    """A dead outlet is the park's, what lies behind a protector ours; a plug in doubt is the park's first."""
    end = ending(go("no-power", given))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


@pytest.mark.parametrize(
    ("given", "tree"),
    [
        (dead("half"), "half-power"),
        (dead(rig_main="tripped"), "breaker-trips"),
        (dead(handle="tripped"), "breaker-trips"),
        (dead(protector="no"), "protector-refuses"),
        (dead(outlet="20", button="popped-out"), "ground-fault-trips"),
    ],
)
def test_another_symptom_has_its_own_tree(go: Go, given: dict[str, Answer], tree: str) -> None:
    """Half of it, a breaker that tripped and a protector that refuses are told apart elsewhere."""
    assert go("no-power", given, until=tree).now.tree == tree


@pytest.mark.parametrize(
    "given",
    [dead(source="other"), dead(rig_main="off"), dead(handle="off"), dead(out__cord_end="loose")],
)
def test_a_cause_that_was_found_leads_to_arrival(go: Go, given: dict[str, Answer]) -> None:
    """Where one thing stood wrong the walk goes on in arrival, all off and out, and nothing graded a stop."""
    walk = go("no-power", given)
    assert walk.now.tree == "arrival"
    off = {"rig-main": "off", "rig-branches": "all-off", "other-source": "off", "pedestal-breaker": "off"}
    assert off.items() <= walk.now.state.items()
    assert walk.now.state["cord"] == "unplugged"
    assert walk.now.worst not in ("stop", "danger")


def test_nothing_of_the_pedestal_is_touched_before_the_rig_is_off(go: Go) -> None:
    """All looks from the inside out come first; the first hand goes to the rig's own breakers."""
    asked = [answered.at for answered in go("no-power", dead()).answers]
    assert asked[:8] == ["smell", "dead", "neighbours", "source", "rig_main", "handle", "protector", "outlet"]
    assert asked[8].startswith("out.shut.")


def test_without_12_volts_gas_goes_out_first(go: Go, library: Library) -> None:
    """Gas and carbon monoxide alarms run on 12 V (common practice), so flames go out before anything else."""
    asked = [answered.at for answered in go("no-power", dead("everything")).answers]
    assert asked[2] == "flames"
    assert "gas" in (library.tree("no-power").nodes["flames"].why or "")
