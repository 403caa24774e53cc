"""What the log worked out of walks: taken from the journal where it still holds, else worked out and put there."""

from __future__ import annotations

from pathlib import Path

from shorewalk.journal import Entry, Journal
from shorewalk.journal.understood import understood_by
from shorewalk.journal.worked_out import WorkedOut
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.source import TreeError
from shorewalk.walk.walk import Walk

from .worked import Worked, packed, unpacked, worked

BATCH = 50
"""Walks that are put on the disk at once: each writing waits for the disk."""


class Shelf:
    """For one listing of walks: the trees of a folder are read once for all of them."""

    def __init__(self, journal: Journal) -> None:
        self.journal = journal
        self._libraries: dict[str | None, Library] = {None: shipped()}
        self._by: dict[str | None, str | None] = {}
        self._new: list[WorkedOut] = []

    def library(self, entry: Entry) -> Library:
        """Return the trees that a walk was walked in."""
        if entry.folder not in self._libraries:
            self._libraries[entry.folder] = Library(Path(str(entry.folder)))
        return self._libraries[entry.folder]

    def load(self, entry: Entry) -> Walk | None:
        """Return a walk, replayed; None where its trees cannot be read any more."""
        try:
            return self.journal.load(entry.id, self.library(entry))
        except (TreeError, KeyError, ValueError):  # ValueError: a meter that is none
            return None

    def find(self, entry: Entry) -> Worked | None:
        """Return what the journal has as worked out of a walk; None where it has to be worked out."""
        by = self._understood_by(entry)
        data = by and self.journal.worked_out(entry, by)
        return unpacked(data) if data else None

    def work_out(self, entry: Entry) -> Worked:
        """Work it out by replaying the walk, and put it with what is to be kept."""
        # Before its answers are read: what is answered meanwhile does not count.
        turn = self.journal.turn(entry.id)
        out = worked(self.load(entry))
        by = self._understood_by(entry)
        # Without `fit` its trees could not be read; they may be back in a moment.
        if turn is not None and by and out.fit is not None:
            self._new.append(WorkedOut(entry.id, entry.uuid, turn, by, packed(out)))
            if len(self._new) >= BATCH:
                self.put_away()
        return out

    def put_away(self) -> None:
        """Keep in the journal what was worked out, unless trees or program changed meanwhile."""
        new, self._new = self._new, []
        now = {understood_by(library) for library in self._libraries.values()} if new else set()
        if kept := [each for each in new if each.understood_by in now]:
            self.journal.keep_worked_out(kept)

    def _understood_by(self, entry: Entry) -> str | None:
        if entry.folder not in self._by:
            self._by[entry.folder] = understood_by(self.library(entry))
        return self._by[entry.folder]
