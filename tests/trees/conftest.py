"""Walking the shipped trees: calm answers everywhere, but where a test says otherwise."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import pytest

from shorewalk.tree.library import Library, shipped
from shorewalk.tree.model import Ask, Measure, Step, Tally
from shorewalk.walk.answers import Answer, Choose, Done, Read, Running
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import Walk, begin

Given = Mapping[str, Answer]
Go = Callable[..., Walk]

CALM = {
    "weather": "clear", "light": "enough", "wet": "dry", "smell": "none", "sound": "silent", "damage": "none",
    "gas-smell": "none",
    "nest-or-insects": "none", "burn-marks": "none", "pedestal-case": "plastic", "tenths": "yes",
    "breaker-feel": "firm", "plug-marks": "none", "test-load-warm": "yes", "heat": "cool",
    "outlet-used": "30", "person": "unhurt", "near-voltage": "silent", "breaker-position": "on",
    "neighbours": "unknown", "fire": "none", "breathing": "normal", "tingle": "no", "something-broke": "no",
    "cord-where": "out", "rig-flooded": "no", "storm-left": "nothing", "ground-pin-looks": "whole",
    "dead-what": "wall-power", "half-what": "one-side", "gets-brighter": "no", "outlet-grip": "firm",
    "cord-end-fit": "locked", "adapter": "none", "protector-lets-through": "yes",
    "protector-legs": "no-display", "rig-main-position": "on", "branch-breakers": "all-on",
    "reset-button": "pushed-in", "inverter-outlets": "no", "transfer-switch": "none",
    "energy-manager": "none", "comes-back": "seconds", "goes-when": "no-pattern",
    "protector-owned": "no", "face-up": "ground-down", "plug-fit": "home", "test-button": "trips-and-resets",
}  # fmt: skip
IDLE = {"hot neutral": "121.4", "ground hot": "121.3", "ground neutral": "0.2", "hot hot": "242.8"}
EARTH = {"earth ground": "0.3", "earth hot": "121.2", "earth skin": "0.2"}


@pytest.fixture(scope="session")
def library() -> Library:
    """The trees that come with the program."""
    return shipped()


def calm(walk: Walk, library: Library) -> Answer:
    """Return what somebody at a sound pedestal answers."""
    match walk.now.node:
        case Step():
            return Done()
        case Ask(sign=sign):
            return Choose(CALM[sign])
        case Tally(loads=loads):
            return Running(((loads[0], 1),))
        case Measure() as node:
            terminals = library.site.places[node.place].terminals
            roles = " ".join(sorted((terminals[node.from_].role, terminals[node.to].role)))
            if node.what == "hertz":
                return Read("60.0")
            if (
                walk.now.state.get("pedestal-breaker") == "off"
                and library.site.places[node.place].at == "pedestal"
            ):
                return Read("0.0")
            if node.load.amount != "none":
                return Read("119.6" if "hot" in roles else "0.6")
            return Read((IDLE | EARTH)[roles])
    raise AssertionError(walk.now.node)


@pytest.fixture
def go(library: Library) -> Go:
    """Walk `tree` to its end, or to where it goes on in `until`, with `given` answers by node."""

    def walk_on(
        tree: str, given: Given | None = None, *, meter: str = "basic", until: str = "arrival"
    ) -> Walk:
        walk = begin(library, tree, parse_meter(meter))
        while not walk.ended and walk.now.tree != until:
            answer = (given or {}).get(walk.now.node.name) or calm(walk, library)
            walk = walk.answer(answer)
        return walk

    return walk_on
