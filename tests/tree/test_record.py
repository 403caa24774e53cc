"""Frozen dataclasses that are quick to define: in use they are as others."""

from __future__ import annotations

import copy
import pickle
from dataclasses import FrozenInstanceError, field, fields, replace

import pytest

from shorewalk.tree.record import record


@record(kw_only=True)
class Base:
    name: str
    tags: list[str] = field(default_factory=list)


@record(kw_only=True)
class Leaf(Base):
    own: int = 3
    hidden: int = field(default=0, repr=False, compare=False)


@record()
class Pair:
    """Two things."""

    one: int
    two: str = "b"


@record()
class Nothing:
    pass


def test_fields_are_given_by_place_or_name_and_have_defaults() -> None:
    """Positions, names, defaults and factories work as in any dataclass; each gets a list of its own."""
    assert (Pair(1).two, Pair(1, "c").two, Pair(two="d", one=1).two) == ("b", "c", "d")
    leaf = Leaf(name="x")
    assert (leaf.name, leaf.tags, leaf.own) == ("x", [], 3)
    assert leaf.tags is not Leaf(name="x").tags
    assert [each.name for each in fields(leaf)] == ["name", "tags", "own", "hidden"]


def test_what_does_not_fit_is_refused() -> None:
    """Missing, unknown and misplaced arguments raise TypeError, the first time and later."""
    for _ in range(2):
        with pytest.raises(TypeError):
            Pair()  # type: ignore[call-arg]
        with pytest.raises(TypeError):
            Pair(1, three=3)  # type: ignore[call-arg]
        with pytest.raises(TypeError):
            Leaf("x")  # type: ignore[call-arg]
        with pytest.raises(TypeError):
            Nothing(1)  # type: ignore[call-arg]


def test_nothing_can_be_changed() -> None:
    """Setting, adding and deleting raise and change nothing."""
    pair = Pair(1)
    with pytest.raises(FrozenInstanceError):
        pair.one = 2  # type: ignore[misc]
    with pytest.raises(FrozenInstanceError):
        pair.three = 3  # type: ignore[attr-defined]
    with pytest.raises(FrozenInstanceError):
        del pair.one
    assert pair == Pair(1)


def test_equal_fields_make_equals_of_one_class_only() -> None:
    """Fields left out of comparing do not count; another class is never equal."""
    assert Leaf(name="x", hidden=1) == Leaf(name="x", hidden=2)
    assert Leaf(name="x") != Base(name="x")
    assert Pair(1) != Pair(2)
    assert hash(Pair(1)) == hash(Pair(1))
    assert Nothing() == Nothing()


def test_copies_and_matching_work() -> None:
    """`replace`, `copy`, `pickle`, `repr` and positional patterns are those of a dataclass."""
    assert replace(Pair(1), two="z") == Pair(1, "z")
    assert copy.copy(Pair(1)) == copy.deepcopy(Pair(1)) == pickle.loads(pickle.dumps(Pair(1))) == Pair(1)  # noqa: S301
    assert repr(Leaf(name="x", hidden=4)) == "Leaf(name='x', tags=[], own=3)"
    match Pair(1, "c"):
        case Pair(one, two):
            assert (one, two) == (1, "c")
