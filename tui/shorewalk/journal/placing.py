"""Keeping where a walk is beside its answers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shorewalk.walk.walk import Walk
from shorewalk.walk.wording import bare

from .where import Where, here, where_of

if TYPE_CHECKING:
    from .keeper import Keeper


class Placing:
    """Where the walk of a keeper is: as it was kept or is said, else where the last walk was, if that was just now."""

    def __init__(self, keeper: Keeper) -> None:
        self._keeper, self._where = keeper, None if keeper.number is None else _kept(keeper, keeper.number)
        self._on_disk: tuple[int | None, Where] = (keeper.number, self._where or Where())

    @property
    def where(self) -> Where:
        """Where it is, as far as anybody said."""
        if self._where is None:
            journal, mine = self._keeper.journal, self._keeper.number
            others = (entry for entry in journal.walks() if entry.id != mine)
            self._where = here(others, self._keeper.clock()) or Where()
        return self._where

    def say(self, where: Where) -> None:
        """Say where it is; a walk that is kept is found there from now on."""
        self._where = where
        self._label()

    def keep(self, walk: Walk) -> None:
        """Keep where it is, and which outlet it turned out to be about."""
        place = walk.library.site.places.get(walk.now.outlet or "")
        if place:
            self._where = self.where._replace(outlet=bare(place.says))
        self._label()

    def _label(self) -> None:
        number, where = self._keeper.number, self.where
        if number is not None and self._on_disk != (number, where):
            if any(where) or any(self._on_disk[1]):
                self._keeper.journal.label(number, **where._asdict())
            self._on_disk = (number, where)


def _kept(keeper: Keeper, number: int) -> Where:
    return next((where_of(entry) for entry in keeper.journal.walks() if entry.id == number), Where())
