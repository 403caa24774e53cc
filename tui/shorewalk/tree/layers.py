"""Facts in layers: those that all trees share, and over them those that a folder of trees brings along.

By id: a new id is added; where both layers have an id, the later layer's fact stands in its place. Nothing can be
dropped. Whether what was put in place is milder than what stood there, the linter tells (`own-facts`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TypeVar

from .model import Route
from .source import Source

Fact = TypeVar("Fact")


def layered(layers: Iterable[Mapping[str, Fact]], *, firm: bool = False) -> dict[str, Fact]:
    """Return facts by id, laid over each other in order; with `firm`, an id keeps what its first layer says."""
    found: dict[str, Fact] = {}
    for layer in layers:
        found |= {name: fact for name, fact in layer.items() if not (firm and name in found)}
    return found


def layer_of(sources: Sequence[Source], name: str, route: Route) -> Source | None:
    """Return the layer that a fact of the file `name` comes from: the last that has its id, else the last."""
    depth = 2 if name == "grades" else 1  # there the ids stand in two groups
    for source in reversed(sources):
        data: object = source.data
        for step in route[:depth]:
            data = data.get(str(step)) if isinstance(data, dict) else None
        if data is not None:
            return source
    return sources[-1] if sources else None
