"""Telling that somebody saved a file: a look at a few files' times, some times a second, with no library for it."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

FOLDERS = (".", "parts", "site")
"""Where the files lie that bear on a tree, below its folder."""

Stamps = dict[str, tuple[int, int, int]]


class Watch:
    """Knows the files below a folder of trees as they were at the last look."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._seen = stamps(folder)

    def changed(self) -> bool:
        """Tell whether any file was saved, put there or taken away since the last look."""
        before, self._seen = self._seen, stamps(self.folder)
        return before != self._seen


def stamps(folder: Path) -> Stamps:
    """Return time, size and place on disk of every YAML file that bears on a tree in `folder`."""
    found: Stamps = {}
    for inner in FOLDERS:
        with suppress(OSError):  # the folder is gone between two breaths, or its disk cannot be read just now
            for file in (folder / inner).glob("*.yaml"):
                with suppress(OSError):  # so is the file: some editors save by moving a new one into place
                    told = file.stat()
                    found[str(file)] = (told.st_mtime_ns, told.st_size, told.st_ino)
    return found
