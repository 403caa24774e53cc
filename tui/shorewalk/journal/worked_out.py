"""What was worked out from the answers of a walk, kept beside them: found again only while it would be the same.

It is never needed: what cannot be read or written here is worked out anew, and no answer waits for it.
"""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Iterable
from typing import NamedTuple

from .store import in_one_piece

FOUND = """
select data from worked_out join walks on walks.id = worked_out.walk and walks.turn = worked_out.turn
where worked_out.walk = ? and walks.uuid = ? and understood_by = ?
"""
KEPT = """
insert or replace into worked_out (walk, turn, understood_by, data)
select ?1, ?3, ?4, ?5 where exists (select 1 from walks where id = ?1 and uuid = ?2 and turn = ?3)
"""


class WorkedOut(NamedTuple):
    """`data` of a walk as it stood at its `turn`; its number and turn may be another walk's once it is deleted."""

    walk: int
    uuid: str
    turn: int
    understood_by: str
    data: bytes


def find(database: sqlite3.Connection, walk: int, uuid: str, understood_by: str) -> bytes | None:
    """Return what was worked out of a walk, where it was not answered since and is understood by the same."""
    try:
        row = database.execute(FOUND, (walk, uuid, understood_by)).fetchone()
    except sqlite3.Error:
        return None
    return row[0] if row and isinstance(row[0], bytes) else None


def turn_of(database: sqlite3.Connection, walk: int) -> int | None:
    """Return at which turn a walk was answered last; None where it is not there."""
    try:
        row = database.execute("select turn from walks where id = ?", (walk,)).fetchone()
    except sqlite3.Error:
        return None
    return int(row[0]) if row else None


def put(database: sqlite3.Connection, found: Iterable[WorkedOut]) -> None:
    """Keep what was worked out; where another program is writing just now, or nothing can be written, nothing."""
    with contextlib.suppress(sqlite3.Error):
        (patience,) = database.execute("pragma busy_timeout").fetchone()
        database.execute("pragma busy_timeout = 0")
        try:
            with in_one_piece(database):
                database.executemany(KEPT, found)
        finally:
            database.execute(f"pragma busy_timeout = {int(patience)}")
