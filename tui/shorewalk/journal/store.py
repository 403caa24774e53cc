"""The database file: where it lies, how it is opened, what its tables hold."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

VERSION = 1
FILE = "walks.sqlite3"
IN_MEMORY = ":memory:"

# A walk is its answers: nothing derived is kept but the ending, which must still be readable
# as it was told when the trees have moved on.
TABLES = """
create table walks (
    id integer primary key,
    tree text not null,
    folder text,
    meter text not null,
    begun text not null,
    changed text not null,
    ending text
);
create table answers (
    walk integer not null references walks (id) on delete cascade,
    n integer not null,
    tree text not null,
    at text not null,
    nth integer not null,
    answer text not null,
    time text,
    primary key (walk, n)
) without rowid;
"""


class NotOurs(Exception):  # noqa: N818 (said to a person, not an error of the program)
    """The file was written by a later version of the program, or is no journal."""


def home() -> Path:
    """Return the folder walks are kept in: `SHOREWALK_HOME`, else where the system keeps a person's data."""
    if chosen := os.environ.get("SHOREWALK_HOME"):
        return Path(chosen)
    import platformdirs  # only when a walk is kept

    return platformdirs.user_data_path("shorewalk", appauthor=False)


def connect(folder: Path) -> sqlite3.Connection:
    """Open the journal in `folder`, made if it is not there; OSError, sqlite3.Error, NotOurs say why not."""
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    return _ready(sqlite3.connect(folder / FILE, timeout=5, isolation_level=None, check_same_thread=False))


def connect_in_memory() -> sqlite3.Connection:
    """Open a journal that is gone with the program."""
    return _ready(sqlite3.connect(IN_MEMORY, isolation_level=None, check_same_thread=False))


def _ready(database: sqlite3.Connection) -> sqlite3.Connection:
    try:
        _refuse_other(database)  # before anything is written to it
        database.execute("pragma foreign_keys = on")
        database.execute("pragma journal_mode = wal")
        database.execute("pragma synchronous = full")  # an answer is on the disk, not only on its way there
        if _version(database) != VERSION:
            _make_tables(database)
    except BaseException:
        database.close()
        raise
    return database


def _make_tables(database: sqlite3.Connection) -> None:
    database.execute("begin immediate")
    try:
        # Asked again under the lock: another shorewalk may have been quicker.
        if _version(database) != VERSION:
            for statement in TABLES.split(";"):
                database.execute(statement)
            database.execute(f"pragma user_version = {VERSION}")
        database.execute("commit")
    except BaseException:
        if database.in_transaction:
            database.execute("rollback")
        raise


def _refuse_other(database: sqlite3.Connection) -> None:
    version = _version(database)
    if version > VERSION:
        raise NotOurs("it was written by a later version of shorewalk")
    if not version and database.execute("select 1 from sqlite_master limit 1").fetchone():
        raise NotOurs("the file there is not a journal of shorewalk")


def _version(database: sqlite3.Connection) -> int:
    (version,) = database.execute("pragma user_version").fetchone()
    return int(version)
