"""Going through every walk: no walk that can be walked is left out."""

from __future__ import annotations

from random import Random

import pytest

from shorewalk import folders
from shorewalk.lint.view import View
from shorewalk.lint.walks.explore import Explorer
from shorewalk.tree.library import Library
from shorewalk.tree.model import Ask, Measure, Step, Tally
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Read, Running, Unable, Unsure
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import Walk, begin

READINGS = ("0.0", "3.1", "25.0", "68.0", "103.0", "108.0", "121.6", "128.9", "211.0", "243.0")
SOUND = {
    frozenset(("hot", "hot")): "243.2",
    frozenset(("hot", "neutral")): "121.8",
    frozenset(("hot", "ground")): "121.9",
}
SOUND |= {frozenset(("hot", "earth")): "121.7", frozenset(("plus", "minus")): "12.6"}
METERS = ("basic,tenths", "good,tenths", "good,tenths", "good,whole", "basic")
KEPT = ("cord", "pedestal-breaker", "rig-main", "shown-dead", "test-load")


def sound(walk: Walk) -> str:
    """What a sound pedestal would read here, as far as its wiring goes."""
    quantity = walk.now.quantity
    if quantity is None or quantity.id.startswith("dead"):
        return "0.0"
    return SOUND.get(frozenset(quantity.between), "0.3")


def some_answer(walk: Walk, random: Random) -> Answer:
    """Any answer, most often one that leads far."""
    node = walk.now.node
    no, odd = random.random() < 0.015, random.random() < 0.04
    match node:
        case Ask():
            fine = [choice for choice in node.choices if choice.way.grade not in ("stop", "danger")]
            return Unsure() if no else Choose(random.choice(node.choices if odd or not fine else fine).id)
        case Step():
            return Cannot() if no else Done()
        case Measure():
            return Unable() if no else Read(random.choice(READINGS) if odd else sound(walk), confirmed=True)
        case Tally():
            return Unsure() if no else Running(((node.loads[0], 1),))
    raise AssertionError(node)


@pytest.fixture(scope="module")
def explored() -> tuple[View, Explorer, set[tuple[str, str, int]]]:
    """Every state that walks in the shipped trees come to, cut down to the states kept."""
    view = View(Library(folders.trees()))
    assert view.site
    explorer = Explorer(view, view.site, KEPT)
    return view, explorer, {(v.at.tree, v.at.node, v.at.standing) for v in explorer.walk(*view.trees)}


@pytest.mark.parametrize("seed", range(12))
def test_wherever_a_walk_comes_the_explorer_was(
    seed: int, explored: tuple[View, Explorer, set[tuple[str, str, int]]]
) -> None:
    """Random answers to every tree: each question comes with a state of things that was gone through."""
    view, explorer, visited = explored
    random = Random(seed)  # noqa: S311 (for a test)
    for tree in view.trees:
        walk = begin(view.library, tree.name, parse_meter(random.choice(METERS)))
        for _ in range(400):
            ledger = walk.ledger
            assert (*ledger.key(), explorer.standings.number(dict(ledger.standing))) in visited
            if walk.ended:
                break
            try:
                walk = walk.answer(some_answer(walk, random))
            except Refused:
                continue


def test_a_path_is_told_from_the_beginning_of_a_tree(
    explored: tuple[View, Explorer, set[tuple[str, str, int]]],
) -> None:
    """Each step's way leads to the next, as the trees say."""
    view, explorer, _ = explored
    last = next(v for v in explorer.walk(*view.trees) if v.at.node == "sockets_30.hot_neutral")
    words = explorer.words(last.at)
    assert words[0].endswith(" begins")
    assert words[-1] == "sockets_30.hot_neutral"
    assert len(words) == len(explorer.path(last.at)) + 2
