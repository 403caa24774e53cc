"""Half of the rig is dead: by design, one circuit, a leg lost at the outlet or in the rig, or a leg fed back."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.tree.library import Library
from shorewalk.tree.model import End
from shorewalk.walk.answers import Answer, Cannot, Choose, Read, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]
AT = "read.read.at_50."


def half(which: str, outlet: str = "50", adapter: str = "none", **given: str) -> dict[str, Answer]:
    """Return what somebody answers who sees that half dead; `__` in a name stands for a point."""
    seen = {"half": which, "outlet": outlet, "adapter": adapter}
    return {at.replace("__", "."): Choose(choice) for at, choice in (seen | given).items()}


def slots(hot1: str, hot2: str, both: str, ground: str = "0.2") -> dict[str, Answer]:
    """Return readings of the empty 50 A outlet: each hot to neutral, hot to hot, neutral to ground."""
    pairs = {"hot1_neutral": hot1, "hot1_ground": hot1, "hot2_neutral": hot2, "hot2_ground": hot2}
    pairs |= {"hot1_earth": hot1, "hot2_earth": hot2, "hot_hot": both, "neutral_ground": ground}
    return {AT + name: Read(text, confirmed=True) for name, text in pairs.items()}


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # whom to call first is common practice throughout; readings by nodal analysis of 122 V and 10 megohm
        (half("one-side"), "leg_at_plug", "stay-unplugged", "park"),
        (half("one-side", legs="both"), "leg_in_rig", "stay-unplugged", "electrician"),
        (half("one-side", legs="one"), "leg_at_plug", "stay-unplugged", "park"),
        (half("one-side", out__cord_end="loose"), "inlet_loose", "stay-unplugged", "electrician"),
        (half("one-side") | slots("121.4", "0.2", "121.3"), AT + "leg_lost", "stay-unplugged", "park"),
        (half("one-side") | slots("121.4", "65.1", "56.2"), AT + "leg_lost", "stay-unplugged", "park"),
        (half("only-240") | slots("121.4", "121.4", "0.1"), AT + "one_leg_twice", "stay-unplugged", "park"),
        (half("only-240") | slots("121.4", "121.1", "210.0"), "two_of_three", "unplugged", "park"),
        (half("only-240"), "big_appliance", "unplugged", "electrician"),
        (half("weak"), "weak_hidden", "stay-unplugged", "park"),
        (half("weak") | slots("121.4", "65.1", "56.2"), AT + "leg_lost", "stay-unplugged", "park"),
        (half("weak", "30", "fitted"), "weak_hidden", "stay-unplugged", "park"),
        (half("weak") | {"read.off_again": Cannot()}, "read.not_off", "stay-unplugged", "park"),
        (half("only-240", "30", "fitted"), "by_design", "leave-as-is", "park"),
        (half("one-side", "30", "fitted", manager="holds-off"), "held_off", "leave-as-is", "electrician"),
        (half("one-side", "30", "fitted"), "adapter_half", "stay-unplugged", "electrician"),
        (half("one-side", "30"), "circuit.joint_loose", "leave-as-is", "electrician"),
        (half("few-outlets"), "circuit.joint_loose", "leave-as-is", "electrician"),
        (
            half("few-outlets", circuit__branch="one-off"),
            "circuit.circuit_stays_off",
            "leave-as-is",
            "electrician",
        ),
        (
            half("few-outlets", circuit__inverter="inverter-off"),
            "circuit.inverter_dead",
            "leave-as-is",
            "electrician",
        ),
        (half("one-side", out__contacts__blades="present"), "out.plug_burnt", "stay-unplugged", "electrician"),
        (half("one-side", out__contacts__slots="present"), "out.outlet_burnt", "stay-unplugged", "park"),
        (half("one-side", out__heat__heat="hot", out__heat__where="plug"), "out.hot_outlet", "stay-unplugged", "park"),
        (half("one-side", out__grip="loose"), "out.outlet_loose", "stay-unplugged", "park"),
        (half("one-side", out__inlet_marks="present"), "out.inlet_burnt", "stay-unplugged", "electrician"),
        (half("one-side", out__post__look__weather="rain"), "out.wait_first", "hands-off", "park"),
        (half("one-side", smell="burning"), "burning", "hands-off", "park"),
    ],
)  # fmt: skip
def test_which_half_and_why(go: Go, given: dict[str, Answer], at: str, verdict: str, call: str) -> None:
    """What is by design stays; a leg lost at the outlet is the park's, behind a display that shows both ours."""
    end = ending(go("half-power", given))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


def test_what_is_weak_goes_off_before_anything_else(go: Go) -> None:
    """Half the volts burn out motors (common practice): the main is off before outlet or meter come up."""
    asked = [answered.at for answered in go("half-power", half("weak")).answers]
    assert asked[: asked.index("main_now") + 1] == ["bright", "smell", "half", "main_now"]


@pytest.mark.parametrize(
    ("given", "tree"),
    [
        ({"bright": Choose("yes")}, "some-bright"),
        ({"bright": Unsure()}, "some-bright"),
        (half("one-side", rig_main="tripped"), "breaker-trips"),
        (half("one-side", rig_main="off"), "breaker-trips"),
        (half("one-side", "50", "fitted"), "arrival"),
        (half("few-outlets", circuit__button="popped-out"), "ground-fault-trips"),
        (half("one-side", "30", circuit__button="popped-out"), "ground-fault-trips"),
    ],
)
def test_where_another_symptom_is_the_right_one(go: Go, given: dict[str, Answer], tree: str) -> None:
    """Bright lamps are a neutral, a main that is off is a trip, and a cord for 30 A goes into the 30."""
    assert go("half-power", given, until=tree).now.tree == tree


def test_only_what_is_by_design_or_one_circuit_leaves_the_cord_in(library: Library) -> None:
    """The leave-as-is ends are those of a circuit, of an adapter and of a rig that holds loads off."""
    leaves = {
        n.name
        for n in library.tree("half-power").nodes.values()
        if isinstance(n, End) and n.verdict == "leave-as-is"
    }
    assert {name for name in leaves if "." not in name} == {"by_design", "held_off"}
