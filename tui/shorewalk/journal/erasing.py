"""Deleting walks so that they are gone: what was typed is nobody's business once it is to be deleted."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable


def erase(database: sqlite3.Connection, numbers: Iterable[int]) -> tuple[int, bool]:
    """Delete walks with their answers; return how many there were, and whether no trace is left in the file.

    A trace stays while another program has the file open. Raises `sqlite3.Error` where nothing can be written; then
    all walks stay.
    """
    database.execute("pragma secure_delete = on")  # what is freed is written over with zeros
    database.execute("begin immediate")
    try:
        deleted = sum(
            database.execute("delete from walks where id = ?", (number,)).rowcount for number in numbers
        )
        database.execute("commit")
    except BaseException:
        if database.in_transaction:
            database.execute("rollback")
        raise
    return deleted, _leave_no_trace(database)


def _leave_no_trace(database: sqlite3.Connection) -> bool:
    try:
        database.execute("vacuum")
        # The log beside the file has the old pages until they are in the file and it is cut to nothing.
        row = database.execute("pragma wal_checkpoint(truncate)").fetchone()
    except sqlite3.Error:
        return False
    return not row[0]
