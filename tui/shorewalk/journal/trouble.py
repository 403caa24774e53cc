"""Why walks cannot be kept on disk, in words, and whether that may pass."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from shorewalk.reach import KEEPER, reach

from .store import NotOurs

TROUBLE = (OSError, RuntimeError, sqlite3.Error, NotOurs)
"""What opening and writing a journal can raise."""

# Primary result codes: https://www.sqlite.org/rescode.html
WHY = {
    sqlite3.SQLITE_BUSY: "another program has locked the file",
    sqlite3.SQLITE_LOCKED: "another program has locked the file",
    sqlite3.SQLITE_READONLY: "nothing can be written there",
    sqlite3.SQLITE_PERM: "nothing can be written there",
    sqlite3.SQLITE_CANTOPEN: "the file there cannot be opened or made",
    sqlite3.SQLITE_IOERR: "the disk cannot be read or written",
    sqlite3.SQLITE_FULL: "the disk is full",
    sqlite3.SQLITE_CORRUPT: "the file there is damaged; move it away, and a new one is made",
    sqlite3.SQLITE_NOTADB: "the file there is damaged; move it away, and a new one is made",
}
FOR_GOOD = (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)


def why(error: Exception, folder: Path | None) -> str:
    """Return why nothing is kept, with the folder it is about; on a shared login, who can help."""
    reason = WHY.get(_code(error), str(error))
    if isinstance(error, FileExistsError | NotADirectoryError):
        reason = "a file is in the way"
    elif isinstance(error, OSError) and error.strerror:
        reason = error.strerror
    if reach().guarded:
        return f"Walks are not kept on disk: {reason}. Tell {KEEPER}."
    return f"Walks are not kept on disk: {reason}{f' ({folder})' if folder else ''}."


def may_pass(error: Exception) -> bool:
    """Tell whether it is worth trying again."""
    return not isinstance(error, NotOurs) and _code(error) not in FOR_GOOD


def _code(error: Exception) -> int:
    return (getattr(error, "sqlite_errorcode", None) or 0) & 0xFF
