"""Handing over a walk that was left here, and taking one over from a file."""

from __future__ import annotations

from pathlib import Path

from shorewalk.handing import NotTaken, files_in, read_file, read_handed, take_over
from shorewalk.heard_words import NO_NAME, goes_back, is_ours, leaves
from shorewalk.journal import Keeper
from shorewalk.pages.left import walks_left
from shorewalk.reach import NOT_HERE
from shorewalk.tree.source import TreeError

from .again import reason
from .asides import hand_walk_over
from .files import folders, named, paths_may_be_typed
from .moving import GoTo
from .prompt import listed
from .session import Session
from .talk import Talk
from .voice import number_in

MOST_WALKS, MOST_FILES = 3, 6
NONE = "No walk was left unfinished here, and there is no file of one beside where shorewalk was started."
WHICH = "Type a number."
NAMED = "To take over from another file, type its name."


def hand_or_take(session: Session) -> None:
    """Offer to hand over a walk that was left here, or to take one over from a file."""
    voice = session.voice
    if not paths_may_be_typed():
        voice.say(NOT_HERE)
        return
    left = walks_left(session.journal, session.library, MOST_WALKS)
    files = [file for folder in folders()[:1] for file in files_in(folder)[:MOST_FILES]]
    says = [f"Hand over: {one.symptom.rstrip('.')}, {one.told}" for one in left]
    says += [f"Take over: {file.name}" for file in files]
    lines = [*listed(says), *([WHICH] if says else [NONE]), NAMED]
    voice.say(*lines, "Enter: back.", before="\n")
    while (typed := voice.listen()) and not (leaves(typed) or goes_back(typed)):
        number = number_in(typed)
        if number is not None and 1 <= number <= len(left):
            _hand_kept_over(session, left[number - 1].number)
            return
        if number is not None and len(left) < number <= len(says):
            take_file_over(session, files[number - 1 - len(left)])
            return
        if is_ours(typed):
            voice.say(f"{NO_NAME.format(typed=typed)} {NAMED} Enter: back.")
        elif number is None:
            take_file_over(session, named(typed))
            voice.say(f"Another file? {NAMED} Enter: back.")
        else:
            voice.say(f'"{typed}" is none of the numbers here. Enter: back.')


def _hand_kept_over(session: Session, number: int) -> None:
    journal = session.journal
    try:
        walk = journal.load(number)
    except (KeyError, TreeError) as error:
        session.voice.say(reason(error))
        return
    hand_walk_over(session, walk, Keeper(journal, number))


def take_file_over(session: Session, path: Path) -> None:
    """Take the walk in a file over and go to it, or say why not."""
    try:
        walk, keeper = take_over(read_handed(read_file(path)), session.journal)
    except (NotTaken, TreeError) as told:
        session.voice.say(f"Not taken over. {told}")
        return
    raise GoTo(Talk(walk, keeper, session=session).walk_through)
