"""The invented campground: its pedestals, and a bench to practise at each."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from random import Random

from shorewalk import folders
from shorewalk.tree.model import Route
from shorewalk.tree.site import facts_of
from shorewalk.tree.source import Data, read_bytes, read_source
from shorewalk.tree.take import Mistake, take_only, take_pairs, take_word, take_words
from shorewalk.tree.words import choose_from, quoted
from shorewalk.walk.meter import Meter

from .bench import Bench
from .faults import NOTHING, Fault, park_with, shipped_faults, stand_with
from .meter import PracticeMeter
from .park import OUTLETS
from .person import Person

LEVELS = ("easy", "fair", "nasty")
KEYS = frozenset(("says", "level", "outlet", "fault", "lacks", "signs"))


@dataclass(frozen=True, slots=True)
class Site:
    """A pedestal to practise on; `signs` and `lacks` as of `Person`."""

    id: str
    says: str
    level: str
    outlet: str
    fault: str
    lacks: frozenset[str] = frozenset()
    signs: dict[str, str] = field(default_factory=dict)


def campground() -> dict[str, Site]:
    """Return the shipped pedestals by id, the easy ones first."""
    return read_sites(folders.demo_data() / "pedestals" / "sites.yaml")


def surprise(seed: int) -> Site:
    """Return a pedestal that nobody has written down: any fault of a park, at any outlet that can have it."""
    chance = Random(seed)  # noqa: S311 - no secret
    fault = chance.choice([NOTHING, *(fault for fault in shipped_faults().values() if fault.side == "park")])
    outlet = chance.choice(fault.outlets)
    return Site(f"surprise-{seed}", f"A site that nobody knows (seed {seed})", "nasty", outlet, fault.id)


def bench_at(site: Site, meter: Meter, seed: int = 1) -> Bench:
    """Return the bench of a site; another seed, other values of the same fault."""
    chance = Random(f"{site.id} {seed}")  # noqa: S311 - no secret
    fault = fault_of(site)
    stand = stand_with(fault, park_with(fault, site.outlet, chance), site.outlet, chance)
    share, step = meter.percent / 200, meter.counts * 0.05
    shown = PracticeMeter(stand, chance, chance.uniform(-share, share), chance.uniform(-step, step))
    signs = {**fault.seen(Random(seed), used=False), **site.signs}  # noqa: S311 - no secret
    person = Person(stand, site.outlet, lacks=site.lacks, signs=signs, chance=chance)
    return Bench(fault, person, shown)


def fault_of(site: Site) -> Fault:
    """Return what is wrong at a site."""
    return NOTHING if site.fault == NOTHING.id else shipped_faults()[site.fault]


def read_sites(file: Path) -> dict[str, Site]:
    """Return the pedestals in a file by id; raise `TreeError` for what cannot be understood."""
    sites = facts_of(read_source(read_bytes(file), str(file)), _site).values()
    return {site.id: site for site in sorted(sites, key=lambda site: LEVELS.index(site.level))}


def _site(name: str, data: dict[str, Data], route: Route) -> Site:
    take_only(data, KEYS, route)
    says, level, outlet, fault = (
        take_word(data.get(key), (*route, key)) for key in ("says", "level", "outlet", "fault")
    )
    lacks, signs = frozenset(take_words(data, "lacks", route)), dict(take_pairs(data, "signs", route))
    site = Site(name, says, level, outlet, fault, lacks, signs)
    known = {
        "level": LEVELS,
        "outlet": tuple(OUTLETS),
        "fault": (NOTHING.id, *shipped_faults()),
    }
    for key, allowed in known.items():
        if (word := getattr(site, key)) not in allowed:
            raise Mistake((*route, key), f"{quoted(word)} is not known here.{choose_from(word, allowed)}")
    if site.outlet not in fault_of(site).outlets:
        what = f"The fault {quoted(site.fault)} cannot be at a {site.outlet} A outlet."
        raise Mistake((*route, "outlet"), what)
    return site
