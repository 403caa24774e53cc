"""Looks, derived from readings; kinds of readings and their least grades."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from shorewalk.tree.facts import LOOKS, Site
from shorewalk.tree.model import Load
from shorewalk.walk.answers import Choose, Done, Read, Unable
from shorewalk.walk.evidence import quantity_of
from shorewalk.walk.meter import Meter
from shorewalk.walk.walk import Walk, begin

if TYPE_CHECKING:
    from tests.walk.conftest import Make, Shelf

PLUGGED = {"cord": "pedestal-30", "pedestal-breaker": "on", "protector": "fitted", "rig-main": "on"}


@pytest.mark.parametrize(
    ("probes", "breaker", "quantity"),
    [
        ("pedestal-30 L N", "on", "hot-neutral"),
        ("pedestal-30 N L", "on", "hot-neutral"),
        ("pedestal-30 L N", "off", "dead-hot-neutral"),
        ("pedestal-30 L N", None, "hot-neutral"),
        ("pedestal-30 L N one-leg", "on", "hot-neutral-loaded"),
        ("pedestal-30 N G", "on", "neutral-ground"),
        ("pedestal-30 N G one-leg", "on", None),
        ("rig-outlet-a L N", "on", None),
        ("pedestal-30 L nowhere", "on", None),
        ("nowhere L N", "on", None),
    ],
)
def test_quantity_by_roles_place_load_and_breaker(
    site: Site, make: Make, *, probes: str, breaker: str | None, quantity: str | None
) -> None:
    """The first quantity wins that fits roles in either order, kind of place, load and breaker."""
    needs = () if breaker is None else (("pedestal-breaker", breaker),)
    found = quantity_of(make.measure("a", probes, "b", needs=needs), site)
    assert (found.id if found else None) == quantity


def test_quantity_wants_the_same_kind_of_measuring(site: Site, make: Make) -> None:
    """Ohms between hot and neutral are not volts."""
    assert quantity_of(make.measure("a", "pedestal-30 L N", "b", what="ohms"), site) is None


def slots(shelf: Shelf, make: Make, meter: Meter, starts: dict[str, str]) -> Walk:
    """All three slot pairs with nothing in, then a question, then things that happen."""
    shelf.add(
        "t",
        make.measure("ng", "pedestal-30 N G", "lg", "lg"),
        make.measure("lg", "pedestal-30 L G", "ln", "ln"),
        make.measure("ln", "pedestal-30 L N", "handle", "handle"),
        make.ask("handle", "breaker-position", {"on": "sky", "off": "sky", "tripped": "sky"}),
        make.ask("sky", "weather", {"clear": "in", "rain": "in", "thunder": "in"}),
        make.step("in", "e", "e", cord="pedestal-20"),
        make.end("e"),
        starts=starts,
    )
    return begin(shelf, "t", meter)


def read_all(walk: Walk) -> Walk:
    return walk.answer(Read("0.4")).answer(Read("121.0")).answer(Read("121.3"))


def test_full_look_needs_every_pair(shelf: Shelf, make: Make, basic: Meter) -> None:
    """The full look is held once every pair of slots was read with the breaker on."""
    walk = slots(shelf, make, basic, {"cord": "unplugged", "pedestal-breaker": "on"})
    assert walk.now.looks == dict.fromkeys(LOOKS, False)
    assert read_all(walk).now.looks["full-look"]
    assert read_all(walk).now.outlet == "pedestal-30"
    skipped = walk.answer(Unable()).answer(Read("121.0")).answer(Read("121.3"))
    assert not skipped.now.looks["full-look"]


@pytest.mark.parametrize("starts", [{"pedestal-breaker": "off"}, {}])
def test_readings_of_a_dead_outlet_are_no_look(
    shelf: Shelf, make: Make, basic: Meter, starts: dict[str, str]
) -> None:
    """With the breaker off, or not known to be on, the same pairs prove nothing about the live outlet."""
    looks = read_all(slots(shelf, make, basic, starts)).now.looks
    assert not looks["full-look"]
    assert looks["dead-look"] is (starts == {"pedestal-breaker": "off"})


def test_trip_and_storm_void_what_was_read(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A breaker found tripped, or thunder, voids the looks at the pedestal; clear sky does not."""
    walk = read_all(slots(shelf, make, basic, {"cord": "unplugged", "pedestal-breaker": "on"}))
    assert not walk.answer(Choose("tripped")).now.looks["full-look"]
    assert walk.answer(Choose("on")).answer(Choose("clear")).now.looks["full-look"]
    assert not walk.answer(Choose("on")).answer(Choose("thunder")).now.looks["full-look"]


def test_another_breaker_found_tripped_voids_nothing_here(shelf: Shelf, make: Make, basic: Meter) -> None:
    """The 20 A breaker found tripped after its own readings leaves those of the 30 A outlet in force."""
    shelf.add(
        "t",
        make.measure("ng", "pedestal-30 N G", "lg"),
        make.measure("lg", "pedestal-30 L G", "ln"),
        make.measure("ln", "pedestal-30 L N", "other"),
        make.measure("other", "pedestal-20 L N", "handle"),
        make.ask("handle", "breaker-position", {"on": "in", "tripped": "in"}),
        make.step("in", "e", "e", cord="pedestal-30"),
        make.end("e"),
        starts={"cord": "unplugged", "pedestal-breaker": "on"},
    )
    walk = read_all(begin(shelf, "t", basic)).answer(Read("0.0")).answer(Choose("tripped")).answer(Done())
    assert walk.now.outlet == "pedestal-30"
    assert walk.now.looks["full-look"]


def test_another_outlet_voids_what_was_read(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Once the cord went into another outlet, that one is in use, and its looks are not held."""
    walk = read_all(slots(shelf, make, basic, {"cord": "unplugged", "pedestal-breaker": "on"}))
    walk = walk.answer(Choose("on")).answer(Choose("clear")).answer(Done())
    assert walk.now.outlet == "pedestal-20"
    assert not walk.now.looks["full-look"]


def test_low_impedance_is_no_look(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Low-impedance mode can condemn, never clear: its readings are no evidence."""
    walk = slots(shelf, make, basic, {"cord": "unplugged", "pedestal-breaker": "on"})
    tree = shelf.trees["t"]
    nodes = dict(tree.nodes)
    nodes["ln"] = replace(nodes["ln"], meter="low-impedance")  # type: ignore[call-arg]
    shelf.trees["t"] = replace(tree, nodes=nodes)
    walk = read_all(begin(shelf, "t", basic))
    assert not walk.now.looks["full-look"]


def plugged(shelf: Shelf, make: Make, meter: Meter, starts: dict[str, str]) -> Walk:
    """Look B and the skin, then what voids them."""
    load = Load("one-leg", "rig-outlet-a")
    shelf.add(
        "t",
        make.measure("skin", "rig-skin skin earth", "detector", "detector"),
        make.ask("detector", "near-voltage", {"silent": "ln", "warns": "ln", "no-detector": "ln"}),
        replace(make.measure("ln", "rig-outlet-a L N", "ng", "ng"), load=load),
        replace(make.measure("ng", "rig-outlet-a N G", "protector", "protector"), load=load),
        make.step("protector", "cord", "cord", protector="absent"),
        make.step("cord", "e", "e", cord="unplugged"),
        make.end("e"),
        starts=starts,
    )
    return begin(shelf, "t", meter)


def test_look_b_and_skin_are_held_until_something_moves(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Read through our own plug, energised; void once the protector changes or the plug moves."""
    walk = plugged(shelf, make, basic, PLUGGED).answer(Read("0.3")).answer(Choose("no-detector"))
    assert walk.now.looks["skin"]
    walk = walk.answer(Read("119.0")).answer(Read("0.6"))
    assert walk.now.looks["look-b"]
    changed = walk.answer(Done())
    assert (changed.now.looks["look-b"], changed.now.looks["skin"]) == (False, False)


def test_a_silent_detector_stands_in_for_the_skin(shelf: Shelf, make: Make, basic: Meter) -> None:
    """A detector, silent while the rig is energised, is a look at the skin; a warning one is not."""
    walk = plugged(shelf, make, basic, PLUGGED).answer(Unable())
    assert walk.answer(Choose("silent")).now.looks["skin"]
    assert not walk.answer(Choose("warns")).now.looks["skin"]
    dead = plugged(shelf, make, basic, PLUGGED | {"pedestal-breaker": "off"}).answer(Unable())
    assert not dead.answer(Choose("silent")).now.looks["skin"]


@pytest.mark.parametrize("missing", ["cord", "pedestal-breaker"])
def test_looks_through_the_plug_need_the_power_on(
    shelf: Shelf, make: Make, basic: Meter, missing: str
) -> None:
    """Where the cord or the breaker is not known, nothing read in the rig is evidence."""
    starts = {name: value for name, value in PLUGGED.items() if name != missing}
    walk = plugged(shelf, make, basic, starts).answer(Read("0.3")).answer(Choose("silent"))
    walk = walk.answer(Read("119.0")).answer(Read("0.6"))
    assert not any(walk.now.looks.values())
