"""Taking a walk over: its answers replayed in the trees that are here, and kept beside the walks that are here.

The walk may be here already: the same, behind or ahead. Where it goes on otherwise than the one here, both are kept,
each as a walk of its own; the new one gets a name that follows from what differs, so that the same file, or a later
one of that walk, finds it again.
"""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Iterator

from shorewalk.counted import counted
from shorewalk.journal import Entry, Journal, Keeper, ago, take_up
from shorewalk.journal.content import content_of
from shorewalk.journal.entry import HANDED, LABELS
from shorewalk.journal.taking_up import where_it_stopped
from shorewalk.journal.trouble import why
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.words import choose_from, quoted
from shorewalk.walk.answers import Answered
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import Walk, resume

from .handed import Handed, NotTaken
from .times import believed, clocks_differ, count_old
from .writing import plain_answer

SAME = "This walk is here already, with the same answers."
BEHIND = "This walk is here already, and further on than in the file."
AHEAD = "This walk was here already. It goes on with what was answered elsewhere."
NO_FURTHER = "This walk is here already. What the file adds does not fit the trees here: nothing was added."
APART = "The walk that is here goes on otherwise. Both are kept, each on its own."
OPEN = "This walk is open in another terminal here. Leave it there, then take the file over."
OTHER_TREES = "The trees here are not quite those of the other machine. Every answer still fits."
LOOK = "What came after counts for nothing here: see how breaker, cord and main stand before you go on."
CLOCKS = "The clock of the other machine is ahead of this one: all its readings count as old."


def take_over(handed: Handed, journal: Journal, library: Library | None = None) -> tuple[Walk, Keeper]:
    """Replay and keep a walk; return it as it stands here now, and what keeps it and says how it came.

    Raises `NotTaken` where it cannot be taken over; then nothing has changed.
    `library`: where its trees are, if they are not the shipped ones. What cannot be read there raises `TreeError`.
    """
    library = _library(handed, library)
    answers = believed(handed, journal.clock())
    number, said = _kept(handed, answers, library, journal)
    return take_up(journal, number, library, before=said)


def _library(handed: Handed, library: Library | None) -> Library:
    if handed.shipped and library is not None:
        raise NotTaken("This walk is in the trees that come with shorewalk: leave the folder out.")
    if not handed.shipped and library is None:
        raise NotTaken(
            f"This walk is in trees of somebody's own. Name the folder with the same tree {quoted(handed.tree)}: "
            "shorewalk take-over FILE --trees FOLDER"
        )
    library = library or shipped()
    if handed.tree not in library.names():
        raise NotTaken(
            f"There is no tree {quoted(handed.tree)} here.{choose_from(handed.tree, library.names())}"
        )
    return library


def _kept(
    handed: Handed, answers: tuple[Answered, ...], library: Library, journal: Journal
) -> tuple[int, list[str]]:
    """Keep what is new here of the walk; return its number, and how it stands to what was here."""
    name, said = handed.id, list[str]()
    theirs = [_bare(answered) for answered in answers]
    while entry := journal.entry_named(name):
        kept = journal.answers(entry.id)
        mine = [_bare(answered) for answered in kept]
        alike = next(
            (n for n, (one, other) in enumerate(zip(mine, theirs, strict=False)) if one != other), None
        )
        if alike is None and _of_one_kind(entry, handed):
            if len(mine) >= len(theirs):
                return entry.id, [SAME if len(mine) == len(theirs) else BEHIND]
            if journal.is_open_elsewhere(entry.id):
                raise NotTaken(OPEN)
            # The times of what both have are those of the clock here.
            answers, said = (*kept, *answers[len(kept) :]), [*said, AHEAD]
            break
        name, said = _named_apart(name, theirs[: (alike or 0) + 1]), [APART]
    walk, _ = resume(library, handed.tree, parse_meter(handed.meter), answers)
    if not walk.answers:
        raise NotTaken(f"Not one of its answers fits the tree {quoted(handed.tree)} that is here.")
    if entry and len(walk.answers) <= entry.answers:
        return entry.id, [NO_FURTHER, where_it_stopped(walk, [*answers])]
    said += _about(handed, walk, answers, journal.clock())
    labels = {label: getattr(handed, label) for label in LABELS if not (entry and getattr(entry, label))}
    labels |= {} if entry else {"placed": HANDED}
    try:
        return journal.take_in(walk, name, **labels), said
    except sqlite3.Error as error:
        raise NotTaken(f"{why(error, journal.folder)} The walk was not taken over.") from None


def _about(handed: Handed, walk: Walk, answers: tuple[Answered, ...], now: str) -> Iterator[str]:
    """Say how much was taken over, how old it is, and what does not fit."""
    fit = len(walk.answers)
    yield f"Taken over: {counted(fit, 'answer')}, the file written {ago(handed.written, now)}."
    if clocks_differ(handed, now):
        yield CLOCKS
    elif old := count_old(walk.answers):
        yield f"{old} of its readings say no time that can be: they count as old."
    if fit < len(answers):
        yield f"{where_it_stopped(walk, [*answers])} {LOOK}"
    elif handed.content and handed.content != content_of(walk):
        yield OTHER_TREES


def _of_one_kind(entry: Entry, handed: Handed) -> bool:
    return (entry.tree, entry.meter, entry.folder is None) == (handed.tree, handed.meter, handed.shipped)


def _bare(answered: Answered) -> str:
    """Return an answer without its times: on another machine these may be others."""
    return json.dumps(plain_answer(answered), sort_keys=True)


def _named_apart(name: str, theirs: list[str]) -> str:
    return hashlib.blake2b("\n".join((name, *theirs)).encode(), digest_size=16).hexdigest()
