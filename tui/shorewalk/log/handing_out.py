"""What goes out of a kept walk: the message for the park, the record for the electrician, the record as a PDF."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from shorewalk.ruling import Ruling
from shorewalk.saving import write_new
from shorewalk.starting import Usage
from shorewalk.walk.message import park_message, record_markdown, record_pdf
from shorewalk.walk.walk import Walk

from .kept import Kept
from .times import local


def message_of(kept: Kept, to: str, now: str) -> str:
    """Return the message of a walk to `park` or `electrician`; raise `Usage` of one that has no end."""
    walk, where = _walk_of(kept), kept.where
    if to == "park":
        if (
            not walk.ended and kept.entry.ending
        ):  # the trees have changed since; it stands as it was told then
            return f"{kept.entry.ending.get('say', '')}\n"
        if not walk.ended:
            raise Usage(
                f"Walk {kept.entry.id} is not finished. Go on: shorewalk walk --resume {kept.entry.id}"
            )
        return park_message(walk, kept.site).rstrip("\n") + "\n"
    zone = _clock(now).tzinfo or UTC
    return record_markdown(walk, kept.site, where.park, zone=zone, also=Ruling().also(walk))


def write_pdf(kept: Kept, path: Path, now: str) -> Path:
    """Write the record of a walk as a PDF and return where; raise `Usage` where that cannot be done."""
    walk, where = _walk_of(kept), kept.where
    data = record_pdf(walk, kept.site, where.park, made=_clock(now), also=Ruling().also(walk))
    try:
        write_new(path, data)
    except FileExistsError:
        raise Usage(f"There is a file {path} already; nothing is written over. Take another name.") from None
    except OSError as error:
        raise Usage(f"{path} cannot be written: {error.strerror or error}.") from None
    return path.resolve()


def _clock(now: str) -> datetime:
    return local(now) or datetime.now(UTC).astimezone()


def _walk_of(kept: Kept) -> Walk:
    if kept.walk is None:
        raise Usage(f"The tree of walk {kept.entry.id} cannot be read any more, so there is no record of it.")
    return kept.walk
