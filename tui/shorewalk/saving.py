"""Saving the record of a walk, as text and as a page to print, each a file of its own; nothing is written over."""

from __future__ import annotations

from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

from .reach import reach
from .ruling import Also, Ruling
from .walk.record import record_markdown, record_pdf
from .walk.walk import Walk

MOST = 1000


def save_record(
    walk: Walk, site: str | None, folder: Path, now: str, park: str | None = None, *, also: Also = None
) -> Path:
    """Write the record into `folder` and return its path; raise `OSError` where that cannot be done."""
    text = record_markdown(walk, site, park, zone=_clock(now).tzinfo or UTC, also=_or_worked_out(also, walk))
    return write_beside(folder, f"shorewalk-{walk.tree}-{now[:10]}", ".md", text)


def save_page(
    walk: Walk, site: str | None, beside: Path, now: str, park: str | None = None, *, also: Also = None
) -> Path:
    """Write the record to print beside the one in text, by the same name; raise `OSError` where it cannot be.

    It takes a second or more on a small computer.
    """
    page = record_pdf(walk, site, park, made=_clock(now), also=_or_worked_out(also, walk))
    return write_beside(beside.parent, beside.stem, ".pdf", page)


def _or_worked_out(also: Also, walk: Walk) -> tuple[str, ...]:
    return Ruling().also(walk) if also is None else also


def write_beside(folder: Path, name: str, ending: str, content: str | bytes) -> Path:
    """Write a new file; where one of that name is there, it gets a number. Raise `OSError` where it cannot be."""
    data = content.encode() if isinstance(content, str) else content
    for number in range(1, MOST):
        path = folder / (f"{name}{ending}" if number == 1 else f"{name}-{number}{ending}")
        try:
            write_new(path, data)
        except FileExistsError:
            continue
        return path.resolve()
    raise FileExistsError(f"there are too many files called {name} in {folder}")


def write_new(path: Path, data: bytes) -> None:
    """Write a new file with all of `data`, or leave none: half of a record looks like one. Raise `OSError`."""
    reach().refuse_more(len(data))
    with path.open("xb") as file:
        try:
            file.write(data)
            file.flush()
        except OSError:
            with suppress(OSError):
                path.unlink()
            raise


def _clock(now: str) -> datetime:
    """Return a time as clocks here show it; the present one where it cannot be read."""
    try:
        return datetime.fromisoformat(now).astimezone()
    except ValueError:
        return datetime.now(UTC).astimezone()
