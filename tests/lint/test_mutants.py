"""A small sample of the damage that `tests/bench/mutants.py` seeds everywhere: the linter finds it."""

from __future__ import annotations

import random
from collections.abc import Iterable
from copy import deepcopy
from functools import cache

import pytest

from shorewalk import folders
from shorewalk.lint.view import View
from shorewalk.lint.walks.proof import proof

from ..bench.damage.cone import cone
from ..bench.damage.damaged import DamagedLibrary, Sound
from ..bench.damage.edits import Damage
from ..bench.damage.left import BESIDE, COUNTS, ORDER, OTHER, REASON, SELDOM, SEVERE, why_left
from ..bench.damage.looking import Looker
from ..bench.damage.proving import ALONE, Prover
from ..bench.damage.seeding import KINDS, seed

SEEN_ALONE = (
    "exit-removed",
    "way-removed",
    "call-dropped",
    "choice-dropped",
    "placeholder-mistyped",
)
"""Damage that a look at the file alone finds, wherever it is."""

DANGEROUS = ("led-on", "step-skipped", "question-skipped", "steps-swapped", "call-swapped", "verdict-raised")
LEFT = {
    "led-on tingle.yaml board: cannot to case",  # rules know no dry board
    "led-on tingle.yaml ready: cannot to breaker_off",  # nor dry hands
    "step-skipped tingle.yaml hands_off: on to person",  # nor who was told what,
    "step-skipped tingle.yaml board: on to case",
    "step-skipped tingle.yaml inside: on to weather",
    "step-skipped tingle.yaml people_out: on to whose",
    "call-swapped tingle.yaml ground_right",  # the park may always be called
}
"""Damage to the tree about shocks that is left, and why; recorded walks notice most of it."""


@cache
def looker() -> Looker:
    """The shipped trees, read once."""
    return Looker(Sound(folders.trees()))


@pytest.mark.parametrize("kind", SEEN_ALONE)
def test_what_a_file_shows_alone_is_found_wherever_it_is(kind: str) -> None:
    """Of such a kind of damage, places drawn from all trees and parts are all found."""
    drawn = random.Random(kind)  # noqa: S311 - a sample
    damages = list(seed(looker().sound.library, [kind]))
    for damage in drawn.sample(damages, min(4, len(damages))):
        assert looker().look(damage).found, damage.id


def damages_to(file: str, kinds: Iterable[str] = KINDS) -> list[Damage]:
    """Every damage of some kinds to one file."""
    return [damage for damage in seed(looker().sound.library, kinds) if damage.file == file]


def left_by(damages: list[Damage], tree: str) -> set[str]:
    """What neither the quick rules find nor going through the walks of a tree, by name."""
    left = [damage for damage in damages if not looker().look(damage).found]
    prover = Prover(looker().sound)
    told = [each for task in prover.tasks((damage, tree) for damage in left) for each in prover.prove(task)]
    alone = {damage.id: prover.alone(damage, tree)[0] for damage, rule, _ in told if rule == ALONE}
    return {damage.id for damage, rule, _ in told if not alone.get(damage.id, rule)}


def test_damage_to_the_tree_about_shocks_is_found() -> None:
    """Such kinds are found at every place in it, but for those that are known and explained."""
    damages = damages_to("tingle.yaml", DANGEROUS)
    assert {damage.kind for damage in damages} == set(DANGEROUS)
    assert left_by(damages, "tingle") == LEFT


def test_damage_proved_together_is_found_as_alone() -> None:
    """Many damages in one exploration: each is found, or not, as when its tree is proved alone."""
    damages = damages_to("tingle.yaml", ("goto-next-node", "led-on", "step-skipped", "leaves-flipped"))
    prover = Prover(looker().sound)
    tasks = prover.tasks((damage, "tingle") for damage in damages)
    told = {damage: rule for task in tasks for damage, rule, _ in prover.prove(task) if rule != ALONE}
    alone = {damage.id for damage in told if prover.alone(damage, "tingle")[0]}
    assert {damage.id for damage, rule in told.items() if rule} == alone
    assert 0 < len(alone) < len(told)


def test_a_sound_tree_is_sound_through_every_node() -> None:
    """Cutting a sound tree down to the walks through one node shows nothing that the whole does not."""
    sound = looker().sound
    damage = next(iter(seed(sound.library, ["call-swapped"])))
    library = DamagedLibrary(sound, damage._replace(edits=()))
    for name in sound.trees["tingle"].nodes:
        library.put(cone(sound.trees["tingle"], [name]))
        shown = proof(View(library, ["tingle"]), sound.library.site)
        assert len(shown.explorer.states) > 1
        assert not shown.needs
        assert not any(shown.rules.values())


@pytest.mark.parametrize("kind", KINDS)
def test_damage_fits_somewhere_and_leaves_the_sound_file_as_it_is(kind: str) -> None:
    """Every kind fits at some places, each by a name of its own; doing it changes a copy."""
    sound = looker().sound
    damages = list(seed(sound.library, [kind]))
    assert damages
    assert len({damage.id for damage in damages}) == len(damages)
    data = sound.library.source(sound.files[damages[0].file]).data
    before = deepcopy(data)
    assert damages[0].applied(data) != before
    assert data == before


@pytest.mark.parametrize(
    ("id_", "why"),
    [
        ("not-dropped tingle.yaml loop_live: because: 1", REASON),
        ("not-dropped tingle.yaml hands_off: hint: 1", ORDER),
        ("rows-swapped adapter.yaml by_kind: 6 and 7", BESIDE),
        ("rows-swapped adapter.yaml plan: 2 and 3", SELDOM),
        ("goto-next-node wont-go-dead.yaml how: unsure to left_alone", SEVERE),
        ("goto-next-node adapter.yaml two_forty: done to come_from", OTHER),
        ("sign-changed bad-pedestal.yaml burns: plug-marks", COUNTS),
    ],
)
def test_why_a_damage_is_left_is_read_off_the_tree(id_: str, why: str) -> None:
    """Words, rows beside one another, ends alike, ways elsewhere: each is told apart."""
    damage = next(each for each in seed(looker().sound.library, [id_.partition(" ")[0]]) if each.id == id_)
    assert why_left(looker().sound, damage) == why
