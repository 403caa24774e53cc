"""Which walk this program has open, so that another one notices.

A lock on one byte of a file beside the walks, the byte of the walk's number: the system lets go of it when the program
ends, however it ends. Where files cannot be locked, every walk counts as free.
"""

from __future__ import annotations

import fcntl
import os
import time
from pathlib import Path

FILE = "walks.open"
TRIES = 3
A_MOMENT = 0.01
"""Seconds; another program that only looks holds the byte for less."""


class Holding:
    """Holds one walk at a time."""

    def __init__(self, folder: Path) -> None:
        self._path = folder / FILE
        self._file: int | None = None
        self._held: int | None = None

    def take(self, number: int) -> bool:
        """Hold this walk and no other; return False where another program holds it."""
        if number == self._held:
            return True
        self.let_go()
        for _ in range(TRIES):
            if self._lock(fcntl.LOCK_EX, number):
                self._held = number
                return True
            time.sleep(A_MOMENT)
        return False

    def is_elsewhere(self, number: int) -> bool:
        """Tell whether another program holds this walk."""
        if number == self._held:
            return False
        free = self._lock(fcntl.LOCK_SH, number)
        if free:
            self._unlock(number)
        return not free

    def let_go(self) -> None:
        """Hold nothing."""
        if self._held is not None:
            self._unlock(self._held)
            self._held = None

    def close(self) -> None:
        """Hold nothing, and close the file."""
        if self._file is not None:
            os.close(self._file)
        self._file = self._held = None

    def _lock(self, kind: int, number: int) -> bool:
        try:
            if self._file is None:
                self._file = os.open(self._path, os.O_RDWR | os.O_CREAT | os.O_CLOEXEC, 0o600)
            fcntl.lockf(self._file, kind | fcntl.LOCK_NB, 1, number)
        except (BlockingIOError, PermissionError):
            return self._file is None  # a file that cannot be opened is held by nobody
        except OSError:
            return True
        return True

    def _unlock(self, number: int) -> None:
        if self._file is not None:
            fcntl.lockf(self._file, fcntl.LOCK_UN, 1, number)
