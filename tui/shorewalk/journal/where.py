"""Where a walk was: park, site, outlet, and the day the stay began, as somebody put it.

It is asked for once in a stay. A walk that begins within a day of the last one is taken to be at the same place; that
it was asked and passed by is a day without a site.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime
from typing import TYPE_CHECKING, NamedTuple

from shorewalk.heard_words import is_ours
from shorewalk.seen import can_be_seen, first_unseen

from .ago import minutes_between
from .entry import HANDED, SAID

if TYPE_CHECKING:
    from .journal import Entry

DAY = 24 * 60
"""Minutes after which a place is not taken for granted any more, but offered."""
MONTH = 31 * DAY
"""Minutes after which a place is not even offered."""
LONGEST = 60
EXAMPLE = "14, Someday Flats"
CALLED_SO = "Is the site called so, then type its row or loop with it, as in row B."
GONE = ("leaving",)
"""Trees of those who are going: at their end nobody is there any more."""


class Where(NamedTuple):
    """Where and when. `visited` is the day the stay began (ISO 8601); all may be unknown."""

    park: str | None = None
    site: str | None = None
    outlet: str | None = None
    visited: str | None = None

    @property
    def says(self) -> str:
        """Return `site 14, Someday Flats`; nothing where no site was said."""
        return ", ".join([f"site {self.site}", *([self.park] if self.park else [])]) if self.site else ""


def read_where(text: str) -> Where:
    """Return the site, and the park after a comma; raise `ValueError` with a sentence for what cannot be one."""
    text = text.replace("\n", " ")
    if (at := first_unseen(text)) is not None:
        raise ValueError(
            f"The character U+{ord(text[at]):04X} cannot be seen or turns the text about. Leave it out."
        )
    site, _, park = (" ".join(text.split())).partition(",")
    site, park = site.strip(), park.strip()
    if not site:
        raise ValueError(f"Type the site, and the park after a comma: {EXAMPLE}")
    if is_no_site(site):
        raise ValueError(f'"{site}" is a word for shorewalk itself, and no site. {CALLED_SO}')
    for name in (site, park):
        if len(name) > LONGEST:
            raise ValueError(
                f"That is {len(name)} letters long; at most {LONGEST} are kept. Type it shorter."
            )
    return Where(park or None, site)


def is_no_site(name: str) -> bool:
    """Tell whether a name is a word for this program: no message sends somebody there."""
    return is_ours(name) or is_ours(name.casefold().removeprefix("site").strip())


def where_of(entry: Entry) -> Where:
    """Return where a kept walk was, as text that can be shown, whoever wrote it."""
    return Where(*(_seen(name) for name in (entry.park, entry.site, entry.outlet, entry.visited)))


def _seen(name: str | None) -> str | None:
    plain = "".join(letter if can_be_seen(letter) else " " for letter in name or "")
    return " ".join(plain.split())[: 2 * LONGEST] or None


def here(entries: Iterable[Entry], now: str) -> Where | None:
    """Return where the next walk is taken to be: `entries` are all walks, the latest first.

    None where nobody was asked within a day, or where they left since. A walk that came from another machine tells
    nothing: it was somebody else who was there.
    """
    return where_of(entry) if (entry := walk_here(entries, now)) else None


def walk_here(entries: Iterable[Entry], now: str) -> Entry | None:
    """Return the walk that `here` goes by."""
    for entry in entries:
        if minutes_between(entry.changed, now) >= DAY or entry.placed == HANDED:
            continue
        if _left(entry):
            return None
        if entry.visited:
            return entry
    return None


def told_in(entries: Iterable[Entry], where: Where, begun: str) -> Entry | None:
    """Return the walk before `begun` in which the site of this stay was said, else the first there, if any.

    `entries` are all other walks, the latest first.
    """
    there = [
        entry
        for entry in entries
        if entry.begun <= begun and entry.placed != HANDED and same_place(where_of(entry), where)
        if entry.visited == where.visited
    ]
    return next((entry for entry in there if entry.placed == SAID), there[-1] if there else None)


def last(entries: Iterable[Entry], now: str) -> Where | None:
    """Return the last site that was said within a month, to be offered."""
    recent = (entry for entry in entries if minutes_between(entry.changed, now) < MONTH)
    return next((where_of(entry) for entry in recent if entry.site), None)


def stay_at(entries: Iterable[Entry], where: Where, now: str) -> Where:
    """Return `where` with the day the stay began: that of a walk there within a day, else today."""
    for entry in entries:
        before = where_of(entry)
        if before.visited and same_place(before, where) and minutes_between(entry.changed, now) < DAY:
            return where._replace(visited=before.visited)
    return where._replace(visited=day_of(now))


def same_place(one: Where, other: Where) -> bool:
    """Tell whether two are one site of one park, however it was typed."""
    return _folded(one.site) == _folded(other.site) and _folded(one.park) == _folded(other.park)


def _folded(name: str | None) -> str:
    return (name or "").casefold()


def day_of(time: str) -> str | None:
    """Return the day of a time in UTC as clocks here show it; None where it cannot be read."""
    try:
        return datetime.fromisoformat(time).astimezone().date().isoformat()
    except ValueError:
        return None


def _left(entry: Entry) -> bool:
    return (
        entry.tree in GONE and bool(entry.ending) and "unplugged" in str((entry.ending or {}).get("verdict"))
    )
