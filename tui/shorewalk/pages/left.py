"""What the start says of walks that were left unfinished."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from pathlib import Path

from shorewalk.counted import counted
from shorewalk.journal import Entry, Journal
from shorewalk.log.times import moment
from shorewalk.tree.library import Library
from shorewalk.tree.source import TreeError

from .start import Left


def walks_left(journal: Journal, library: Library, most: int) -> list[Left]:
    """Return the walks that can go on, the one answered last first; one whose tree is gone cannot.

    Two that read alike, as a copy does, have their numbers with them.
    """
    left: list[Left] = []
    for entry in journal.unfinished():
        if len(left) == most:
            break
        try:
            symptom = library_for(entry, library).header(entry.tree).symptom
        except (KeyError, TreeError):
            continue
        left.append(Left(entry.id, symptom, told(entry, elsewhere=journal.is_open_elsewhere(entry.id))))
    same = Counter((one.symptom, one.told) for one in left)
    return [
        replace(one, told=f"{one.told}, walk {one.number}") if same[one.symptom, one.told] > 1 else one
        for one in left
    ]


def library_for(entry: Entry, library: Library) -> Library:
    """Return the trees of a walk: those at hand, or those of the folder it was walked in."""
    if entry.folder is None or Path(entry.folder) == library.folder.resolve():
        return library
    return Library(Path(entry.folder))


def told(entry: Entry, *, elsewhere: bool = False) -> str:
    """Return how far a walk went, and when it was left, as clocks here show it."""
    left = f"{counted(entry.answers, 'answer')}, left {moment(entry.changed)}"
    return f"{left}{', open in another terminal' if elsewhere else ''}"
