"""Keeping where a walk is beside its answers."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from shorewalk.walk.walk import Walk
from shorewalk.walk.wording import bare

from .entry import SAID, Entry
from .where import Where, here, is_no_site, read_where, stay_at, told_in, walk_here, where_of

if TYPE_CHECKING:
    from .keeper import Keeper


URGENT = ("emergency", "unplug-now", "hands-off")
"""Verdicts that send somebody at once: to no place that nobody named in this walk."""


class Placing:
    """Where the walk of a keeper is: as it was kept or is said, else where the last walk was, if that was just now.

    `taken_from` is the walk in which the site was said, where that was not this one.
    """

    def __init__(self, keeper: Keeper, labels: Mapping[str, str | None] | None = None) -> None:
        self._keeper, self._where = keeper, Where(**labels) if labels else None
        self.taken_from: Entry | None = None
        self._said = bool(labels)
        if keeper.number is not None:
            self._where = self._kept(keeper.number)
        self._on_disk: tuple[int | None, Where, bool] = (keeper.number, self._where or Where(), False)

    @property
    def where(self) -> Where:
        """Where it is, as far as anybody said."""
        if self._where is None:
            others, now = self._others(), self._keeper.clock()
            self._where = here(others, now) or Where()
            if self._where.site:
                self.taken_from = told_in(others, self._where, now) or walk_here(others, now)
        return self._where

    def site_for(self, verdict: str | None) -> str | None:
        """Return the site for the message of an ending; None where that would send somebody to a place nobody meant."""
        site = self.where.site
        unsure = self.taken_from and verdict in URGENT
        return None if unsure or (site and is_no_site(site)) else site

    def typed(self, text: str) -> Where:
        """Take the site that somebody typed, and return it; raise `ValueError` with a sentence for what is none."""
        where = stay_at(self._others(), read_where(text), self._keeper.clock())
        self.say(where._replace(outlet=self.where.outlet))
        return self.where

    def say(self, where: Where) -> None:
        """Say where it is; a walk that is kept is found there from now on."""
        self._where, self.taken_from, self._said = where, None, True
        self._label()

    def copy_of(self, number: int) -> None:
        """Take the place of another walk: as said where it was said of that one, else as taken over there."""
        self.taken_from = None
        self._where = self._kept(number)
        self._said = self.taken_from is None

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
        now = (number, where, self._said)
        if number is not None and self._on_disk != now:
            if any(where) or any(self._on_disk[1]):
                self._keeper.journal.label(
                    number, **where._asdict(), **({"placed": SAID} if self._said else {})
                )
            self._on_disk = now

    def _kept(self, number: int) -> Where:
        entry = next((entry for entry in self._keeper.journal.walks() if entry.id == number), None)
        if entry is None:
            return Where()
        where = where_of(entry)
        if where.site and entry.placed is None:
            others = (other for other in self._others() if other.id != number)
            self.taken_from = told_in(others, where, entry.begun)
        return where
