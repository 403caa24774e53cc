"""A small sample of the damage that `tests/bench/mutants.py` seeds everywhere: the linter finds it."""

from __future__ import annotations

import random
from copy import deepcopy
from functools import cache

import pytest

from shorewalk import folders
from shorewalk.lint.proof import proof
from shorewalk.lint.view import View

from ..bench.damage.cone import cone
from ..bench.damage.damaged import DamagedLibrary, Sound
from ..bench.damage.looking import Looker
from ..bench.damage.seeding import KINDS, seed

SEEN_ALONE = (
    "exit-removed",
    "way-removed",
    "spent-dropped",
    "call-dropped",
    "safe-action-dropped",
    "first-dropped",
    "choice-dropped",
    "placeholder-mistyped",
)
"""Damage that a look at the file alone finds, wherever it is."""

DANGEROUS = (
    "unsure-to-best",
    "cannot-to-done",
    "question-skipped",
    "leaving-step-skipped",
    "call-swapped",
    "first-dropped",
)
LEFT = {
    "cannot-to-done tingle.yaml hands_off: cannot to person",  # where it can be said who still touches it
    "cannot-to-done tingle.yaml board: cannot to case",  # rules know no dry board
    "cannot-to-done tingle.yaml ready: cannot to breaker_off",  # nor dry hands
    "question-skipped tingle.yaml person: on to where",  # nor that somebody should have been asked about
    "call-swapped tingle.yaml ground_right",  # the park may always be called
}
"""Damage to the tree about shocks that is left, and why."""


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


@pytest.mark.parametrize("kind", DANGEROUS)
def test_damage_to_the_tree_about_shocks_is_found(kind: str) -> None:
    """Such a kind is found at every place in it, but for those that are known and explained."""
    damages = [damage for damage in seed(looker().sound.library, [kind]) if damage.file == "tingle.yaml"]
    assert damages
    left = {damage.id for damage in damages if not looker().look(damage).found}
    assert left == {name for name in LEFT if name.startswith(f"{kind} ")}


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
