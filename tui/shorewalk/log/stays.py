"""Walks by the site they were at, and by the stay: one visit there."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from shorewalk.journal.where import Where

from .kept import Kept, in_time
from .times import day

Key = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Stay:
    """The walks of one visit to a site, the earliest first. `began` is its first day; None where nobody said."""

    began: str | None
    walks: tuple[Kept, ...]


@dataclass(frozen=True, slots=True)
class Site:
    """A site with its stays, the earliest first. Without a `where.site` it is a stay of which no site was said."""

    where: Where
    stays: tuple[Stay, ...]

    @property
    def walks(self) -> list[Kept]:
        """All walks there, the earliest first."""
        return [walk for stay in self.stays for walk in stay.walks]

    @property
    def says(self) -> str:
        """The site in words."""
        if self.where.site:
            return self.where.says[:1].upper() + self.where.says[1:]
        return f"No site, from {day(self.where.visited)}" if self.where.visited else "No site"

    @property
    def known(self) -> bool:
        """Whether its walks were at one place, so that their readings can be compared."""
        return bool(self.where.site or self.where.visited)


def sites_of(walks: Iterable[Kept]) -> list[Site]:
    """Return the sites, the one of the latest walk first; walks without one stand last."""
    found: dict[Key, list[Kept]] = {}
    for walk in walks:
        found.setdefault(key_of(walk.where), []).append(walk)
    sites = [_site(there) for there in found.values()]
    return sorted(sites, key=lambda site: not site.known)


def site_at(walks: Iterable[Kept], where: Where) -> Site | None:
    """Return the site with its walks that is meant by `where`; None where no place was said, or nothing kept."""
    there = [walk for walk in walks if key_of(walk.where) == key_of(where)]
    return _site(there) if there and (where.site or where.visited) else None


def key_of(where: Where) -> Key:
    """Return what one site has in common, however its name was typed; of a stay without one, its day."""
    if not where.site:
        return ("", where.visited or "")
    return ((where.park or "").casefold(), f"site {where.site.casefold()}")


def _site(walks: Sequence[Kept]) -> Site:
    in_order = in_time(walks)
    stays: dict[str | None, list[Kept]] = {}
    for walk in in_order:
        stays.setdefault(walk.where.visited, []).append(walk)
    return Site(in_order[-1].where, tuple(Stay(began, tuple(there)) for began, there in stays.items()))
