"""Files that were damaged or forged, taken over all the way: refused or whole, never half of it, never a crash.

`python -m bench.handing` (in `tests/`) does the same to thousands of files.
"""

from __future__ import annotations

from collections import Counter
from random import Random

import pytest

from shorewalk.handing import Handed, text_of

from ..bench.handed.damage import damaged, forged, told, told_beside
from ..bench.handed.walks import handed_of, walked

FEW = 200


@pytest.fixture(scope="module")
def sound() -> Handed:
    """A walk with looks, steps and readings."""
    return handed_of(walked(upto=34))


def test_what_was_damaged_is_refused_or_equal(sound: Handed) -> None:
    """A few bytes other, gone, doubled or added: the file is refused, or says the very same."""
    data = text_of(sound).encode()
    found = Counter(told(damaged(data, Random(seed)), sound, sealed=False) for seed in range(FEW))  # noqa: S311
    assert found["refused"] > 0.8 * FEW
    assert not found["other"]


def test_what_was_forged_is_refused_or_a_walk_of_its_own(sound: Handed) -> None:
    """With the sum made right, what passes is a walk that anybody could have walked, and all of it is kept."""
    data = text_of(sound).encode()
    found = Counter(told(forged(data, Random(seed)), sound, sealed=True) for seed in range(FEW))  # noqa: S311
    assert found["refused"] > 0.2 * FEW
    assert found["other"] > 0.1 * FEW


def test_what_was_forged_takes_no_answer_away(sound: Handed) -> None:
    """Where some of the walk is here already, none of its answers is lost, whatever the file says."""
    data = text_of(sound).encode()
    found = Counter(
        told_beside(forged(data, Random(seed)), Random(seed))  # noqa: S311
        for seed in range(FEW)
    )
    assert found["goes on"]
    assert found["apart"]
