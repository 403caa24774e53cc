"""Handing a walk over: a new file, and what to do with it."""

from __future__ import annotations

import shlex
from collections.abc import Iterator
from pathlib import Path

from shorewalk.counted import counted
from shorewalk.journal import Entry, Keeper
from shorewalk.reach import FETCH, reach
from shorewalk.saving import write_beside
from shorewalk.walk.walk import Walk

from .handed import ENDING, Handed, NotTaken
from .reading import read_handed
from .writing import text_of

TAKE_OVER = "shorewalk take-over"
ONE_PLACE = "Go on in one place only: two who answer it get two walks."
GROWS_OLD = "Readings grow old: what is too old is asked anew."


class NothingToHandOver(Exception):  # noqa: N818 (said to a person, not an error of the program)
    """There is no walk yet that somebody else could take over; the sentence says what to do."""


def handed_text(walk: Walk, keeper: Keeper) -> str:
    """Return the text that hands this walk over; raise `NothingToHandOver`."""
    if keeper.number is None or not walk.answers:
        raise NothingToHandOver("Nothing of this walk is kept yet: there is nothing to hand over.")
    text = text_of(_handed(walk, keeper.journal.entry(keeper.number), keeper.clock()))
    try:
        read_handed(text.encode())  # what nobody could take over is not handed over
    except NotTaken as reason:
        raise NothingToHandOver(f"This walk cannot be handed over. {reason}") from None
    return text


def hand_over(walk: Walk, keeper: Keeper, folder: Path) -> Path:
    """Write a new file into `folder` and return its path; raise `OSError` or `NothingToHandOver`."""
    text = handed_text(walk, keeper)
    return write_beside(folder, f"{walk.tree}-{keeper.clock()[:10]}", ENDING, text)


def files_in(folder: Path) -> list[Path]:
    """Return the files in a folder that hand a walk over, by their names, the latest first."""
    try:
        found = [(path.stat().st_mtime, path) for path in folder.glob(f"*{ENDING}") if path.is_file()]
    except OSError:
        return []
    return [path for _, path in sorted(found, reverse=True)]


def what_to_do(walk: Walk, keeper: Keeper, file: str) -> Iterator[str]:
    """Yield what to say of a walk that was handed over in `file`."""
    own = _own(keeper)
    guarded = reach().guarded
    name = Path(file).name if guarded else file
    yield f"The walk, {counted(len(walk.answers), 'answer')}, is in {name}{f'. {FETCH}' if guarded else ''}"
    command = f"{TAKE_OVER} {shlex.quote(Path(file).name)}{' --trees FOLDER' if own else ''}"
    yield f"On another machine, with the file there: {command}"
    if own:
        yield f"It is in trees of your own. FOLDER holds the same trees there as {own} does here."
    if (how := keeper.how_to_go_on()) and not guarded:
        yield f"In another terminal here, without a file: {how.partition(': ')[2]}"
    yield f"{ONE_PLACE} {GROWS_OLD}"


def _own(keeper: Keeper) -> str | None:
    return None if keeper.number is None else keeper.journal.entry(keeper.number).folder


def _handed(walk: Walk, entry: Entry, now: str) -> Handed:
    return Handed(
        id=entry.uuid,
        tree=walk.tree,
        shipped=entry.folder is None,
        meter=entry.meter,
        written=now,
        answers=walk.answers,
        content=entry.content,
        park=entry.park,
        site=entry.site,
        outlet=entry.outlet,
        visited=entry.visited,
    )
