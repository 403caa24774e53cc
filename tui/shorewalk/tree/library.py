"""A folder of trees with its parts and facts: what is there, and each tree read once, when first wanted."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache, cached_property
from pathlib import Path
from typing import Any, NamedTuple

from shorewalk import folders

from .build import build_written
from .expand import expand
from .facts import Site
from .layers import layer_of
from .model import Route, Tree, Written
from .site import read_site
from .source import Data, Place, Problem, Source, TreeError, read_bytes, read_source, stands
from .take import Mistake, maybe, take_word, take_words
from .words import choose_from, quoted

NODES = re.compile(r"(?m)^nodes[ \t]*:")


class Header(NamedTuple):
    """What the start screen shows of a tree, and searches; `tells`: what the tree tells apart."""

    name: str
    symptom: str
    also: tuple[str, ...] = ()
    about: str | None = None
    tells: tuple[str, ...] = ()


class Library:
    """The trees in `folder`, the parts in `parts/` and the facts in `site/` below it.

    A folder's own parts go before the shipped ones of that name; its own facts are laid over the shipped ones
    (see `layers`); what it does not have is the shipped. With `checked`, every file is read by
    the checker, which tells all that is wrong at once; without, by the quick reader, fit for shipped files.
    Whatever cannot be read raises `TreeError`; a tree that is not there, `KeyError`.
    """

    def __init__(self, folder: Path, *, checked: bool = True) -> None:
        self.folder, self.checked = folder, checked
        self._sources: dict[str, Source] = {}
        self._written: dict[Path, Written] = {}
        self._trees: dict[str, Tree] = {}
        self._headers: dict[str, Header] = {}

    @cached_property
    def site(self) -> Site:
        """The facts all trees share."""
        if self.checked:
            from .check import check_site

            return check_site(*self.site_folders)
        return read_site(*self.site_folders)

    @cached_property
    def site_folders(self) -> tuple[Path, ...]:
        """The folders of facts: the shipped one, and over it that of these trees where they bring one."""
        shared, own = folders.trees() / "site", self.folder / "site"
        if own == shared or not own.is_dir():
            return (shared,)
        return (own,) if own.samefile(shared) else (shared, own)

    def layers(self, name: str) -> list[Source]:
        """Return a file of facts (`limits`, `signs` ...) as each of `site_folders` has it, in their order."""
        paths = (folder / f"{name}.yaml" for folder in self.site_folders)
        return [self.source(str(path)) for path in paths if stands(path)]

    def fact(self, name: str, route: Route, *, key: bool = False) -> Place:
        """Return where a fact of the file `name`, or something in it, is written."""
        found = layer_of(self.layers(name), name, route)
        return (
            found.place(route, key=key) if found else Place(str(self.site_folders[-1] / f"{name}.yaml"), 1, 1)
        )

    def names(self) -> list[str]:
        """Return the names of the trees, in order."""
        return sorted(path.stem for path in self.folder.glob("*.yaml") if path.name[0] != ".")

    def part_names(self) -> list[str]:
        """Return the names of the parts a tree here may use, in order."""
        return sorted({path.stem for folder in self._part_folders() for path in folder.glob("*.yaml")})

    def header(self, name: str) -> Header:
        """Return what a tree says of itself; reads only the text above its nodes."""
        if name not in self._headers:
            path = self._tree_path(name)
            source = read_source(
                NODES.split(read_bytes(path).decode(errors="replace"), maxsplit=1)[0], str(path)
            )
            data = source.data
            try:
                symptom = take_word(data.get("symptom"), ("symptom",))
                also, about = take_words(data, "also", ()), maybe(take_word, data, "about", ())
                tells = take_words(data, "tells", ())
            except Mistake as mistake:
                raise TreeError([Problem(source.place(mistake.route), mistake.message)]) from None
            self._headers[name] = Header(name, symptom, also, about, tells)
        return self._headers[name]

    def tree(self, name: str) -> Tree:
        """Return a tree with its parts put in."""
        if name not in self._trees:
            written = self.written(name)
            self._trees[name] = expand(
                written, self.part, says=self._says, find=self.find, whole=self.checked
            )
        return self._trees[name]

    def _says(self, place: str) -> str | None:
        known = self.site.places.get(place)
        return known.says if known else None

    def written(self, name: str) -> Written:
        """Return a tree as its author wrote it."""
        return self._read(self._tree_path(name), "tree")

    def part(self, name: str) -> Written:
        """Return a part as its author wrote it."""
        path = self.part_file(name)
        if path is None:
            raise KeyError(name, choose_from(name, self.part_names()))
        return self._read(path, "part")

    def part_file(self, name: str) -> Path | None:
        """Return where a part is written; None where there is none of that name."""
        paths = (folder / f"{name}.yaml" for folder in self._part_folders())
        return next((path for path in paths if stands(path)), None)

    def parts(self) -> Iterator[Written]:
        """Yield every part that a tree here may use."""
        return (self.part(name) for name in self.part_names())

    def owns(self, file: str) -> bool:
        """Tell whether a file is one of this folder's own, and not a shipped part or fact that it uses."""
        return self.folder in (Path(file).parent, Path(file).parent.parent)

    def source(self, file: str) -> Source:
        """Return the text and places of a file of this library, by the `file` of its nodes."""
        if file not in self._sources:
            self._sources[file] = read_source(read_bytes(Path(file)), file)
        return self._sources[file]

    def find(self, file: str, route: Route, word: str | None = None) -> Place:
        """Return the place of a node, or of the first key, value or `{placeholder}` in it that is `word`."""
        source = self.source(file)
        inner = word and _seek(_at(source.data, route), word, route)
        if not inner:
            return source.place(route, key=True)
        found, key = inner
        return source.place(found, key=key)

    def _tree_path(self, name: str) -> Path:
        path = self.folder / f"{name}.yaml"
        if not stands(path):
            raise KeyError(name, f"There is no tree {quoted(name)}.{choose_from(name, self.names())}")
        return path

    def _part_folders(self) -> list[Path]:
        return list(dict.fromkeys((self.folder / "parts", folders.trees() / "parts")))

    def _read(self, path: Path, kind: str) -> Written:
        if path not in self._written:
            # Sources are not kept here: their places would take more memory than everything else of a walk.
            source = self._sources.get(str(path)) or read_source(read_bytes(path), str(path))
            if self.checked:
                from .check import check_written

                written = check_written(source)
            else:
                written = build_written(source)
            if (written.kind, written.name) != (kind, path.stem):
                place = source.place((written.kind,))
                what = (
                    f"This is `{written.kind}: {written.name}`. In this file `{kind}: {path.stem}` is wanted."
                )
                raise TreeError([Problem(place, what)])
            self._written[path] = written
        return self._written[path]


@cache
def shipped() -> Library:
    """Return the trees that come with the program."""
    return Library(folders.trees(), checked=False)


def _at(data: Any, route: Route) -> Data:
    for step in route:
        data = data[step]
    return data  # type: ignore[no-any-return]


def _seek(data: Data, word: str, route: Route) -> tuple[Route, bool] | None:
    """Return the route of the first value or key that is `word` (or holds it), and whether it is a key."""
    if isinstance(data, str):
        return (route, False) if data == word or f"{{{word}}}" in data else None
    for step, value in data.items() if isinstance(data, dict) else enumerate(data):
        if step == word:
            return (*route, step), True
        if found := _seek(value, word, (*route, step)):
            return found
    return None
