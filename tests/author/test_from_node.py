"""Walks from a node in the middle of a tree: how things are taken to stand there."""

from __future__ import annotations

import pytest

from shorewalk.author.from_node import From
from shorewalk.tree.library import shipped
from shorewalk.tree.model import End, Judge, Jump, Work
from shorewalk.walk import state as states
from shorewalk.walk.answers import Done
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import begin, resume

METER = parse_meter("basic")


@pytest.mark.parametrize("name", shipped().names())
def test_a_walk_may_begin_at_every_node(name: str) -> None:
    """Whatever asks, asks when a walk begins there: what it needs is taken to hold."""
    tree = shipped().tree(name)
    for node in tree.nodes.values():
        walk = begin(From(shipped(), name, node.name), name, METER)
        if not isinstance(node, End | Judge | Jump | Work):
            assert walk.now.node.name == node.name
        facts = shipped().site.states
        assert all(states.must(walk.ledger.standing, *pair, facts) for pair in node.needs)


def test_things_stand_as_the_way_there_leaves_them() -> None:
    """At the meter's first live reading the rig is off and the cord is out, though the node needs less."""
    held = dict(From(shipped(), "arrival", "sockets_30.feel").starts)
    assert {"cord": "unplugged", "rig-main": "off", "pedestal-breaker": "on"}.items() <= held.items()


def test_a_walk_from_a_node_goes_back_and_is_taken_up_again() -> None:
    """It is a walk as any other: undo ends at its first node, and its answers lead where they led."""
    library = From(shipped(), "arrival", "nothing_in")
    first = begin(library, "arrival", METER)
    second = first.answer(Done())
    assert second.back().now.node.name == "nothing_in"
    again, lost = resume(library, "arrival", METER, second.answers)
    assert (again.now.node.name, lost) == (second.now.node.name, 0)
    assert second.now.node.name != "nothing_in"
