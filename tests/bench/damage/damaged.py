"""A library in which one file is damaged; whatever does not use that file is read once and shared."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cached_property
from pathlib import Path

from shorewalk.lint.view import uses_in
from shorewalk.tree.library import Library
from shorewalk.tree.model import Jump, Tree, Written
from shorewalk.tree.source import Source

from .edits import Damage


class Sound:
    """The library as shipped, read whole, and who uses what."""

    def __init__(self, folder: Path) -> None:
        self.library = Library(folder)
        self.written = {name: self.library.written(name) for name in self.library.names()}
        self.trees = {name: self.library.tree(name) for name in self.library.names()}
        for source in self.files.values():
            self.library.source(source)

    @cached_property
    def files(self) -> Mapping[str, str]:
        """Every file by its name in the folder, with its path as nodes name it."""
        found = {f"{name}.yaml": written.file for name, written in self.written.items()}
        return found | {f"parts/{part.name}.yaml": part.file for part in self.library.parts()}

    @cached_property
    def uses(self) -> Mapping[str, frozenset[str]]:
        """The parts that each tree puts in, at whatever depth."""
        return {name: frozenset(self._inner(written)) for name, written in self.written.items()}

    def _inner(self, written: Written) -> set[str]:
        found = {use.part for use in uses_in(written)}
        return found.union(*(self._inner(self.library.part(part)) for part in found))

    def trees_with(self, file: str) -> list[str]:
        """Return the trees that hold a file, the one with the fewest nodes first."""
        stem = Path(file).stem
        held = [name for name in self.trees if (stem in self.uses[name] if "/" in file else stem == name)]
        return sorted(held, key=lambda name: len(self.trees[name].nodes))

    def jumps(self, tree: str) -> frozenset[str]:
        """Return the trees that a tree leads to."""
        return frozenset(node.tree for node in self.trees[tree].nodes.values() if isinstance(node, Jump))


class DamagedLibrary(Library):
    """The library with one damage done. `sliced` trees stand in for whole ones where they were made."""

    def __init__(self, sound: Sound, damage: Damage) -> None:
        super().__init__(sound.library.folder)
        path = sound.files[damage.file]
        source = sound.library.source(path)
        held = set(sound.trees_with(damage.file))
        self.site = sound.library.site
        self._sources = {**sound.library._sources, path: _damaged(source, damage)}
        self._written = {key: written for key, written in sound.library._written.items() if str(key) != path}
        self._trees = {name: tree for name, tree in sound.trees.items() if name not in held}

    def put(self, tree: Tree) -> None:
        """Let a tree stand in for the one of its name."""
        self._trees[tree.name] = tree


def _damaged(source: Source, damage: Damage) -> Source:
    return replace(source, data=damage.applied(source.data))
