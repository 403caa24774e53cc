"""A kept walk with its readings, taken from the answers anew."""

from __future__ import annotations

from dataclasses import dataclass

from shorewalk.journal import Entry, Journal, NoSuchWalk
from shorewalk.journal.where import Where, where_of
from shorewalk.tree.source import TreeError
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


@dataclass(frozen=True, slots=True)
class Kept:
    """A walk of the journal. `walk` is None where its trees cannot be read any more; then it has no readings."""

    entry: Entry
    where: Where
    walk: Walk | None
    readings: tuple[Reading, ...]
    symptom: str

    @property
    def whole(self) -> bool:
        """Whether every answer is still understood; the trees may have changed since."""
        return self.walk is not None and len(self.walk.answers) == self.entry.answers


def kept_walks(journal: Journal, entries: list[Entry] | None = None) -> list[Kept]:
    """Return walks with their readings, by default all, the one answered last first."""
    return [kept(journal, entry) for entry in (journal.walks() if entries is None else entries)]


def kept(journal: Journal, entry: Entry) -> Kept:
    """Return one walk with its readings."""
    try:
        walk = journal.load(entry.id)
    except (TreeError, NoSuchWalk, KeyError, ValueError):  # ValueError: a meter that is none
        return Kept(entry, where_of(entry), None, (), entry.tree)
    symptom = walk.library.tree(entry.tree).symptom or entry.tree
    return Kept(entry, where_of(entry), walk, readings_of(walk, entry.changed), symptom)


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
