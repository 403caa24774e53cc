"""Writing walks as recorded-walk files, as few as will do, to what no recorded walk covers yet."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from shorewalk.tree.library import Library
from shorewalk.tree.model import ways_out
from shorewalk.walk.meter import Meter

from .claims import Claim
from .paths import MOST, TreePaths
from .proving import Proven, finished, prove
from .recording import named_from, recorded_text
from .searching import Reached, Search
from .stepping import Steps, Taken
from .trail import Mark, Marks, Step

Walked = tuple[str, str, Proven]
"""A name for the file, what the walk is for, and the walk."""


def to_uncovered(
    library: Library, found: Iterable[TreePaths], missing: Iterable[Mark], meter: Meter
) -> Iterator[Walked]:
    """Yield walks that together cover what is missing, as far as walks can be found: endings first, then the rest."""
    marks, left, trees = Marks(library), set(missing), list(found)
    for tree in trees:
        for path in sorted(tree.paths, key=lambda path: len(path.proven.answers) if path.proven else 0):
            proven = path.proven and finished(path.proven, library)
            if proven and marks.end(path.node) in left:
                left -= marks.covered(proven.walk, proven.gone)
                yield f"{tree.tree}-{path.name}", f'The shortest walk to "{path.name}".', proven
    for tree in trees:
        for node, label, proven in _ways(library, tree.tree, marks, left, meter):
            left -= marks.covered(proven.walk, proven.gone)
            yield f"{tree.tree}-{node}-{label}", f'A walk that takes "{label}" at "{node}".', proven


def _ways(
    library: Library, name: str, marks: Marks, left: set[Mark], meter: Meter
) -> Iterator[tuple[str, str, Proven]]:
    tree = library.tree(name)
    steps = Steps(tree, library.site, meter)
    open_ = {
        at: {label for label, _ in ways_out(node) if left.intersection(marks.of(Step(name, at, label)))}
        for at, node in tree.nodes.items()
    }
    search = Search(steps, MOST, [at for at, labels in open_.items() if labels])
    first: list[tuple[list[Reached], str, Claim | None]] = []
    come_to: set[Mark] = set()

    def note(place: int, taken: Taken) -> None:
        state = search.reached[place].state
        node = tree.nodes[state.node]
        for label, claim in taken.ways:
            wanted = left.intersection(marks.of(Step(name, node.name, label))) - come_to
            claims = steps.claimed(node, state, label, claim)
            if not wanted or (claim and steps.solver.solve(claims, steps.solver.solve(state.claims)) is None):
                continue
            come_to.update(wanted)
            first.append((search.path(place), label, claim))
            for at, labels in open_.items():
                if labels and all(
                    left.intersection(marks.of(Step(name, at, one))) <= come_to for one in labels
                ):
                    labels.clear()
                    search.found(at)

    search.on_ways = note
    for _ in search.go():
        pass
    for path, label, claim in reversed(first):
        at = path[-1].state.node
        if not left.intersection(marks.of(Step(name, at, label))):
            continue
        proven = prove(steps, library, path, (label, claim))
        whole = proven and finished(proven, library)
        if whole:
            yield at, label, whole


def write_walks(walks: Iterable[Walked], folder: Path, trees: Path | None = None) -> list[Path]:
    """Write each walk to a new file in `folder` and return the files; of the trees in `trees`, else by name."""
    folder.mkdir(parents=True, exist_ok=True)
    files = []
    for name, about, proven in walks:
        stem = re.sub(r"[^A-Za-z0-9]+", "-", name).strip("-").lower()
        names = (f"{stem}{f'-{number}' if number else ''}.yaml" for number in (0, *range(2, 10_000)))
        file = next(file for one in names if not (file := folder / one).exists())
        tree = named_from(folder, trees, proven.walk.tree) if trees else None
        file.write_text(as_yaml(about, proven, tree), encoding="utf-8")
        files.append(file)
    return files


def as_yaml(about: str, proven: Proven, tree: str | None = None) -> str:
    """Return a walk as the text of a recorded-walk file; `tree` is how it names the tree."""
    invented = "The readings are invented: no pedestal and no campground stand behind them."
    return recorded_text(proven.walk, tree or proven.walk.tree, (about, invented))
