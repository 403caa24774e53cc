"""Files that plain text writes and reads, in one place: where they go, and whether a path may be typed."""

from __future__ import annotations

from collections.abc import Callable
from os.path import expanduser
from pathlib import Path

from shorewalk.reach import reach


def folders() -> list[Path]:
    """Return where new files go, the first that can be written; one that is gone or not known is left out."""
    found: list[Path] = []
    try:
        found.extend(reach().folders())
    except (OSError, RuntimeError):  # the folder was deleted meanwhile, or nobody knows where home is
        return found
    return found


def save_in(write: Callable[[Path], Path]) -> Path:
    """Let `write` put a new file into the first folder it can; raise the last `OSError` where it can in none."""
    failed = OSError("there is no folder to save in")
    for folder in folders():
        try:
            return write(folder)
        except OSError as error:
            failed = error
    raise failed


def paths_may_be_typed() -> bool:
    """Tell whether a person may name files and folders."""
    return not reach().guarded


def named(typed: str) -> Path:
    """Return the file that somebody typed, beside where files go."""
    first = next(iter(folders()), Path())
    return first / expanduser(typed)  # noqa: PTH111 (Path's own raises for ~nobody)


def saved_words(path: Path) -> str:
    """Return what to say of a new file."""
    return reach().saved_words(path)


def why(error: OSError) -> str:
    """Return why a file could not be, in words."""
    return error.strerror or str(error)
