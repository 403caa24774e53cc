"""By what kept answers are understood: the trees, the facts and this program, as one short text.

What was worked out from answers holds as long as this text is the same.
"""

from __future__ import annotations

import time
from collections.abc import Iterable, Iterator
from functools import lru_cache
from pathlib import Path

from shorewalk import folders
from shorewalk.tree.library import Library

from .content import summed

BEGAN = time.time_ns()
SURE = 60 * 10**9
"""Nanoseconds before `BEGAN` from which on it is not sure that what this process runs by is what the files hold."""

ROOMS = ("electrics", "journal", "log", "paper", "tree", "walk")
BESIDE = ("folders.py", "heard_words.py", "reach.py", "seen.py")
"""The code that makes readings from answers: rooms, and files beside them."""

Stamp = tuple[str, int, int]
"""A file or folder, when it was last changed in any way (ns), and its size."""


def understood_by(library: Library) -> str | None:
    """Return the text; None where it cannot be told, or files have changed since this process read them, perhaps."""
    try:
        stamps = tuple(_stamps(library))
        if any(changed > BEGAN - SURE for _, changed, _ in stamps):
            return None
        return _text(stamps)
    except OSError:
        return None


def _stamps(library: Library) -> Iterator[Stamp]:
    package = Path(__file__).resolve().parents[1]
    rooms = (package / room for room in ROOMS)
    yield from _stamped(package / name for name in BESIDE)
    yield from _stamped(path for room in rooms for path in sorted(room.glob("*.py")))
    of_trees = dict.fromkeys((folders.trees(), library.folder.resolve()))
    places = (beside for folder in of_trees for beside in (folder, folder / "parts", folder / "site"))
    # A folder changes with every file that comes or goes: an own part that is gone is the shipped one from then on.
    yield from _stamped(
        path for place in places if place.is_dir() for path in (place, *sorted(place.glob("*.yaml")))
    )


def _stamped(paths: Iterable[Path]) -> Iterator[Stamp]:
    for path in paths:
        found = path.stat()
        yield str(path), found.st_ctime_ns, found.st_size


@lru_cache(maxsize=8)
def _text(stamps: tuple[Stamp, ...]) -> str:
    read = (Path(path) for path, _, _ in stamps)
    return summed(
        b"\0".join(path.name.encode() + b"\0" + path.read_bytes() for path in read if path.is_file())
    )
