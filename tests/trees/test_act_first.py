"""Where somebody may be hurt or something may burn, the power goes off before anybody is asked to measure."""

from __future__ import annotations

import pytest

from shorewalk.tree.library import Library
from shorewalk.tree.model import Jump, Measure, Node, Step, Tree, ways_out

ACT_FIRST = ("tingle", "somebody-hurt", "something-broke", "some-bright")


def off(node: Node) -> bool:
    """Whether a step switches the power off at the pedestal."""
    return isinstance(node, Step) and ("pedestal-breaker", "off") in (*node.leaves, *node.done.leaves)


def measured_under_power(tree: Tree) -> set[str]:
    """The measurements that a walk may come to with no step behind it that switched the power off."""
    seen, ahead = set[str](), [tree.begin]
    while ahead:
        name = ahead.pop()
        if name in seen:
            continue
        seen.add(name)
        node = tree.nodes[name]
        for label, way in ways_out(node):
            if not (off(node) and label == "done"):
                ahead.append(way.goto)
    return {name for name in seen if isinstance(tree.nodes[name], Measure)}


@pytest.mark.parametrize("name", ACT_FIRST)
def test_nothing_is_measured_before_the_power_is_off(library: Library, name: str) -> None:
    """No walk asks for a reading, here, before a step that switches the pedestal breaker off was done."""
    assert measured_under_power(library.tree(name)) == set()


@pytest.mark.parametrize("name", ACT_FIRST)
def test_the_first_thing_is_to_act(library: Library, name: str) -> None:
    """The first node is a step, not a question."""
    tree = library.tree(name)
    assert isinstance(tree.nodes[tree.begin], Step)


@pytest.mark.parametrize("name", ACT_FIRST)
def test_no_hand_goes_on_in_a_tree_that_measures_under_power(library: Library, name: str) -> None:
    """Where it goes on in another tree, that one acts first too, or begins with the cord out."""
    for node in library.tree(name).nodes.values():
        if isinstance(node, Jump) and node.tree not in ACT_FIRST:
            assert dict(library.tree(node.tree).starts).get("cord") == "unplugged"


def test_the_check_sees_a_reading_taken_too_early(library: Library) -> None:
    """Dim lights are measured at rig outlets, in use: a tree that is not of the four is told apart."""
    assert measured_under_power(library.tree("lights-dim"))
