"""The paths of several trees, each searched on a processor of its own where there are more than one."""

from __future__ import annotations

import os
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path

from shorewalk.tree.library import Library
from shorewalk.walk.meter import Meter

from .paths import TreePaths, paths_of, with_walks
from .trail import Timed

Answers = dict[str, list[Timed]]


def paths_of_all(library: Library, names: list[str], meter: Meter) -> list[TreePaths]:
    """Return the paths of each tree, in the order named."""
    workers = min(len(names), os.cpu_count() or 1)
    if workers < 2:
        return [paths_of(library, name, meter) for name in names]
    longest = sorted(names, key=lambda name: -len(library.tree(name).nodes))
    with ProcessPoolExecutor(workers, get_context("spawn")) as pool:
        waiting = {name: pool.submit(_answers, library.folder, name, meter) for name in longest}
        found = {name: one.result() for name, one in waiting.items()}
    return [with_walks(library, name, meter, found[name][0], whole=found[name][1]) for name in names]


def _answers(folder: Path, name: str, meter: Meter) -> tuple[Answers, bool]:
    """Return the answers of the shortest walk to each ending; walks themselves do not go from process to process."""
    found = paths_of(Library(folder, checked=False), name, meter)
    return {path.name: path.proven.timed for path in found.paths if path.proven}, found.whole
