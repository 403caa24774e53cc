"""Offering to go on with a walk that was left."""

from __future__ import annotations

from shorewalk.journal import Keeper, ago, folder_of, minutes_between
from shorewalk.walk.walk import Walk

from .voice import Voice

FRESH = 15
"""Minutes after which readings of an outlet should be taken again."""


def offer(voice: Voice, walk: Walk, keeper: Keeper) -> tuple[Walk, Keeper]:
    """Offer the walk of the same tree that was left last; return it, or the new one, with its keeper."""
    journal, now = keeper.journal, keeper.clock()
    ours = (walk.tree, folder_of(walk))
    left = next((entry for entry in journal.unfinished() if (entry.tree, entry.folder) == ours), None)
    if left is None or not left.answers:
        return walk, keeper
    count = "1 answer" if left.answers == 1 else f"{left.answers} answers"
    lines = [
        "A walk of this was left unfinished:",
        f"  1. Go on with it ({count}, left {ago(left.changed, now)})",
    ]
    lines += ["  2. Begin afresh"]
    if minutes_between(left.changed, now) >= FRESH:
        lines += [
            f"Readings grow old in {FRESH} minutes, and others may have been at the pedestal: better afresh."
        ]
    if voice.choose(lines, 2) == 1:
        return journal.load(left.id, walk.library), Keeper(journal, left.id)
    return walk, keeper
