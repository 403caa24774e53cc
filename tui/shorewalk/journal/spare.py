"""A journal in memory, for when the one on disk cannot be written."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from .store import FILE, NotOurs, bring_up, connect_in_memory, connect_to_read, refuse_damaged


def spare_of(folder: Path | None) -> sqlite3.Connection:
    """Return a journal in memory with the walks of the one in `folder`, as far as they can be read."""
    if folder is None:
        return connect_in_memory()
    import shutil  # only for this
    import tempfile

    try:
        with tempfile.TemporaryDirectory() as elsewhere:
            # To read it there, a file beside it would have to be made, which perhaps cannot be.
            for path in folder.glob(f"{FILE}*"):
                if not path.name.endswith("-shm"):
                    shutil.copy(path, elsewhere)
            database = connect_to_read(Path(elsewhere) / FILE)
            try:
                return _copied(database)
            finally:
                database.close()
    except (OSError, sqlite3.Error, NotOurs):
        return connect_in_memory()


def turned_spare(database: sqlite3.Connection) -> sqlite3.Connection:
    """Close a journal that can no longer be written, and return one in memory with what can be read of it."""
    try:
        return _copied(database)
    except (OSError, sqlite3.Error):
        return connect_in_memory()
    finally:
        database.close()


def _copied(database: sqlite3.Connection) -> sqlite3.Connection:
    memory = connect_in_memory()
    try:
        database.backup(memory)
        refuse_damaged(memory)
        bring_up(memory)
    except BaseException:
        memory.close()
        raise
    return memory
