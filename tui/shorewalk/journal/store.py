"""The database file: where it lies, how it is opened, how an older one is brought up to date."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from .tables import STEPS, VERSION

FILE = "walks.sqlite3"
IN_MEMORY = ":memory:"
PATIENCE = 2.0
"""Seconds that a file locked by another program is waited for."""


class Damaged(sqlite3.DatabaseError):
    """The file is not whole any more."""

    sqlite_errorcode = sqlite3.SQLITE_CORRUPT


class NotOurs(Exception):  # noqa: N818 (said to a person, not an error of the program)
    """The file was written by a later version of the program, or is no journal."""


def home() -> Path:
    """Return the folder walks are kept in: `SHOREWALK_HOME`, else where the system keeps a person's data."""
    if chosen := os.environ.get("SHOREWALK_HOME"):
        return Path(chosen)
    import platformdirs  # only when a walk is kept

    return platformdirs.user_data_path("shorewalk", appauthor=False)


def connect(folder: Path, *, patience: float = PATIENCE) -> sqlite3.Connection:
    """Open the journal in `folder`, made if it is not there; OSError, sqlite3.Error, NotOurs say why not."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    path = folder / FILE
    if path.exists() and path.stat().st_size:
        connect_to_read(path, patience).close()  # what is not ours, or damaged, stays as it is
    return _ready(sqlite3.connect(path, timeout=patience, isolation_level=None, check_same_thread=False))


def connect_to_read(path: Path, patience: float = PATIENCE) -> sqlite3.Connection:
    """Open a journal without writing to it; raise as `connect` does, also where it is damaged."""
    database = sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True, timeout=patience)
    try:
        _refuse_other(database)
        refuse_damaged(database)
    except BaseException:
        database.close()
        raise
    return database


def connect_in_memory() -> sqlite3.Connection:
    """Open a journal that is gone with the program."""
    return _ready(sqlite3.connect(IN_MEMORY, isolation_level=None, check_same_thread=False))


def _ready(database: sqlite3.Connection) -> sqlite3.Connection:
    try:
        _refuse_other(database)  # once more: it may have been made meanwhile
        database.execute("pragma foreign_keys = on")
        database.execute("pragma journal_mode = wal")
        database.execute("pragma synchronous = full")  # an answer is on the disk, not only on its way there
        bring_up(database)
    except BaseException:
        database.close()
        raise
    return database


def bring_up(database: sqlite3.Connection) -> None:
    """Take every step that the tables lack, all or none: where one fails the file is as it was."""
    if version_of(database) == VERSION:
        return
    with in_one_piece(database):
        # Asked again under the lock: another shorewalk may have been quicker, and perhaps a later one.
        _refuse_other(database)
        for step in STEPS[version_of(database) :]:
            for statement in step.split(";"):
                database.execute(statement)
        database.execute(f"pragma user_version = {VERSION}")


@contextmanager
def in_one_piece(database: sqlite3.Connection) -> Iterator[None]:
    """Write all or nothing, while nobody else writes."""
    database.execute("begin immediate")
    try:
        yield
        database.execute("commit")
    except BaseException:
        if database.in_transaction:
            database.execute("rollback")
        raise


def version_of(database: sqlite3.Connection) -> int:
    """Return which version of the tables a file has; 0 is none yet."""
    (version,) = database.execute("pragma user_version").fetchone()
    return int(version)


def refuse_damaged(database: sqlite3.Connection) -> None:
    """Raise `Damaged` where a file is not whole."""
    (found,) = database.execute("pragma quick_check(1)").fetchone()
    if found != "ok":
        raise Damaged(found)


def _refuse_other(database: sqlite3.Connection) -> None:
    version = version_of(database)
    if version > VERSION:
        raise NotOurs("it was written by a later version of shorewalk")
    if not version and database.execute("select 1 from sqlite_master limit 1").fetchone():
        raise NotOurs("the file there is not a journal of shorewalk")
