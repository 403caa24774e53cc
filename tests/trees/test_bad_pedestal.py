"""The pedestal looks wrong: a look from afar, no hand and no probe, and the words for the park."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.tree.library import Library
from shorewalk.tree.model import End, Measure, Step, Tree
from shorewalk.walk.answers import Answer, Cannot, Choose, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]


def seen(name: str, value: str, more: dict[str, Answer] | None = None) -> dict[str, Answer]:
    return {name: Choose(value)} | (more or {})


def broken(kind: Answer) -> dict[str, Answer]:
    return {"damage": Choose("present"), "damage_kind": kind}


def nested(kind: Answer) -> dict[str, Answer]:
    return {"nest": Choose("present"), "nest_kind": kind}


def metal(detector: str) -> dict[str, Answer]:
    return {"case": Choose("metal"), "detector": Choose(detector)}


@pytest.fixture
def tree(library: Library) -> Tree:
    """The tree as written."""
    return library.tree("bad-pedestal")


@pytest.mark.parametrize("cord", ["in", "out"])
@pytest.mark.parametrize(
    ("given", "at", "verdict"),
    [  # what shows at the pedestal is the park's to mend: common practice
        (seen("fire", "smoke"), "on_fire", "emergency"),
        ({"fire": Unsure()}, "on_fire", "emergency"),
        (seen("smell", "burning"), "burning", "hands-off"),
        (seen("wet", "standing-water"), "standing_water", "hands-off"),
        (seen("wet", "water-inside"), "water_inside", "hands-off"),
        ({"wet": Unsure()}, "water_inside", "hands-off"),
        (seen("sound", "hum"), "noise", "hands-off"),
        (seen("sound", "crackle"), "noise", "hands-off"),
        (broken(Choose("wires")), "wires_show", "hands-off"),
        (broken(Unsure()), "wires_show", "hands-off"),
        (broken(Choose("cracked")), "cracked", "hands-off"),
        (broken(Choose("loose")), "leaning", "hands-off"),
        (broken(Choose("lid")), "lid_gone", "hands-off"),
        ({"damage": Unsure()}, "cracked", "hands-off"),
        (seen("burns", "present"), "scorched", "hands-off"),
        (nested(Choose("wasps")), "wasps", "hands-off"),
        (nested(Choose("crawling")), "crawling", "hands-off"),
        (nested(Choose("animal")), "animal", "hands-off"),
        (metal("warns"), "case_live", "hands-off"),
        (metal("no-detector"), "case_unknown", "hands-off"),
    ],
)
def test_what_is_wrong_is_the_parks(
    go: Go, cord: str, given: dict[str, Answer], at: str, verdict: str
) -> None:
    """Each thing that looks wrong has an ending of its own; the park is called, the cord stays as it is."""
    end = ending(go("bad-pedestal", {"cord": Choose(cord)} | given))
    assert (end.at, end.verdict, end.call) == (at, verdict, "park")
    assert (end.first == "emergency-services") == (verdict == "emergency")
    assert not end.lowered


def test_the_load_comes_off_only_from_inside_and_dry(go: Go) -> None:
    """With the cord in a bad joint loses its load; near water or live metal nobody goes to the rig for it."""
    plugged: dict[str, Answer] = {"cord": Choose("in")}
    for name, value in (("sound", "hum"), ("burns", "present"), ("smell", "burning")):
        assert go("bad-pedestal", plugged | seen(name, value)).now.state["rig-main"] == "off"
    for given in (seen("wet", "water-inside"), seen("wet", "standing-water"), metal("warns")):
        walk = go("bad-pedestal", plugged | given)
        assert "load_off" not in {answered.at for answered in walk.answers}
    assert ending(go("bad-pedestal", plugged | seen("sound", "hum") | {"load_off": Cannot()})).at == "noise"


def test_a_shock_is_another_matter(go: Go) -> None:
    """Whoever felt something, or may have, goes on with hands off."""
    for answer in (Choose("yes"), Unsure()):
        walk = go("bad-pedestal", {"felt": answer}, until="tingle")
        assert (walk.now.tree, walk.now.worst) == ("tingle", "danger")


def test_nothing_wrong_goes_on_where_it_began(go: Go) -> None:
    """With the cord out the arrival begins from its first question; with the cord in nothing is changed."""
    out = go("bad-pedestal")
    assert (out.now.tree, out.now.worst) == ("arrival", "ok")
    assert ending(go("bad-pedestal", {"cord": Choose("in")})).verdict == "leave-as-is"
    assert ending(go("bad-pedestal", {"cord": Unsure()})).verdict == "leave-as-is"


def test_no_hand_and_no_probe_goes_to_the_pedestal(tree: Tree) -> None:
    """No reading is asked for, and no step changes anything but the main breaker in the rig."""
    assert not [node for node in tree.nodes.values() if isinstance(node, Measure)]
    assert {name for node in tree.nodes.values() if isinstance(node, Step) for name, _ in node.leaves} == {
        "rig-main"
    }


def test_nothing_is_sprayed_or_set_upright(tree: Tree) -> None:
    """A nest is left alone and a leaning pedestal left leaning (common practice)."""
    for name, words in (
        ("wasps", "Do not spray"),
        ("crawling", "spray"),
        ("leaning", "Do not set it upright"),
    ):
        end = tree.nodes[name]
        assert isinstance(end, End)
        assert words in (end.safe_action or "")
