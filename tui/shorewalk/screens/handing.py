"""Handing a walk over to another machine, and taking one over from a file."""

from __future__ import annotations

from os.path import expanduser
from pathlib import Path
from typing import TYPE_CHECKING

from shorewalk.handing import (
    NothingToHandOver,
    NotTaken,
    files_in,
    hand_over,
    read_file,
    read_handed,
    take_over,
    what_to_do,
)
from shorewalk.heard_words import NO_NAME, goes_back, is_ours, leaves
from shorewalk.journal import Keeper
from shorewalk.reach import NOT_HERE, reach
from shorewalk.tree.source import TreeError

from .base import PageScreen
from .choose import ChooseScreen

if TYPE_CHECKING:
    from shorewalk.walk.walk import Walk

    from .program import Program

LEAVE = 1
BACK = (0, "Back to where I was")
MOST_WALKS, MOST_FILES = 3, 6
WHICH = "Another walk's file: type its name, then Enter."
NONE = "No walk was left unfinished here, and there is no file of one beside where shorewalk was started."


def hand_walk_over(app: Program, walk: Walk, keeper: Keeper) -> None:
    """Write a file with this walk, and say what to do with it."""
    try:
        path = hand_over(walk, keeper, app.folder)
    except NothingToHandOver as nothing:
        _tell(app, str(nothing), "note")
        return
    except OSError as error:
        where = "" if reach().guarded else f" in {app.folder}"
        _tell(app, f"The walk could not be saved{where}: {error.strerror or error}.", "error")
        return
    text = tuple(what_to_do(walk, keeper, str(path)))
    items = ((LEAVE, "Leave shorewalk"), BACK)
    app.push_screen(
        ChooseScreen("Handed over", text, items), lambda said: app.leave() if said == LEAVE else None
    )


def hand_or_take(app: Program) -> None:
    """Offer to hand over a walk that was left here, or to take one over from a file."""
    if reach().guarded:
        _tell(app, NOT_HERE, "note")
        return
    left = app.left_unfinished(MOST_WALKS)
    files = files_in(app.folder)[:MOST_FILES]
    says = [f"Hand over: {one.symptom} ({one.told})" for one in left]
    says += [f"Take over: {path.name}" for path in files]
    items = (*enumerate(says, 1), BACK)

    def decided(said: int | str | None) -> None:
        if isinstance(said, str) and is_ours(said):
            if not (leaves(said) or goes_back(said)):
                _tell(app, NO_NAME.format(typed=said), "error")
        elif isinstance(said, str):
            take_file_over(app, app.folder / expanduser(said))  # noqa: PTH111 (Path's own raises for ~nobody)
        elif said and said <= len(left):
            _hand_kept_over(app, left[said - 1].number)
        elif said:
            take_file_over(app, files[said - 1 - len(left)])

    text = (WHICH,) if says else (NONE, WHICH)
    app.push_screen(ChooseScreen("Hand a walk over, or take one over?", text, items, other=True), decided)


def _hand_kept_over(app: Program, number: int) -> None:
    try:
        walk = app.journal.load(number)
    except (KeyError, TreeError) as error:
        _tell(app, str(error.args[-1] if isinstance(error, KeyError) else error), "error")
        return
    hand_walk_over(app, walk, Keeper(app.journal, number))


def take_file_over(app: Program, path: Path) -> None:
    """Take the walk in a file over and show it, or say why not."""
    try:
        walk, keeper = take_over(read_handed(read_file(path)), app.journal)
    except (NotTaken, TreeError) as reason:
        _tell(app, str(reason), "error")
        return
    app.show_walk(walk, keeper)


def _tell(app: Program, text: str, role: str) -> None:
    if isinstance(app.screen, PageScreen):
        app.screen.tell(text, role)
