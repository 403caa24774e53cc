"""The journal: begin a walk, keep its answers, find what was left unfinished, take it up again."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable, Iterable
from pathlib import Path

from shorewalk.tree.library import Library, shipped
from shorewalk.tree.words import quoted
from shorewalk.walk.answers import Answered
from shorewalk.walk.ledger import Trees
from shorewalk.walk.meter import Meter, parse_meter
from shorewalk.walk.walk import Walk, resume

from .content import content_of
from .entry import LABELS, Entry, entry_of
from .erasing import erase
from .rows import LISTED, Row, as_plain, carry_walk, read_answers, write_walk
from .spare import spare_of
from .store import connect, connect_in_memory, home
from .storing import Storing, now
from .trouble import TROUBLE, may_pass, why
from .worked_out import WorkedOut, find, put, turn_of

__all__ = ["Entry", "Journal", "NoSuchWalk", "library_of", "now"]

LATEST_FIRST = "order by turn desc, changed desc, id desc"


class NoSuchWalk(KeyError):  # noqa: N818 (said to a person, not an error of the program)
    """No walk of this number is kept."""


class Journal(Storing):
    """Walks and their answers, in one SQLite file; see `Storing` for what happens where it cannot be written."""

    @classmethod
    def open(cls, folder: Path | None = None, *, clock: Callable[[], str] = now) -> Journal:
        """Open the journal in `folder`, by default where walks are kept for this person."""
        try:
            folder = folder or home()
            return cls(connect(folder), clock=clock, folder=folder)
        except TROUBLE as error:
            journal = cls(spare_of(folder), problem=why(error, folder), clock=clock, folder=folder)
            journal.failed, journal._again = True, may_pass(error)
            return journal

    def begin(self, walk: Walk) -> int:
        """Keep a new walk and the answers it has; return its number."""
        return self._write(None, walk)

    def keep(self, number: int, walk: Walk) -> int:
        """Make the kept answers those of `walk`: what is the same stays, the rest is replaced.

        Returns its number, which is another one where the walk went from memory to a disk.
        """
        return self._write(number, walk)

    def finish(self, number: int, walk: Walk) -> int:
        """Keep `walk` with its ending; it is unfinished no more. Returns its number, as `keep`."""
        from shorewalk.walk.message import ending

        return self._write(number, walk, json.dumps(as_plain(ending(walk))))

    def take_in(self, walk: Walk, uuid: str, **labels: str | None) -> int:
        """Keep a walk of another machine under the name it has there, all of it or nothing; return its number.

        One of that name is written over. Raises `sqlite3.Error` where it cannot be written: it is no walk of here yet.
        """
        from shorewalk.walk.message import ending

        end = json.dumps(as_plain(ending(walk))) if walk.ended else None
        apart = Journal(connect_in_memory(), clock=self.clock)
        try:
            number, _ = write_walk(
                apart._database, Row(self.clock(), None, uuid, content_of(walk), end), walk
            )
            if labels:
                apart.label(number, **labels)
            number = carry_walk(apart._database, number, self._database)
        finally:
            apart.close()
        self._uuids[number] = uuid
        if self.failed:
            self._only_here.add(number)
        return number

    def unfinished(self) -> list[Entry]:
        """Return the walks without an ending, the one answered last first."""
        return self._list(f"where ending is null {LATEST_FIRST}")

    def finished(self) -> list[Entry]:
        """Return the walks with an ending, the latest first."""
        return self._list(f"where ending is not null {LATEST_FIRST}")

    def walks(self) -> list[Entry]:
        """Return all walks, the one answered last first."""
        return self._list(LATEST_FIRST)

    def entry(self, number: int) -> Entry:
        """Return what the journal lists of one walk, or raise `NoSuchWalk`."""
        for entry in self._list("where id = ?", number):
            self._uuids[number] = entry.uuid
            return entry
        raise NoSuchWalk(number)

    def entry_named(self, uuid: str) -> Entry | None:
        """Return the entry of the walk with this name, wherever it was begun; None where it is not here."""
        return next(iter(self._list("where uuid = ?", uuid)), None)

    def answers(self, number: int) -> list[Answered]:
        """Return the answers of a walk, up to the first that cannot be understood."""
        try:
            return read_answers(self._database, number)
        except sqlite3.Error as error:
            self._fail(error)
            raise NoSuchWalk(number) from None

    def load(self, number: int, library: Trees | None = None) -> Walk:
        """Return a walk as it was left; raise `NoSuchWalk`, `TreeError` where its tree cannot be read, or `KeyError`.

        Where the trees have changed since, the answers are taken up to the first that no longer fits; the
        rest stays on disk until the walk is answered on.
        """
        entry = self.entry(number)
        return resume(library or library_of(entry), entry.tree, meter_of(entry), self.answers(number))[0]

    def label(self, number: int, **labels: str | None) -> None:
        """Say of a walk where and when it was: `park` to `visited`, and `placed`; what is not named stays."""
        named = [name for name in (*LABELS, "placed") if name in labels]
        sets = ", ".join(f"{name} = ?" for name in named)
        values = (*(labels[name] for name in named), number)
        try:
            self._database.execute(f"update walks set {sets} where id = ?", values)  # noqa: S608 (names of ours)
        except sqlite3.Error as error:
            self._fail(error)
            self._database.execute(f"update walks set {sets} where id = ?", values)  # noqa: S608 (the same)
        if self.failed:
            self._only_here.add(number)

    def delete(self, *numbers: int) -> tuple[int, bool]:
        """Delete walks; return how many there were, and whether no trace of them is left in the file.

        Raises `sqlite3.Error` where the file cannot be written: nobody is to believe that something is gone.
        """
        return erase(self._database, numbers)

    def turn(self, number: int) -> int | None:
        """Return at which turn a walk was answered last, counted over all walks; None where it is not there."""
        return turn_of(self._database, number)

    def worked_out(self, entry: Entry, understood_by: str) -> bytes | None:
        """Return what was kept as worked out of a walk, if it still holds; see `understood`."""
        return find(self._database, entry.id, entry.uuid, understood_by)

    def keep_worked_out(self, found: Iterable[WorkedOut]) -> None:
        """Keep what was worked out of walks, if that can be done at once; nothing depends on it."""
        put(self._database, found)

    def _list(self, which: str, *values: object) -> list[Entry]:
        try:
            rows = self._database.execute(LISTED + which, values).fetchall()
        except sqlite3.Error as error:
            self._fail(error)
            return []
        return [entry_of(row) for row in rows]


def library_of(entry: Entry) -> Library:
    """Return the trees that a walk was walked in."""
    return Library(Path(entry.folder)) if entry.folder else shipped()


def meter_of(entry: Entry) -> Meter:
    """Return the meter that a walk was begun with; raise `KeyError` with a sentence where it cannot be read."""
    try:
        return parse_meter(entry.meter)
    except ValueError:
        raise KeyError(f"The meter of walk {entry.id} cannot be read: {quoted(entry.meter)}.") from None
