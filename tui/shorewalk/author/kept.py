"""The walk of a preview: kept while the file is written, and told of when it is taken up in another version of it."""

from __future__ import annotations

from shorewalk.journal import Journal, Keeper
from shorewalk.walk.walk import Walk


class Kept(Keeper):
    """Keeps the walk of a preview for as long as the preview lasts: nobody wants it on disk."""

    def __init__(self, journal: Journal, node: str) -> None:
        super().__init__(journal)
        self.node = node
        self.walk: Walk | None = None
        self.says: str | None = None

    def keep(self, walk: Walk) -> None:
        self.walk = walk

    def news(self, _offer: str = "") -> str | None:
        says, self.says = self.says, None
        return says


def taken_up(walk: Walk, lost: int) -> str:
    """Return what to say of a walk whose file was saved: how many answers fit, and where the first did not."""
    count = len(walk.answers)
    if not lost:
        return "Read again; every answer fits." if count else "Read again."
    fit = f"{count - lost} of {count} answers fit"
    return f"Read again; {fit}. The first that does not was given at {walk.answers[count - lost].at}."
