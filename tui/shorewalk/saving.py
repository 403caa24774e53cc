"""Saving the record of a walk to a file of its own; nothing is ever written over."""

from __future__ import annotations

from pathlib import Path

from .walk.record import record_markdown
from .walk.walk import Walk


def save_record(walk: Walk, site: str | None, folder: Path, now: str) -> Path:
    """Write the record into `folder` and return its path; raise `OSError` where that cannot be done."""
    text = record_markdown(walk, site)
    day = now[:10]
    for number in range(1, 1000):
        path = folder / (
            f"shorewalk-{walk.tree}-{day}.md" if number == 1 else f"shorewalk-{walk.tree}-{day}-{number}.md"
        )
        try:
            with path.open("x", encoding="utf-8") as file:
                file.write(text)
        except FileExistsError:
            continue
        return path.resolve()
    raise FileExistsError(f"there are too many records of {day} in {folder}")
