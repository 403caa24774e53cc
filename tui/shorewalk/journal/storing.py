"""Writing walks to the disk, and going on in memory where that cannot be done."""

from __future__ import annotations

import errno
import os
import sqlite3
import time
from collections.abc import Callable
from pathlib import Path

from shorewalk.walk.walk import Walk

from .content import content_of
from .holding import Holding
from .rows import Row, carry_walk, write_walk
from .spare import turned_spare
from .store import FILE, connect
from .trouble import TROUBLE, may_pass, why

QUICK = 0.2
"""Seconds a disk that failed is waited for, at every answer."""


def now() -> str:
    """Return the time as it is written beside answers."""
    return time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime())


class Storing:
    """The file of a journal.

    Nothing here raises because of the disk: where the file cannot be opened, or no longer be written, the
    journal goes on in memory and `problem` says so in a sentence. With every answer the disk is tried again,
    unless it is no use; `failed` tells that the disk is at fault, and `keep_in` another folder may help.
    """

    def __init__(
        self,
        database: sqlite3.Connection,
        *,
        problem: str | None = None,
        clock: Callable[[], str] = now,
        folder: Path | None = None,
    ) -> None:
        self.problem, self.clock, self.folder = problem, clock, folder
        self.failed = self._again = False
        self._database = database
        self._holding = Holding(folder) if folder else None
        self._identity = _identity(folder)
        self._uuids: dict[int, str] = {}
        self._only_here: set[int] = set()  # walks written in memory since the disk failed

    @property
    def on_no_disk(self) -> int | None:
        """The walk begun last of those that are gone with this program; None where all is on a disk."""
        return max(self._only_here, default=None) if self.failed else None

    def hold(self, number: int) -> bool:
        """Have this walk open here, and no other; return False where another program has it open."""
        return self.failed or self._holding is None or self._holding.take(number)

    def let_go(self) -> None:
        """Have no walk open."""
        if self._holding:
            self._holding.let_go()

    def is_open_elsewhere(self, number: int) -> bool:
        """Tell whether another program has this walk open."""
        return not self.failed and self._holding is not None and self._holding.is_elsewhere(number)

    def keep_in(self, folder: Path, number: int) -> int:
        """Keep walks in another folder from now on, beginning with this one; return its number there.

        Raises what `why` can say in words, and stays as it is, where nothing can be kept there either.
        """
        return self._settle(folder, self._only_here | {number}, connect(folder))[number]

    def close(self) -> None:
        """Close the file."""
        self._database.close()
        if self._holding:
            self._holding.close()

    def _write(self, number: int | None, walk: Walk, end: str | None = None) -> int:
        uuid = self._uuids.get(number or 0) or os.urandom(16).hex()
        row = Row(self.clock(), number, uuid, content_of(walk), end)
        try:
            self._refuse_moved()
            number, uuid = write_walk(self._database, row, walk)
        except (sqlite3.Error, OSError) as error:
            # A full or vanished disk: the walk matters more than its record. It is all here, so begin afresh.
            self._fail(error)
            number, uuid = write_walk(self._database, row, walk)
        self._uuids[number] = uuid
        if self.failed:
            self._only_here.add(number)
            if self._again and self.folder:
                return self._try_disk(self.folder, number)
        return number

    def _refuse_moved(self) -> None:
        """Raise where the file is no longer where it was: what is written to it now is found by nobody."""
        if self.folder and not self.failed and _identity(self.folder) != self._identity:
            raise FileNotFoundError(errno.ENOENT, "the file is gone")

    def _fail(self, error: sqlite3.Error | OSError) -> None:
        """Go on in memory, with what can still be read."""
        self.problem, self.failed, self._again = why(error, self.folder), True, may_pass(error)
        self._database = turned_spare(self._database)

    def _try_disk(self, folder: Path, number: int) -> int:
        try:
            return self._settle(folder, self._only_here, connect(folder, patience=QUICK))[number]
        except TROUBLE:
            return number

    def _settle(self, folder: Path, walks: set[int], disk: sqlite3.Connection) -> dict[int, int]:
        """Carry walks to a disk and go on there; return which number each has there."""
        try:
            numbers = {number: carry_walk(self._database, number, disk) for number in sorted(walks)}
        except BaseException:
            disk.close()
            raise
        self.close()
        self._database, self._holding, self.folder = disk, Holding(folder), folder
        self._identity = _identity(folder)
        self.problem, self.failed, self._again = None, False, False
        self._uuids = {new: self._uuids[old] for old, new in numbers.items() if old in self._uuids}
        self._only_here = set()
        return numbers


def _identity(folder: Path | None) -> tuple[int, int] | None:
    """Return which file the journal in a folder is; None where there is none."""
    try:
        found = (folder / FILE).stat() if folder else None
    except OSError:
        return None
    return (found.st_dev, found.st_ino) if found else None
