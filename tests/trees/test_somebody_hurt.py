"""Somebody is hurt: rescue without a second person hurt, and always the emergency services."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.tree.library import Library
from shorewalk.tree.model import Ask, End, Measure, Tree
from shorewalk.walk.answers import Answer, Cannot, Choose, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]

HELD = {"contact": Choose("still-in-contact"), "held.source": Choose("rig")}


def free(what: Answer, breath: Answer) -> dict[str, Answer]:
    return {"contact": Choose("hurt"), "what": what, "how.breath": breath}


@pytest.fixture
def tree(library: Library) -> Tree:
    """The tree as written."""
    return library.tree("somebody-hurt")


@pytest.mark.parametrize(
    ("given", "at"),
    [  # do not touch, power off where that is safe, breathing, a doctor: where public first-aid advice agrees
        (free(Choose("shock"), Choose("normal")), "shocked"),
        (free(Choose("shock"), Choose("not-normal")), "how.not_breathing"),
        (free(Unsure(), Unsure()), "how.not_breathing"),
        # lightning leaves no charge in a person: public advice of weather services and first-aiders
        (free(Choose("lightning"), Choose("normal")), "hit_by_lightning"),
        (free(Choose("burn"), Choose("normal")), "burnt"),
        (HELD, "shocked"),
        (HELD | {"how.breath": Choose("not-normal")}, "how.not_breathing"),
        (HELD | {"held.pull": Cannot()}, "held.not_free"),
        (HELD | {"held.power.breaker_off": Cannot()}, "held.power_stays"),
        (HELD | {"held.power.weather": Choose("rain")}, "held.power_stays"),
        (HELD | {"held.power.weather": Choose("thunder")}, "held.power_stays"),
        (HELD | {"held.power.wet": Choose("standing-water")}, "held.power_stays"),
        (HELD | {"held.power.wet": Choose("damp-ground"), "held.power.board": Cannot()}, "held.power_stays"),
        (
            HELD | {"held.power.case": Choose("metal"), "held.power.detector": Choose("no-detector")},
            "held.power_stays",
        ),
        (
            HELD | {"held.power.case": Choose("metal"), "held.power.detector": Choose("warns")},
            "held.power_stays",
        ),
        (HELD | {"held.source": Choose("water-tap")}, "held.loop_contact"),
        (HELD | {"held.source": Unsure()}, "held.loop_contact"),
        ({"contact": Unsure(), "held.source": Choose("pedestal")}, "held.loop_contact"),
    ],
)
def test_every_scene_is_an_emergency(go: Go, given: dict[str, Answer], at: str) -> None:
    """Whoever is hurt gets the emergency services first, then the park, which alone can switch off the loop."""
    end = ending(go("somebody-hurt", given))
    assert (end.at, end.verdict, end.first, end.call) == (at, "emergency", "emergency-services", "park")
    assert not end.lowered


def test_only_a_tingle_goes_on_there(go: Go) -> None:
    """Where nobody is hurt the walk goes on with the tingle, hands still off."""
    walk = go("somebody-hurt", {"contact": Choose("unhurt")}, until="tingle")
    assert (walk.now.tree, walk.now.worst) == ("tingle", "danger")


def test_nothing_is_measured_and_little_is_asked(tree: Tree, go: Go) -> None:
    """No meter comes out, and whoever is free of it has an ending after four answers."""
    assert not [node for node in tree.nodes.values() if isinstance(node, Measure)]
    assert len(go("somebody-hurt", free(Choose("shock"), Choose("normal"))).answers) == 4


def test_nobody_is_touched_before_the_power_is_off(go: Go) -> None:
    """A person in contact is pulled free only after our breaker went off, and not by skin or metal."""
    walk = go("somebody-hurt", HELD)
    order = [answered.at for answered in walk.answers]
    assert order.index("held.pull") == order.index("held.power.breaker_off") + 1
    assert walk.now.state["pedestal-breaker"] == "off"


def test_an_ending_in_contact_says_first_not_to_touch(tree: Tree) -> None:
    """Where somebody may still be live the first words are not to touch; breathing comes after the power."""
    for name, off in (
        ("held.power_stays", "switched"),
        ("held.loop_contact", "all is off"),
        ("held.not_free", "switched"),
    ):
        end = tree.nodes[name]
        assert isinstance(end, End)
        words = end.safe_action or ""
        assert words.startswith("Do not touch them")
        assert words.index(off) < words.index("only gasps")


def test_compressions_come_as_fast_as_advised(tree: Tree) -> None:
    """Twice a second is 120 a minute: public CPR advice says 100 to 120, in the middle of the chest."""
    end = tree.nodes["how.not_breathing"]
    assert isinstance(end, End)
    assert "middle of the chest, twice a second" in (end.safe_action or "")


def test_breath_is_asked_alone(tree: Tree) -> None:
    """Whoever breathes may still not answer, so the question is of the breath only, and a gasp is none."""
    asked = tree.nodes["how.breath"]
    assert isinstance(asked, Ask)
    assert "answer" not in asked.text
    assert "gasp" in (asked.hint or "")


@pytest.mark.parametrize("name", ["shocked", "hit_by_lightning", "burnt"])
def test_whoever_does_not_answer_is_turned(tree: Tree, name: str) -> None:
    """Where they breathe, whoever does not answer is turned onto their side, and a gasp counts as no breath."""
    end = tree.nodes[name]
    assert isinstance(end, End)
    words = end.safe_action or ""
    assert "Do they not answer? Turn them onto their side. No breath, or only gasps? Push hard" in words
