"""The journal: begin a walk, keep its answers, find what was left unfinished, take it up again."""

from __future__ import annotations

import json
import sqlite3
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

from shorewalk.tree.library import Library, shipped
from shorewalk.walk.ledger import Trees
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import Walk, resume

from .rows import LISTED, as_plain, read_answers, write_walk
from .store import NotOurs, connect, connect_in_memory, home


class NoSuchWalk(KeyError):  # noqa: N818 (said to a person, not an error of the program)
    """No walk of this number is kept."""


class Entry(NamedTuple):
    """A walk as the journal lists it. Times are ISO 8601 in UTC; `ending` is None while it is unfinished.

    `uuid` is the same wherever a walk is carried. `content` is what its trees were when it was last answered.
    `park`, `site`, `outlet` and `visited` are where and when, as somebody put it; None where nobody did.
    """

    id: int
    tree: str
    folder: str | None  # of trees that are not the shipped ones
    meter: str
    begun: str
    changed: str
    answers: int
    ending: dict[str, Any] | None = None
    uuid: str = ""
    content: str | None = None
    park: str | None = None
    site: str | None = None
    outlet: str | None = None
    visited: str | None = None


LABELS = ("park", "site", "outlet", "visited")


def now() -> str:
    """Return the time as it is written beside answers."""
    return time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime())


class Journal:
    """Walks and their answers, in one SQLite file.

    Nothing here raises because of the disk: where the file cannot be opened, or no longer be written, the
    journal goes on in memory and `problem` says so in a sentence.
    """

    def __init__(
        self, database: sqlite3.Connection, *, problem: str | None = None, clock: Callable[[], str] = now
    ) -> None:
        self.problem = problem
        self._database, self.clock = database, clock

    @classmethod
    def open(cls, folder: Path | None = None, *, clock: Callable[[], str] = now) -> Journal:
        """Open the journal in `folder`, by default where walks are kept for this person."""
        try:
            folder = folder or home()
            return cls(connect(folder), clock=clock)
        except (OSError, RuntimeError, sqlite3.Error, NotOurs) as error:
            return cls(connect_in_memory(), problem=_not_kept(error, folder), clock=clock)

    def begin(self, walk: Walk) -> int:
        """Keep a new walk and the answers it has; return its number."""
        return self._write(None, walk)

    def keep(self, number: int, walk: Walk) -> None:
        """Make the kept answers those of `walk`: what is the same stays, the rest is replaced."""
        self._write(number, walk)

    def finish(self, number: int, walk: Walk) -> None:
        """Keep `walk` with its ending; it is unfinished no more."""
        from shorewalk.walk.message import ending

        self._write(number, walk, json.dumps(as_plain(ending(walk))))

    def unfinished(self) -> list[Entry]:
        """Return the walks without an ending, the one changed last first."""
        return self._list("where ending is null order by changed desc, id desc")

    def finished(self) -> list[Entry]:
        """Return the walks with an ending, the latest first."""
        return self._list("where ending is not null order by changed desc, id desc")

    def entry(self, number: int) -> Entry:
        """Return what the journal lists of one walk, or raise `NoSuchWalk`."""
        for entry in self._list("where id = ?", number):
            return entry
        raise NoSuchWalk(number)

    def load(self, number: int, library: Trees | None = None) -> Walk:
        """Return a walk as it was left; raise `NoSuchWalk`, or `TreeError` where its tree cannot be read.

        Where the trees have changed since, the answers are taken up to the first that no longer fits; the
        rest stays on disk until the walk is answered on.
        """
        entry = self.entry(number)
        if library is None:
            library = Library(Path(entry.folder)) if entry.folder else shipped()
        try:
            answers = read_answers(self._database, number)
        except sqlite3.Error as error:
            self.problem = _not_kept(error)
            raise NoSuchWalk(number) from None
        return resume(library, entry.tree, parse_meter(entry.meter), answers)[0]

    def label(self, number: int, **labels: str | None) -> None:
        """Say of a walk where and when it was: `park`, `site`, `outlet`, `visited`; what is not named stays."""
        named = [name for name in LABELS if name in labels]
        sets = ", ".join(f"{name} = ?" for name in named)
        values = (*(labels[name] for name in named), number)
        try:
            self._database.execute(f"update walks set {sets} where id = ?", values)  # noqa: S608 (names of ours)
        except sqlite3.Error as error:
            self.problem = _not_kept(error)

    def close(self) -> None:
        """Close the file."""
        self._database.close()

    def _list(self, which: str, *values: object) -> list[Entry]:
        try:
            rows = self._database.execute(LISTED + which, values).fetchall()
        except sqlite3.Error as error:
            self.problem = _not_kept(error)
            return []
        entries = map(Entry._make, rows)
        return [entry._replace(ending=entry.ending and json.loads(str(entry.ending))) for entry in entries]

    def _write(self, number: int | None, walk: Walk, end: str | None = None) -> int:
        try:
            return write_walk(self._database, self.clock(), number, walk, end)
        except sqlite3.Error as error:
            # A full or vanished disk: the walk matters more than its record. It is all here, so begin afresh.
            self.problem = _not_kept(error)
            self._database.close()
            self._database = connect_in_memory()
            return write_walk(self._database, self.clock(), number, walk, end)


def _not_kept(error: Exception, folder: Path | None = None) -> str:
    why = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    where = f" in {folder}" if folder else ""
    return f"This walk is not kept on disk ({why}{where}). It goes on, but is gone when the program ends."
