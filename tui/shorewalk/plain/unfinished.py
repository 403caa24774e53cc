"""Offering to go on with a walk that was left."""

from __future__ import annotations

from shorewalk.counted import counted
from shorewalk.exits import Exit
from shorewalk.heard_words import goes_back, leaves
from shorewalk.journal import Entry, Keeper, ago, folder_of, minutes_between, take_up
from shorewalk.walk.walk import Walk

from .leaving import leave
from .prompt import Prompt
from .session import Session
from .voice import Gone, number_in

FRESH = 15
"""Minutes after which readings of an outlet should be taken again."""

OLD = (
    f"Readings grow old in {FRESH} minutes, and others may have been at the pedestal: better afresh. "
    "Going on, the empty slots are read again before the power comes on."
)
WHICH = "Type 1 or 2. Not sure? 2: what was left stays kept. start: all that can be begun. q: leave."
CLOCK_BACK = "The clock was set back since, so readings count as too old: better afresh."


def offer(session: Session, walk: Walk, keeper: Keeper) -> tuple[Walk, Keeper]:
    """Offer the walk of the same tree that was left last; return it, or the new one, with its keeper."""
    voice, journal, now = session.voice, keeper.journal, keeper.clock()
    ours = (walk.tree, folder_of(walk))
    left = next((entry for entry in journal.unfinished() if (entry.tree, entry.folder) == ours), None)
    if left is None or not left.answers:
        return walk, keeper
    count = counted(left.answers, "answer")
    elsewhere = ", open in another terminal" if journal.is_open_elsewhere(left.id) else ""
    lines = [
        "A walk of this was left unfinished:",
        f"  1. Go on with it ({count}, left {ago(left.changed, now)}{elsewhere})",
        "  2. Begin afresh",
        *how_old(left, now),
    ]
    try:
        if not _goes_on(session, lines):
            return walk, keeper
    except (Gone, KeyboardInterrupt):
        there = Keeper(journal, left.id)
        voice.say(there.how_to_go_on("--plain") or there.goodbye, before="\n")
        raise Gone(Exit.UNFINISHED) from None
    try:
        return take_up(journal, left.id, walk.library)
    except KeyError as damaged:
        voice.say(f"{damaged.args[-1]} This is begun afresh.")
        return walk, keeper


def _goes_on(session: Session, lines: list[str]) -> bool:
    """Ask until it is one or the other; who leaves or goes to the start leaves what was left as it is."""
    voice = session.voice
    voice.say(*lines, WHICH)
    while True:
        typed = voice.listen()
        number = number_in(typed)
        if number in (1, 2):
            return number == 1
        if leaves(typed):
            leave(session)
        elif goes_back(typed):
            Prompt(session).to_start()
        voice.say(*lines[1:3], WHICH)


def how_old(left: Entry, now: str) -> list[str]:
    """Return what has to be said of readings that are old, or may be."""
    minutes = minutes_between(left.changed, now)
    return [CLOCK_BACK] if minutes < 0 else [OLD] if minutes >= FRESH else []
