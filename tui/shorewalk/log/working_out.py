"""Working out the readings of many walks, one at a time: whoever shows them can do other things in between."""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterable, Sequence
from time import monotonic

from shorewalk.counted import counted

from .kept import Kept

A_WHILE = 2.0
"""Seconds after which it is told that walks are still being read, and how many; and then again."""


def working_out(walks: Sequence[Kept]) -> Generator[int]:
    """Have the readings of these walks at hand, one walk after the other; yield after each how many are left.

    What had to be worked out is kept at the end, also where somebody stops before.
    """
    try:
        for left, walk in zip(range(len(walks) - 1, -1, -1), walks, strict=True):
            _ = walk.readings
            yield left
    finally:
        for shelf in dict.fromkeys(walk.shelf for walk in walks):
            shelf.put_away()


def work_out(walks: Iterable[Kept], tell: Callable[[str], object] | None = None) -> None:
    """Have the readings of all these walks at hand; `tell` is told how many are left, where it takes long."""
    told = monotonic()
    for left in working_out([*walks]):
        if tell and left and monotonic() - told >= A_WHILE:
            tell(left_words(left))
            told = monotonic()


def left_words(left: int) -> str:
    """Return what to say while walks are being read."""
    return f"Past walks are read: {counted(left, 'walk')} left."
