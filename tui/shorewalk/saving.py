"""Saving the record of a walk to a file of its own; nothing is ever written over."""

from __future__ import annotations

from pathlib import Path

from .walk.record import record_markdown
from .walk.walk import Walk

MOST = 1000


def save_record(walk: Walk, site: str | None, folder: Path, now: str) -> Path:
    """Write the record into `folder` and return its path; raise `OSError` where that cannot be done."""
    return write_beside(folder, f"shorewalk-{walk.tree}-{now[:10]}", ".md", record_markdown(walk, site))


def write_beside(folder: Path, name: str, ending: str, text: str) -> Path:
    """Write a new file; where one of that name is there, it gets a number. Raise `OSError` where it cannot be."""
    for number in range(1, MOST):
        path = folder / (f"{name}{ending}" if number == 1 else f"{name}-{number}{ending}")
        try:
            with path.open("x", encoding="utf-8") as file:
                file.write(text)
        except FileExistsError:
            continue
        return path.resolve()
    raise FileExistsError(f"there are too many files called {name} in {folder}")
