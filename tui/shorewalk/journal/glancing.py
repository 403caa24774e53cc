"""A glance at which walks are kept: nothing is locked, made or changed, and nobody is waited for."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from .entry import Entry, entry_of
from .rows import LISTED
from .store import FILE, home


def glance(folder: Path | None = None) -> list[Entry]:
    """Return the walks kept in `folder`, the one answered last first; none where they cannot be read at once."""
    path = (folder or home()).absolute() / FILE
    # With no log beside it nobody writes: read so, the library makes no log of its own.
    how = "mode=ro" if path.with_name(f"{FILE}-wal").exists() else "immutable=1"
    try:
        with closing(sqlite3.connect(f"{path.as_uri()}?{how}", uri=True, timeout=0)) as database:
            return [entry_of(row) for row in database.execute(f"{LISTED} order by turn desc, id desc")]
    except (OSError, sqlite3.Error):
        return []
