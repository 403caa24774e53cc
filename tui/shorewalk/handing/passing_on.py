"""Handing a walk over: a new file, and what to do with it."""

from __future__ import annotations

import shlex
from collections.abc import Iterator
from pathlib import Path

from shorewalk.journal import Entry, Keeper
from shorewalk.saving import write_beside
from shorewalk.walk.walk import Walk

from .handed import ENDING, Handed, NotTaken
from .reading import read_handed
from .writing import text_of

TAKE_OVER = "shorewalk take-over"
ONE_PLACE = "Go on in one place only: two who answer the same walk get two walks."
GROWS_OLD = "Readings grow old meanwhile: what is too old then is asked anew."


class NothingToHandOver(Exception):  # noqa: N818 (said to a person, not an error of the program)
    """There is no walk yet that somebody else could take over; the sentence says what to do."""


def handed_text(walk: Walk, keeper: Keeper) -> str:
    """Return the text that hands this walk over; raise `NothingToHandOver`."""
    if keeper.number is None or not walk.answers:
        raise NothingToHandOver("Nothing is answered here yet: there is nothing to hand over.")
    text = text_of(_handed(walk, keeper.journal.entry(keeper.number), keeper.clock()))
    try:
        read_handed(text.encode())  # what nobody could take over is not handed over
    except NotTaken as reason:
        raise NothingToHandOver(f"This walk cannot be handed over. {reason}") from None
    return text


def hand_over(walk: Walk, keeper: Keeper, folder: Path) -> Path:
    """Write a new file into `folder` and return its path; raise `OSError` or `NothingToHandOver`."""
    text = handed_text(walk, keeper)
    return write_beside(folder, f"shorewalk-{walk.tree}-{keeper.clock()[:10]}", ENDING, text)


def what_to_do(walk: Walk, keeper: Keeper, file: str) -> Iterator[str]:
    """Yield what to say of a walk that was handed over in `file`."""
    count = "1 answer" if len(walk.answers) == 1 else f"{len(walk.answers)} answers"
    own = _own(keeper)
    yield f"The walk, {count}, is in {file}"
    yield "On another machine: bring the file there, then type"
    yield f"  {TAKE_OVER} {shlex.quote(Path(file).name)}{' --trees FOLDER' if own else ''}"
    if own:
        yield f"It is in trees of your own. FOLDER holds the same trees there as {own} does here."
    if how := keeper.how_to_go_on():
        yield "In another terminal of this machine no file is needed:"
        yield f"  {how.partition(': ')[2]}"
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
