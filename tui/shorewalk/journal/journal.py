"""The journal: begin a walk, keep its answers, find what was left unfinished, take it up again."""

from __future__ import annotations

import json
import sqlite3
import time
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from shorewalk.tree.library import Library, shipped
from shorewalk.walk.answers import Answered, from_json, to_json
from shorewalk.walk.ledger import Trees
from shorewalk.walk.meter import Meter, parse_meter
from shorewalk.walk.walk import Walk, resume

from .store import NotOurs, connect, connect_in_memory, home

if TYPE_CHECKING:
    from shorewalk.walk.message import Ending


class NoSuchWalk(KeyError):  # noqa: N818 (said to a person, not an error of the program)
    """No walk of this number is kept."""


class Entry(NamedTuple):
    """A walk as the journal lists it. Times are ISO 8601 in UTC; `ending` is None while it is unfinished."""

    id: int
    tree: str
    folder: str | None  # of trees that are not the shipped ones
    meter: str
    begun: str
    changed: str
    answers: int
    ending: dict[str, Any] | None = None


LISTED = """
select id, tree, folder, meter, begun, changed, (select count(*) from answers where walk = id), ending
from walks
"""


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
        sql = "select tree, at, nth, answer, time from answers where walk = ? order by n"
        kept = [
            Answered(tree, at, nth, from_json(json.loads(answer)), stamp)
            for tree, at, nth, answer, stamp in self._database.execute(sql, (number,))
        ]
        return resume(library, entry.tree, parse_meter(entry.meter), kept)[0]

    def close(self) -> None:
        """Close the file."""
        self._database.close()

    def _list(self, which: str, *values: object) -> list[Entry]:
        try:
            rows = self._database.execute(LISTED + which, values).fetchall()
        except sqlite3.Error as error:
            self.problem = _not_kept(error)
            return []
        return [Entry(*row)._replace(ending=row[-1] and json.loads(row[-1])) for row in rows]

    def _write(self, number: int | None, walk: Walk, end: str | None = None) -> int:
        try:
            return _write(self._database, self.clock(), number, walk, end)
        except sqlite3.Error as error:
            # A full or vanished disk: the walk matters more than its record. It is all here, so begin afresh.
            self.problem = _not_kept(error)
            self._database.close()
            self._database = connect_in_memory()
            return _write(self._database, self.clock(), number, walk, end)


def _write(database: sqlite3.Connection, when: str, number: int | None, walk: Walk, end: str | None) -> int:
    """Write a walk in one piece, all or nothing."""
    rows = [
        (n, answer.tree, answer.at, answer.nth, json.dumps(to_json(answer.answer)), answer.time)
        for n, answer in enumerate(walk.answers)
    ]
    database.execute("begin immediate")
    try:
        folder = folder_of(walk)
        made = database.execute(
            "insert into walks values (?1, ?2, ?3, ?4, ?5, ?5, ?6)"
            " on conflict (id) do update set changed = ?5, ending = ?6",
            (number, walk.tree, folder, meter_text(walk.meter), when, end),
        )
        number = number or made.lastrowid
        assert number is not None  # noqa: S101 (a row that was made has a number)
        sql = "select n, tree, at, nth, answer, time from answers where walk = ? order by n"
        kept = database.execute(sql, (number,)).fetchall()
        same = next((n for n, (one, other) in enumerate(zip(rows, kept, strict=False)) if one != other), None)
        if same is None:
            same = min(len(rows), len(kept))
        database.execute("delete from answers where walk = ? and n >= ?", (number, same))
        sql = "insert into answers values (?, ?, ?, ?, ?, ?, ?)"
        database.executemany(sql, [(number, *row) for row in rows[same:]])
        database.execute("commit")
    except BaseException:
        if database.in_transaction:
            database.execute("rollback")
        raise
    return number


def folder_of(walk: Walk) -> str | None:
    """Return the folder of a walk's trees; None for the shipped ones."""
    library = walk.library
    if isinstance(library, Library) and library is not shipped():
        return str(library.folder.resolve())
    return None


def meter_text(meter: Meter) -> str:
    """Return what `parse_meter` makes this meter from."""
    kind = meter.name if meter.name in ("basic", "good") else f"{meter.percent:g}%+{meter.counts:g}"
    return kind + {None: "", True: ",tenths", False: ",whole"}[meter.tenths]


def as_plain(ending: Ending) -> dict[str, Any]:
    """Return an ending as it is kept."""
    return {name: getattr(ending, name) for name in ending.__dataclass_fields__}


def _not_kept(error: Exception, folder: Path | None = None) -> str:
    why = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    where = f" in {folder}" if folder else ""
    return f"This walk is not kept on disk ({why}{where}). It goes on, but is gone when the program ends."
