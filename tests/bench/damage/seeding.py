"""All kinds of damage, seeded at every place they fit in the shipped trees and parts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from shorewalk.tree.library import Library

from . import endings, grades, limits, readings, steps, ways
from .edits import Damage, Kind
from .file import File

KINDS: dict[str, Kind] = {
    kind.__name__.replace("_", "-"): kind
    for module in (ways, grades, steps, readings, limits, endings)
    for kind in module.KINDS
}
"""Kinds of damage by name; each yields every place in a file where it fits."""


def seed(library: Library, kinds: Iterable[str] = KINDS) -> Iterator[Damage]:
    """Yield every damage of some kinds; two that come to the same text are seeded once."""
    parts: dict[str, Any] = {
        name: library.source(library.part(name).file).data for name in library.part_names()
    }
    trees = tuple(library.names())
    files = {f"{name}.yaml": library.source(library.written(name).file).data for name in trees}
    files |= {f"parts/{name}.yaml": data for name, data in parts.items()}
    for name in kinds:
        seen = set()
        for file, data in files.items():
            for where, edits in KINDS[name](File(file, data, library.site, parts, trees)):
                damage = Damage(name, file, where, edits)
                if repr((file, edits)) not in seen and damage.changes(data):
                    seen.add(repr((file, edits)))
                    yield damage
