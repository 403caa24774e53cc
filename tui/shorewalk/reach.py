"""What this program may do for whoever sits at it: all of it, or what a shared login allows.

One value for the whole process. It is set once, before anything is opened, and asked by whatever writes a file,
takes a path or names one.
"""

from __future__ import annotations

import errno
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

MOST_FILES = 200
MOST_BYTES = 50_000_000
"""What one person may save on a shared login, so that nobody fills the disk."""

KEEPER = "whoever keeps this computer"
FETCH = f"{KEEPER[:1].upper()}{KEEPER[1:]} can give it to you."
GO_ON = "This walk is kept. It stands first when you log in again."
WENT_WRONG = (
    "shorewalk: something went wrong in the program. Log in again: a walk that could be kept stands first."
)
NOT_HERE = f"This login takes no files and names no folders. Ask {KEEPER}."
BARRED = frozenset({("hand", "start")})
"""Commands, and on which screen, whose point is a path that is typed."""


class Reach(NamedTuple):
    """`person`: whose walks these are, on a shared login; `saved`: the only folder their files go to."""

    person: str = ""
    saved: Path | None = None

    @property
    def guarded(self) -> bool:
        """Whether this is a shared login."""
        return self.saved is not None

    def bars(self, command: str, screen: str) -> bool:
        """Tell whether a command is not to be had on a screen here."""
        return self.guarded and (command, screen) in BARRED

    def folders(self) -> Iterable[Path]:
        """Yield where a file may be saved: the first that can be written is taken."""
        if self.saved is not None:
            yield self.saved
        else:
            yield Path.cwd()
            yield Path.home()

    def named(self, path: Path) -> str:
        """Return how a file that was saved is named to the person."""
        return path.name if self.guarded else str(path)

    def saved_words(self, path: Path, page: Path | None = None) -> str:
        """Return what to say of a file that was saved, and of the page to print beside it."""
        if self.guarded:
            return f"Saved as {path.name}{f' and {page.name}' if page else ''}. {FETCH}"
        return f"Saved in {path}{f', and to print beside it: {page.name}' if page else ''}"

    def refuse_more(self, size: int) -> None:
        """Raise `OSError` where a file of so many bytes would be more than one person may save."""
        if self.saved is None:
            return
        sizes = [file.stat().st_size for file in self.saved.glob("*") if file.is_file()]
        if len(sizes) >= MOST_FILES or sum(sizes) + size > MOST_BYTES:
            many = f"at most {MOST_FILES} files and {MOST_BYTES // 1_000_000} MB are kept for you"
            raise OSError(errno.EDQUOT, f"{many}; {KEEPER} can take some away")


_now = Reach()


def reach() -> Reach:
    """Return what this program may do."""
    return _now


def narrow(to: Reach) -> None:
    """Allow this and no more, from now on."""
    global _now  # noqa: PLW0603 (one value a process, as the system's own limits are)
    _now = to
