"""Handing walks over and taking them over, from the command line."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from .exits import Exit
from .starting import Usage, narrate
from .tree.library import Library
from .walking import draws_nothing, on_a_terminal, open_walk

if TYPE_CHECKING:
    from .journal import Keeper
    from .walk.walk import Walk

LAST = "last"
"""Named for a number: the walk that was left last."""
STREAM = "-"
"""Named for a file: what comes in, or goes out."""


class Taking(NamedTuple):
    """What was typed of a file to take over: where its trees are, if they are somebody's own; how to go on."""

    file: str
    trees: Path | None = None
    plain: bool = False
    aloud: bool = False
    only: bool = False


def hand_over_walk(number: str, file: str | None, tell: Callable[[str], object]) -> int:
    """Write the walk of this number, or the last one left, to a new file; `-` is the output."""
    from .handing import NothingToHandOver, hand_over, handed_text, what_to_do
    from .saving import write_new

    walk, keeper = _kept(number)
    try:
        if file is None:
            path = hand_over(walk, keeper, Path.cwd())
        else:
            text = handed_text(walk, keeper)
            if file == STREAM:
                tell(text.rstrip("\n"))
                return Exit.CLEAN
            path = Path(file)
            write_new(path, text.encode())
    except NothingToHandOver as nothing:
        raise Usage(str(nothing)) from None
    except FileExistsError:
        raise Usage(f'There is a file "{file}" already. Name another one; nothing is written over.') from None
    for line in what_to_do(walk, keeper, str(path)):
        tell(line)
    return Exit.CLEAN


def _kept(number: str) -> tuple[Walk, Keeper]:
    """Return a kept walk as it was left; another terminal may have it open meanwhile."""
    from .journal import Journal, Keeper, NoSuchWalk

    journal = Journal.open()
    left = journal.unfinished() if number == LAST else []
    try:
        found = left[0].id if left else int(number)
        return journal.load(found), Keeper(journal, found)
    except (ValueError, OverflowError, NoSuchWalk):
        problem = f"{journal.problem} " if journal.problem else ""
        raise Usage(f'{problem}There is no walk "{number}". Those that are kept: shorewalk log') from None
    except KeyError as error:  # its tree is gone
        raise Usage(str(error.args[-1])) from None


def take_over_file(taking: Taking, tell: Callable[[str], object]) -> int:
    """Take the walk in a file over and go on with it; where nobody is there to go on, say how to."""
    from .handing import NotTaken, read_file, read_handed, take_over
    from .handing.handed import LARGEST
    from .journal import Journal

    if taking.trees is not None and not taking.trees.is_dir():
        raise Usage(f'There is no folder "{taking.trees}".')
    journal = Journal.open()
    if journal.problem:
        narrate(journal.problem)
    try:
        streamed = taking.file == STREAM
        data = sys.stdin.buffer.read(LARGEST + 1) if streamed else read_file(Path(taking.file))
        library = None if taking.trees is None else Library(taking.trees)
        walk, keeper = take_over(read_handed(data), journal, library)
    except NotTaken as reason:
        narrate(f"Not taken over. {reason}")
        return Exit.UNFINISHED
    if taking.only or streamed or not (taking.plain or on_a_terminal()):
        for line in (keeper.news(), keeper.how_to_go_on()):
            if line:
                tell(line)
        return Exit.CLEAN
    return open_walk(walk, keeper, plain=taking.plain or draws_nothing(), aloud=taking.aloud)
