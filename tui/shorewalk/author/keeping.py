"""Writing walks as recorded-walk files, as few as will do, to what no recorded walk covers yet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from shorewalk.tree.library import Library
from shorewalk.walk.meter import Meter
from shorewalk.walk.walk import Walk

from .gathering import Gathering
from .naming import about, stem_of
from .nearing import Nearing
from .polishing import polished
from .promise import Promise
from .recording import named_from, recorded_text
from .stepping import Steps
from .trail import Mark, Marks


def to_uncovered(
    library: Library, trees: Iterable[str], missing: Iterable[Mark], meter: Meter
) -> Iterator[Walk]:
    """Yield walks that together cover what is missing, as far as walks are found; those that take most along first."""
    marks, left = Marks(library), set(missing)
    for name in trees:
        steps = Steps(library.tree(name), library.site, meter)
        far = Gathering(library, steps, marks, left)
        for proven, new in far.go():
            left -= new
            yield polished(proven, steps.values, library).walk
        for file in sorted(
            {mark.file for mark in far.promise.wanted}
        ):  # one at a time: near to all is far from each
            promise = Promise(steps.tree, marks, (mark for mark in left if mark.file == file))
            for proven, _ in Nearing(library, steps, marks, promise, far.paths).go():
                left -= marks.covered(proven.walk, proven.gone)
                yield polished(proven, steps.values, library).walk


def write_walks(walks: Iterable[Walk], folder: Path, trees: Path) -> list[Path]:
    """Write each walk of a tree in the folder `trees` to a new file in `folder` and return the files."""
    folder.mkdir(parents=True, exist_ok=True)
    taken = {file.stem for file in folder.glob("*.yaml")}
    files = []
    for walk in walks:
        stem = stem_of(walk, taken)
        taken.add(stem)
        files.append(file := folder / f"{stem}.yaml")
        file.write_text(
            recorded_text(walk, named_from(folder, trees, walk.tree), about(walk)), encoding="utf-8"
        )
    return files
