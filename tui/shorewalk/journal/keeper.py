"""Keeping one walk while it is walked."""

from __future__ import annotations

from collections.abc import Callable

from shorewalk.walk.walk import Walk

from .journal import Journal


class Keeper:
    """Puts a walk on disk after every answer, from the first one on: what nobody answered is not kept."""

    def __init__(self, journal: Journal, number: int | None = None) -> None:
        self.journal, self.number = journal, number
        self._told: str | None = None

    @property
    def clock(self) -> Callable[[], str]:
        return self.journal.clock

    def keep(self, walk: Walk) -> None:
        """Put the walk on disk as it is now, with its ending if it has one."""
        if self.number is None:
            self.number = self.journal.begin(walk)
        elif not walk.ended:
            self.journal.keep(self.number, walk)
        if walk.ended:
            self.journal.finish(self.number, walk)

    def news(self) -> str | None:
        """Return why walks are not kept on disk, once."""
        news = self.journal.problem if self.journal.problem != self._told else None
        self._told = self.journal.problem
        return news

    def how_to_go_on(self, *options: str) -> str | None:
        """Return the command that takes up this walk again; None if it is not kept."""
        if self.number is None or self.journal.problem:
            return None
        command = " ".join(("shorewalk walk --resume", str(self.number), *options))
        return f"This walk is kept. To go on with it: {command}"
