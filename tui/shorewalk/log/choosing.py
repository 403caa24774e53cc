"""Which walks are meant: a site, a park, one walk by its number, or all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shorewalk.journal import Entry
from shorewalk.journal.where import where_of
from shorewalk.starting import Usage

SITE, WALK, LAST = "site:", "walk:", "last"


@dataclass(frozen=True, slots=True)
class Chosen:
    """Walks, the latest first, and what they are in words. `single`: a walk was named; `also` what else it may be."""

    entries: tuple[Entry, ...]
    says: str
    single: bool = False
    also: str = ""


def choose(words: str, entries: Sequence[Entry], *, sure: bool = False) -> Chosen:
    """Return the walks that `words` name; raise `Usage` where that is none.

    A number may be a site's or a walk's: a site's comes first, and `also` says how to name the walk. With `sure`
    both are refused.
    """
    kind, name = next(
        ((kind, words.removeprefix(kind)) for kind in (SITE, WALK) if words.startswith(kind)), ("", words)
    )
    there = () if kind == WALK else _at_site(name.strip(), entries)
    walk = None if kind == SITE else _walk(name, entries)
    if there and walk:
        if sure:
            raise Usage(f'"{words}" is a site and a walk. Say which: {SITE}{words} or {WALK}{words}')
        return Chosen(
            there, _site_says(there), also=f"Walk {walk.id} by its number: shorewalk log {WALK}{walk.id}"
        )
    if there:
        return Chosen(there, _site_says(there))
    if walk:
        return Chosen((walk,), f"walk {walk.id}", single=True)
    raise Usage(f'There is no site and no walk "{words}". {known(entries)}')


def one_walk(words: str, entries: Sequence[Entry]) -> Entry:
    """Return the one walk that is named by its number, or `last`; raise `Usage` where there is none."""
    walk = _walk(words.removeprefix(WALK), entries)
    if walk:
        return walk
    raise Usage(f'There is no walk "{words}"; a walk is named by its number. {known(entries)}')


def _walk(name: str, entries: Sequence[Entry]) -> Entry | None:
    """Return the walk of this number, or the latest for `last`."""
    name = name.strip()
    if name == LAST:
        return next(iter(entries), None)
    return next((entry for entry in entries if str(entry.id) == name), None)


def known(entries: Sequence[Entry]) -> str:
    """Return which sites and walks there are."""
    if not entries:
        return "No walk is kept yet."
    sites = list(dict.fromkeys(says for entry in entries if (says := where_of(entry).says)))
    numbers = sorted(entry.id for entry in entries)
    walks = f"walk {numbers[0]}" if len(numbers) == 1 else f"walks {numbers[0]} to {numbers[-1]}"
    return f"There are: {'; '.join([*sites[:5], walks])}. All of them: shorewalk log"


def _at_site(words: str, entries: Sequence[Entry]) -> tuple[Entry, ...]:
    """Return the walks of a stay, by its first day; those at a site, with its park or not; or those in a park."""
    wanted = _folded(words)
    placed = [(entry, where_of(entry)) for entry in entries]
    placed = [(entry, where) for entry, where in placed if where.site]
    by_day = [entry for entry in entries if entry.visited and entry.visited == words]
    by_site = by_day or [
        entry
        for entry, where in placed
        if wanted in map(_folded, (where.site or "", where.says, f"{where.park} {where.site}"))
    ]
    return tuple(
        by_site or [entry for entry, where in placed if where.park and _folded(where.park) == wanted]
    )


def _site_says(entries: Sequence[Entry]) -> str:
    return "; ".join(dict.fromkeys(where_of(entry).says or "no site" for entry in entries))


def _folded(text: str) -> str:
    return " ".join(text.casefold().replace(",", " ").split()).removeprefix("site ")
