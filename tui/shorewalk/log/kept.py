"""A kept walk with its readings, taken from the answers anew."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

from shorewalk.journal import Entry, Journal, Keeper
from shorewalk.journal.journal import library_of
from shorewalk.journal.where import where_of
from shorewalk.tree.source import TreeError
from shorewalk.walk.answers import Answered
from shorewalk.walk.ending import ending
from shorewalk.walk.known import Known
from shorewalk.walk.walk import Walk
from shorewalk.walk.wording import BREAKER_OFF, LOAD_ON


@dataclass(frozen=True, slots=True)
class Reading:
    """A reading in force. `about` is what it is about, its load aside; `time` is ISO 8601 in UTC."""

    about: str
    loaded: bool
    dead: bool  # read with the breaker off
    time: str
    known: Known


class Kept:
    """A walk of the journal. What is in its answers is worked out when it is asked for."""

    def __init__(self, journal: Journal, entry: Entry) -> None:
        self.entry, self.where = entry, where_of(entry)
        self._journal = journal

    @cached_property
    def walk(self) -> Walk | None:
        """The walk; None where its trees cannot be read any more."""
        try:
            return self._journal.load(self.entry.id)
        except (TreeError, KeyError, ValueError):  # ValueError: a meter that is none
            return None

    @property
    def answers(self) -> list[Answered]:
        """Its answers as they are kept, whatever the trees are now; up to the first that cannot be read."""
        return self._journal.answers(self.entry.id)

    @cached_property
    def readings(self) -> tuple[Reading, ...]:
        """The readings in force."""
        return readings_of(self.walk, self.entry.changed) if self.walk else ()

    @cached_property
    def symptom(self) -> str:
        """What it was about, in words."""
        try:
            return library_of(self.entry).header(self.entry.tree).symptom or self.entry.tree
        except (TreeError, KeyError):
            return self.entry.tree

    @property
    def site(self) -> str | None:
        """The site for its message and its record, as `Placing.site_for`."""
        walk = self.walk
        verdict = ending(walk).verdict if walk and walk.ended else None
        return Keeper(self._journal, self.entry.id).placing.site_for(verdict)

    @property
    def whole(self) -> bool:
        """Whether every answer is still understood; the trees may have changed since."""
        return self.walk is not None and len(self.walk.answers) == self.entry.answers


def kept_walks(journal: Journal, entries: Iterable[Entry] | None = None) -> list[Kept]:
    """Return walks, by default all, the one answered last first."""
    return [Kept(journal, entry) for entry in (journal.walks() if entries is None else entries)]


def readings_of(walk: Walk, changed: str) -> tuple[Reading, ...]:
    """Return the readings of a walk that still count, in the order taken; without a time of its own, of `changed`."""
    return tuple(
        Reading(
            about=known.says.removesuffix(f", {LOAD_ON}").removesuffix(f", {BREAKER_OFF}"),
            loaded=known.load not in (None, "none"),
            dead=known.says.endswith(f", {BREAKER_OFF}"),
            time=known.time or changed,
            known=known,
        )
        for known in walk.now.known
        if known.place and known.value is not None and not known.void
    )
