"""Offering to go on with a walk that was left."""

from __future__ import annotations

from shorewalk.counted import counted
from shorewalk.journal import Entry, Keeper, ago, folder_of, minutes_between, take_up
from shorewalk.walk.walk import Walk

from .voice import Voice

FRESH = 15
"""Minutes after which readings of an outlet should be taken again."""

OLD = (
    f"Readings grow old in {FRESH} minutes, and others may have been at the pedestal: better afresh. "
    "Going on, the empty slots are read again before the power comes on."
)
CLOCK_BACK = "The clock was set back since, so readings count as too old: better afresh."


def offer(voice: Voice, walk: Walk, keeper: Keeper) -> tuple[Walk, Keeper]:
    """Offer the walk of the same tree that was left last; return it, or the new one, with its keeper."""
    journal, now = keeper.journal, keeper.clock()
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
    if voice.choose(lines, 2) != 1:
        return walk, keeper
    try:
        return take_up(journal, left.id, walk.library)
    except KeyError as damaged:
        voice.say(f"{damaged.args[-1]} This is begun afresh.")
        return walk, keeper


def how_old(left: Entry, now: str) -> list[str]:
    """Return what has to be said of readings that are old, or may be."""
    minutes = minutes_between(left.changed, now)
    return [CLOCK_BACK] if minutes < 0 else [OLD] if minutes >= FRESH else []
