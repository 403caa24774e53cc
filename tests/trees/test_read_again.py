"""The volts again: the same readings at another hour, and the way out where they tell of more than that."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.tree.library import shipped
from shorewalk.walk.answers import Answer, Cannot, Choose, Read, Running, Unable, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]
CALM: dict[str, Answer] = {
    "load.which_load": Running((("water-heater", 1),)),  # 1,440 W, 12 A at 120 V
    **{f"{use}.grip": Choose("firm") for use in ("unplug", "unplug_moves")},
}
FIFTY = Choose("50")


def again(idle: str = "121.4", loaded: str = "119.6", **given: Answer) -> dict[str, Answer]:
    """Return the answers of a rig that reads so, at rest and with one heater; `__` stands for a point."""
    volts = {"hot_neutral": Read(idle, confirmed=True), "load.loaded": Read(loaded, confirmed=True)}
    return CALM | volts | {at.replace("__", "."): answer for at, answer in given.items()}


@pytest.mark.parametrize(
    ("given", "at", "verdict"),
    [  # whom to call first is common practice throughout; 114, 126, 110, 104 V are ANSI C84.1-2020
        (again(), "holds", "leave-as-is"),
        (again("111.8", "110.2"), "low", "leave-as-is"),
        (again("127.0", "125.4"), "high", "leave-as-is"),
        (
            again(outlet=FIFTY, other_leg=Read("121.2"), load__other_loaded=Read("121.6")),
            "holds",
            "leave-as-is",
        ),
        (again(outlet=FIFTY, other_leg=Read("135.0")), "out_of_range", "stay-unplugged"),
        (again(outlet=FIFTY, other_leg=Unable()), "leg_unread", "leave-as-is"),
        (again(outlet=FIFTY, other_leg=Unable(), load__load_on=Cannot()), "leg_unread", "leave-as-is"),
        (again(outlet=FIFTY, other_leg=Read("0.0"), other_outlet=Cannot()), "leg_unread", "leave-as-is"),
        (again("114.5", outlet=FIFTY, other_leg=Read("127.5")), "moves", "stay-unplugged"),
        (again("103.0"), "out_of_range", "stay-unplugged"),
        (again("134.0"), "out_of_range", "stay-unplugged"),
        (again("121.4", "109.3"), "moves", "stay-unplugged"),
        (again("121.4", "115.0"), "sags", "leave-as-is"),
        (again(neutral_ground=Read("95.0")), "metal_live", "hands-off"),
        (again(smell=Choose("burning")), "burning", "hands-off"),
        (again(smell=Unsure()), "burning", "hands-off"),
        (again(outlet=Unsure()), "leg_unknown", "leave-as-is"),
        (again(outlet=Unsure(), load__load_on=Cannot()), "leg_unknown", "leave-as-is"),
        (again("111.8", "110.2", outlet=Unsure()), "low", "leave-as-is"),
        (again(load__load_on=Cannot()), "load_unread", "leave-as-is"),
        (again(hot_neutral=Unable()), "unread", "leave-as-is"),
        (again(quiet=Cannot()), "not_quiet", "leave-as-is"),
    ],
)
def test_each_finding_has_its_ending(go: Go, given: dict[str, Answer], at: str, verdict: str) -> None:
    """What is read leads to the safe end for it, and the park is called first."""
    end = ending(go("read-again", given))
    assert (end.at, end.verdict, end.call) == (at, verdict, "park")


def test_a_dead_other_leg_is_read_again_and_leads_to_half_a_rig(go: Go) -> None:
    """Twice 0.0 V on the other leg: it goes on with the half that is dead, and calls nothing in range."""
    walk = go("read-again", again(outlet=FIFTY, other_leg=Read("0.0")), until="half-power")
    assert [one.at for one in walk.answers].count("other_leg") == 2
    assert not walk.ended
    assert walk.now.tree == "half-power"


def test_no_slot_of_the_pedestal_is_read() -> None:
    """Every reading is taken inside: the slots of the pedestal hold a plug."""
    places = shipped().site.places
    nodes = shipped().tree("read-again").nodes.values()
    assert {places[node.place].at for node in nodes if hasattr(node, "place")} == {"rig"}
