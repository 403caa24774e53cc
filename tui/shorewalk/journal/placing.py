"""Keeping where a walk is beside its answers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from shorewalk.walk.walk import Walk
from shorewalk.walk.wording import bare

from .entry import Entry
from .where import Where, here, read_where, stay_at, where_of

if TYPE_CHECKING:
    from .keeper import Keeper


class Placing:
    """Where the walk of a keeper is: as it was kept or is said, else where the last walk was, if that was just now."""

    def __init__(self, keeper: Keeper, labels: Mapping[str, str | None] | None = None) -> None:
        self._keeper, self._where = keeper, Where(**labels) if labels else None
        if keeper.number is not None:
            self._where = _kept(keeper, keeper.number)
        self._on_disk: tuple[int | None, Where] = (keeper.number, self._where or Where())

    @property
    def where(self) -> Where:
        """Where it is, as far as anybody said."""
        if self._where is None:
            self._where = here(self._others(), self._keeper.clock()) or Where()
        return self._where

    def typed(self, text: str) -> Where:
        """Take the site that somebody typed, and return it; raise `ValueError` with a sentence for what is none."""
        where = stay_at(self._others(), read_where(text), self._keeper.clock())
        self.say(where._replace(outlet=self.where.outlet))
        return self.where

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

    def _others(self) -> list[Entry]:
        return [entry for entry in self._keeper.journal.walks() if entry.id != self._keeper.number]

    def _label(self) -> None:
        number, where = self._keeper.number, self.where
        if number is not None and self._on_disk != (number, where):
            if any(where) or any(self._on_disk[1]):
                self._keeper.journal.label(number, **where._asdict())
            self._on_disk = (number, where)


def _kept(keeper: Keeper, number: int) -> Where:
    return next((where_of(entry) for entry in keeper.journal.walks() if entry.id == number), Where())
