"""A storm: unplug while there is time, touch nothing in thunder, and look from afar when it is over."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.tree.library import Library
from shorewalk.tree.model import Measure, Step
from shorewalk.walk.answers import Answer, Cannot, Choose, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]
Given = dict[str, Answer]


def stage(name: str, **given: Answer) -> Given:
    return {"storm": Choose(name)} | given


def over(**given: Answer) -> Given:
    return stage("over", strike=Choose("nothing"), power=Choose("as-before")) | given


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # thunder and 30 minutes after the last: common practice of weather services
        (stage("overhead"), "stay_inside", "hands-off", "park"),
        (stage("overhead", shelter=Cannot()), "stay_inside", "hands-off", "park"),
        ({"storm": Unsure()}, "stay_inside", "hands-off", "park"),
        (stage("coming", weather=Choose("thunder")), "stay_inside", "hands-off", "park"),
        (stage("coming", weather=Unsure()), "stay_inside", "hands-off", "park"),
        (stage("coming", weather=Choose("rain")), "stay_plugged", "hands-off", "park"),
        (stage("coming", unplug_first=Cannot()), "stay_plugged", "hands-off", "park"),
        (
            stage("high-water", water_where=Choose("standing-water"), rig_water=Choose("yes")),
            "cut_off",
            "hands-off",
            "park",
        ),
        (stage("high-water", water_where=Choose("water-inside")), "pedestal_flooded", "hands-off", "park"),
        (stage("high-water", water_where=Unsure(), rig_water=Unsure()), "cut_off", "hands-off", "park"),
        (over(strike=Choose("wire-down")), "wire_down", "emergency", "park"),
        (over(strike=Unsure()), "not_seen", "hands-off", "park"),
        (over(fire=Choose("smoke")), "on_fire", "emergency", "park"),
        (over(smell=Choose("burning")), "burning", "hands-off", "park"),
        (over(wet=Choose("water-inside")), "pedestal_flooded", "hands-off", "park"),
        # a rig that is plugged in is first the park's to switch off, then the electrician's
        (over(rig_inside=Choose("yes")), "rig_was_flooded", "hands-off", "park"),
        (over(damage=Choose("present")), "pedestal_hit", "hands-off", "park"),
        (over(power=Choose("protector")), "protector_holds", "leave-as-is", "park"),
        (over(power=Unsure()), "power_unsure", "unplug-now", "park"),
        (over(strike=Choose("strike-near")), "struck_near", "leave-as-is", "electrician"),
        (over(), "as_before", "leave-as-is", "park"),
    ],
)
def test_who_is_called(go: Go, given: Given, at: str, verdict: str, call: str) -> None:
    """Water and wires are the park's; a wire down or a fire is an emergency first."""
    end = ending(go("storm", given, until="leaving"))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert (end.first == "emergency-services") == (verdict == "emergency")
    assert not end.lowered


@pytest.mark.parametrize(
    ("given", "tree"),
    [
        (stage("coming"), "leaving"),
        (stage("high-water", water_where=Choose("damp-ground")), "leaving"),
        (over(power=Choose("none")), "no-power"),
        (over(power=Choose("too-bright")), "some-bright"),
        (over(power=Choose("ground-fault")), "ground-fault-trips"),
        ({"hurt": Choose("yes")}, "somebody-hurt"),
        ({"hurt": Unsure()}, "somebody-hurt"),
    ],
)
def test_another_symptom_goes_on_there(go: Go, given: Given, tree: str) -> None:
    """What the storm left as another trouble is walked in that trouble's own tree."""
    assert go("storm", given, until=tree).now.tree == tree


def test_nothing_is_touched_and_nothing_measured(library: Library) -> None:
    """The tree ends, or goes on elsewhere, before any hand or probe: no step changes a thing."""
    nodes = library.tree("storm").nodes.values()
    assert not [node for node in nodes if isinstance(node, Measure)]
    assert not [node for node in nodes if isinstance(node, Step) and node.leaves]


@pytest.mark.parametrize(
    ("at", "given", "words"),
    [
        (
            "wire_down",
            over(strike=Choose("wire-down")),
            "Stay 30 feet (10 m) away",
        ),  # 35 feet: electrical safety bodies
        ("stay_inside", stage("overhead"), "30 minutes after the last thunder"),
        ("stay_inside", stage("overhead"), "Never drive a rig that is plugged in"),
        ("power_unsure", over(power=Unsure()), "Thunder within 30 minutes? Then stay inside."),
        ("cut_off", stage("high-water", water_where=Unsure(), rig_water=Unsure()), "Do not wade"),
        ("rig_was_flooded", over(rig_inside=Choose("yes")), "an electrician looks at the rig"),
    ],
)
def test_what_an_ending_must_say(go: Go, at: str, given: Given, words: str) -> None:
    """The one thing that keeps people alive there stands in the safe action."""
    end = ending(go("storm", given))
    assert end.at == at
    assert words in end.safe_action
