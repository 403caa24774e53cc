"""A practice walk, begun: a site of the invented campground or a surprise, its bench, and where one stands."""

from __future__ import annotations

from typing import NamedTuple

from .journal import Journal, Keeper
from .journal.practised import keep_practised
from .journal.store import connect_in_memory
from .pedestal.campground import Site, bench_at, campground, surprise
from .pedestal.hands import Hands
from .starting import Usage, start
from .tree.words import choose_from, quoted
from .walk.message import ending
from .walk.walk import Walk

SURPRISE = "surprise"
METER = "basic,tenths"
NOT_KEPT = "A practice walk is not kept."


class AtSite(NamedTuple):
    """The site, the walk as it begins there, the hands at its bench, where that is in words."""

    site: Site
    walk: Walk
    hands: Hands
    scene: str


def begin_at(name: str, seed: int) -> AtSite:
    """Begin at a site by its name, or at a surprise; raise `Usage` for one that is not there."""
    sites = campground()
    if name != SURPRISE and name not in sites:
        raise Usage(f"There is no site {quoted(name)}.{choose_from(name, [*sites, SURPRISE])}")
    site = surprise(seed) if name == SURPRISE else sites[name]
    walk = start("arrival", METER)
    scene = f"{site.says}. You have a {site.outlet} A cord. Seed {seed} brings it again."
    return AtSite(site, walk, Hands(bench_at(site, walk.meter, seed)), scene)


def not_kept(scene: str = "") -> Keeper:
    """Return what keeps nothing; it says so once, and where one stands."""
    return Keeper(Journal(connect_in_memory(), problem=f"{scene}{NOT_KEPT}"))


def keep_how_it_ended(site: Site, hands: Hands, walk: Walk) -> str | None:
    """Keep whether a walk there ended as it should, once it ended; return why that could not be kept, if so."""
    if not walk.ended:
        return None
    return keep_practised(site.id, right=hands.bench.right(ending(walk, None), walk))
