"""Some lights too bright: main off first, nothing read before the plug is out, and no idle reading clears it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from shorewalk.tree.library import Library
from shorewalk.tree.model import End
from shorewalk.walk.answers import Answer, Cannot, Choose, Read, Unable, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.walk import Walk

Go = Callable[..., Walk]
AT_50 = "read.slots.at_50."


def bright(how: str = "some-dim-some-bright", **given: Answer) -> dict[str, Answer]:
    """Return the answers of somebody who saw that; `__` in a name stands for a point."""
    more = {at.replace("__", "."): answer for at, answer in given.items()}
    return {"which": Choose("both"), "how": Choose(how), "broke": Choose("no")} | more


def slots_50(*volts: str) -> dict[str, Answer]:
    """Return L1-N, L2-N, L1-L2 and N-G of an empty 50 A outlet whose hots are sound against ground."""
    names = ("hot1_neutral", "hot2_neutral", "hot_hot", "neutral_ground")
    read: dict[str, Answer] = {
        AT_50 + name: Read(text, confirmed=True) for name, text in zip(names, volts, strict=True)
    }
    return {"read.which": Choose("50")} | read


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [  # whom to call first is common practice throughout
        (bright(), "one_hot_moves", "stay-unplugged", "park"),
        (bright() | {"read.which": Choose("50")}, "neutral_hidden", "stay-unplugged", "park"),
        (bright("too-bright"), "was_high", "stay-unplugged", "park"),
        (bright(neighbours=Choose("same")), "loop_neutral", "stay-unplugged", "park"),
        (bright(broke=Choose("yes")), "harmed", "stay-unplugged", "park"),
        (bright(broke=Unsure()), "harmed", "stay-unplugged", "park"),
        # open neutral upstream, neighbours unequal: 137, 106, 243, N-G 15 V (nodal analysis)
        (
            bright() | slots_50("137.0", "106.0", "243.0", "15.0"),
            "neutral_upstream",
            "stay-unplugged",
            "park",
        ),
        (bright(read__slots__have_meter=Cannot()), "unread", "stay-unplugged", "park"),
        (bright(read__slots__at_30__hot_neutral=Unable()), "unread", "stay-unplugged", "park"),
        (bright(contacts__slots=Choose("present")), "outlet_burnt", "stay-unplugged", "park"),
        (bright(contacts__blades=Choose("present")), "plug_burnt", "stay-unplugged", "electrician"),
        (bright(contacts__ground_pin=Choose("missing")), "pin_missing", "stay-unplugged", "electrician"),
        (bright("dim"), "only_dim", "leave-as-is", "park"),
        (bright("flicker"), "only_dim", "leave-as-is", "park"),
        (bright(which=Choose("battery-lights")), "charger_too_high", "leave-as-is", "electrician"),
        (bright(smell=Choose("burning")), "burning", "hands-off", "park"),
        (bright(smell=Unsure()), "burning", "hands-off", "park"),
        (bright(post__look__weather=Choose("thunder")), "wait_first", "hands-off", "park"),
        (bright(out__cord_out=Cannot()), "still_in", "hands-off", "park"),
        ({"now.main_off": Cannot()}, "breaker_off_only", "unplug-now", "park"),
        ({"now.main_off": Cannot(), "breaker_only": Cannot()}, "still_live", "hands-off", "park"),
        (
            {"now.main_off": Cannot(), "post_anyway.look.weather": Choose("rain")},
            "still_live",
            "hands-off",
            "park",
        ),
    ],
)
def test_who_is_called(go: Go, given: dict[str, Answer], at: str, verdict: str, call: str) -> None:
    """A neutral or a supply is the park's, read or not; a scorched plug or the charger an electrician's."""
    end = ending(go("some-bright", given))
    assert (end.at.rpartition(".")[2], end.verdict, end.call) == (at, verdict, call)
    assert not end.lowered


@pytest.mark.parametrize("how", ["some-dim-some-bright", "too-bright", None])
def test_it_acts_before_it_asks(go: Go, how: str | None) -> None:
    """The main goes off before the first question, and no slot is read before the plug is out."""
    walk = go("some-bright", bright() | {"how": Choose(how) if how else Unsure()})
    asked = [answered.at for answered in walk.answers]
    assert asked[0] == "now.main_off"
    readings = [known.index for known in walk.now.known if known.place]
    assert readings
    assert min(readings) > asked.index("out.cord_out")


def test_nothing_here_allows_use_again(library: Library) -> None:
    """A loose neutral reads sound when idle, so no ending of its own lets the cord go back in."""
    ends = [node for node in library.tree("some-bright").nodes.values() if isinstance(node, End)]
    assert {end.verdict for end in ends} <= {
        "stay-unplugged",
        "unplug-now",
        "hands-off",
        "emergency",
        "leave-as-is",
    }


def test_a_shock_goes_on_in_the_tree_for_it(go: Go) -> None:
    """Felt, or not known: hands off, and nothing more is asked here."""
    for felt in (Choose("yes"), Unsure()):
        walk = go("some-bright", bright(felt=felt), until="tingle")
        assert (walk.now.tree, walk.now.worst) == ("tingle", "danger")
