"""Somebody felt a tingle: hands off, power off, one call."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from shorewalk.tree.library import Library
from shorewalk.tree.model import Measure
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Read, Unable, Unsure
from shorewalk.walk.message import ending
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import Walk, begin

Go = Callable[..., Walk]

HELD: dict[str, Answer] = {"person": Choose("still-in-contact"), "in_contact.source": Choose("rig")}

PROVED = """\
tree: proved
symptom: A made-up beginning, with the outlet read just before
starts: {cord: unplugged, pedestal-breaker: "on"}
begin: hot_neutral
nodes:
  hot_neutral:
    measure: {what: ac-volts, place: pedestal-30, from: L, to: "N"}
    next: hot_ground
    unable: go_on
  hot_ground:
    measure: {what: ac-volts, place: pedestal-30, from: L, to: G}
    next: neutral_ground
    unable: go_on
  neutral_ground:
    measure: {what: ac-volts, place: pedestal-30, from: "N", to: G}
    next: ground_earth
    unable: go_on
  ground_earth:
    measure: {what: ac-volts, place: pedestal-30, from: G, to: earth}
    next: hot_earth
    unable: go_on
  hot_earth:
    measure: {what: ac-volts, place: pedestal-30, from: L, to: earth}
    next: plug_in
    unable: plug_in
  plug_in: {step: Plug in., leaves: {cord: pedestal-30}, done: go_on, cannot: go_on}
  go_on: {tree: tingle}
"""


def test_nothing_is_measured(library: Library) -> None:
    """The tree asks for no measurement at all, before or after the power is off."""
    assert not [node for node in library.tree("tingle").nodes.values() if isinstance(node, Measure)]


def test_the_first_words_are_hands_off(library: Library) -> None:
    """What stands first is to let go; whatever is answered, hands stay off from then on."""
    walk = begin(library, "tingle", parse_meter("basic"))
    assert walk.now.text.startswith("Take your hands off")
    assert walk.answer(Done()).now.worst == "danger"
    assert walk.answer(Cannot()).now.worst == "danger"


@pytest.mark.parametrize(
    ("given", "at", "verdict", "call"),
    [
        (HELD | {"hands_off": Cannot()}, "somebody_hurt", "emergency", "park"),
        (HELD, "somebody_hurt", "emergency", "park"),
        (HELD | {"how.breath": Choose("not-normal")}, "how.not_breathing", "emergency", "park"),
        (HELD | {"in_contact.pull": Cannot()}, "in_contact.not_free", "emergency", "park"),
        (
            HELD | {"in_contact.power.wet": Choose("standing-water")},
            "in_contact.power_stays",
            "emergency",
            "park",
        ),
        (HELD | {"in_contact.source": Choose("water-tap")}, "in_contact.loop_contact", "emergency", "park"),
        (
            HELD | {"person": Unsure(), "in_contact.source": Unsure()},
            "in_contact.loop_contact",
            "emergency",
            "park",
        ),
        ({"person": Choose("hurt")}, "somebody_hurt", "emergency", "park"),
        ({"person": Choose("hurt"), "how.breath": Unsure()}, "how.not_breathing", "emergency", "park"),
        ({"where": Choose("pedestal")}, "loop_live", "hands-off", "park"),
        ({"where": Choose("water-tap")}, "loop_live", "hands-off", "park"),
        ({"where": Choose("other-rig")}, "loop_live", "hands-off", "park"),
        ({"where": Unsure()}, "loop_live", "hands-off", "park"),
        ({"weather": Choose("rain")}, "power_stays", "hands-off", "park"),
        ({"weather": Choose("thunder")}, "power_stays", "hands-off", "park"),
        ({"wet": Choose("standing-water")}, "power_stays", "hands-off", "park"),
        ({"wet": Choose("water-inside")}, "power_stays", "hands-off", "park"),
        ({"wet": Choose("damp-ground"), "board": Cannot()}, "power_stays", "hands-off", "park"),
        ({"wet": Choose("damp-ground")}, "ground_unknown", "hands-off", "park"),
        ({"case": Choose("metal"), "detector": Choose("no-detector")}, "power_stays", "hands-off", "park"),
        ({"case": Choose("metal"), "detector": Choose("warns")}, "power_stays", "hands-off", "park"),
        ({"case": Choose("metal")}, "ground_unknown", "hands-off", "park"),
        ({"breaker_off": Cannot()}, "power_stays", "hands-off", "park"),
        ({}, "ground_unknown", "hands-off", "park"),
        ({"where": Choose("appliance")}, "ground_unknown", "hands-off", "park"),
    ],
)
def test_who_is_called(go: Go, given: dict[str, Answer], at: str, verdict: str, call: str) -> None:
    """The park, while the outlet's ground is wrong or unknown; hurt or in contact, emergency."""
    end = ending(go("tingle", {"where": Choose("rig")} | given))
    assert (end.at, end.verdict, end.call) == (at, verdict, call)
    assert (end.first == "emergency-services") == (verdict == "emergency")
    assert not end.lowered


def test_the_pedestal_is_touched_only_dry_and_shown(go: Go) -> None:
    """The breaker comes only after weather, water and the pedestal's case; the rig is never touched."""
    walk = go("tingle", {"where": Choose("rig")})
    order = [answered.at for answered in walk.answers]
    assert order.index("breaker_off") > max(order.index(at) for at in ("weather", "wet", "case", "ready"))
    assert not {"cord", "rig-main", "rig-branches"} & set(walk.now.state)


@pytest.mark.parametrize(
    ("hot_earth", "at", "call"), [("121.2", "ground_right", "electrician"), (None, "ground_unknown", "park")]
)
def test_the_electrician_comes_first_only_after_proof(
    tmp_path: Path, library: Library, hot_earth: str | None, at: str, call: str
) -> None:
    """Only where the same walk read the outlet whole, and against the earth, may the rig be to blame."""
    folder = tmp_path / "trees"
    shutil.copytree(library.folder, folder)
    (folder / "proved.yaml").write_text(PROVED, encoding="utf-8")
    walk = begin(Library(folder), "proved", parse_meter("basic,tenths"))
    readings = {"hot_neutral": "121.4", "hot_ground": "121.3", "neutral_ground": "0.2", "ground_earth": "0.3"}
    for text in readings.values():
        walk = walk.answer(Read(text))
    walk = walk.answer(Read(hot_earth) if hot_earth else Unable()).answer(Done())
    assert walk.now.tree == "tingle"
    for name in ("done", "unhurt", "rig", "done", "clear", "dry", "plastic", "done", "done", "done"):
        walk = walk.answer(Done() if name == "done" else Choose(name))
    end = ending(walk)
    assert (end.at, end.call) == (at, call)
