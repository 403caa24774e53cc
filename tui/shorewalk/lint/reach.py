"""Everything that can be come to from somewhere, by whatever ways."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from typing import TypeVar

Spot = TypeVar("Spot", bound=Hashable)


def reach(where: Iterable[Spot], ways: Callable[[Spot], Iterable[Spot]]) -> set[Spot]:
    """Return these and all that `ways` lead to from them."""
    found = set(where)
    waiting = list(found)
    while waiting:
        for there in ways(waiting.pop()):
            if there not in found:
                found.add(there)
                waiting.append(there)
    return found
