"""Few facts for small trees: three limits far apart, outlets with one or two pairs, nothing judged by itself."""

from __future__ import annotations

from dataclasses import replace

from shorewalk.tree.facts import Limit, Look, Pair, PlaceFact, Site
from shorewalk.tree.library import shipped

VOIDED = (("cord", "another"), ("tripped", "yes"), ("storm", "yes"))
MOVED = (("cord", "moved"), ("protector", "changed"), *VOIDED[1:])


def _look(name: str, pairs: tuple[Pair, ...], load: str, voided: tuple[tuple[str, str], ...]) -> Look:
    return Look(name, pairs, load, (), voided)


def _places(site: Site) -> dict[str, PlaceFact]:
    places = {name: replace(place, looks={}) for name, place in site.places.items()}
    for name, ends in (("pedestal-30", ["N"]), ("pedestal-20", ["N", "G"])):
        full = _look("full-look", tuple(Pair(name, "L", end) for end in ends), "none", VOIDED)
        plug = _look("look-b", (Pair("rig-outlet-a", "L", "N"),), "one-leg", MOVED)
        places[name] = replace(places[name], looks={"full-look": full, "look-b": plug})
    return places


def small_site() -> Site:
    """The shipped facts without least grades: what a reading means is the tree's own."""
    site = shipped().site
    kinds = {"low": (50.0, "hazard"), "high": (110.0, "supply"), "sure": (200.0, "surely")}
    return replace(
        site,
        limits={name: Limit(name, at, "V", kind, name, "for a test") for name, (at, kind) in kinds.items()},
        places=_places(site),
        quantities={
            name: replace(one, floor=(), small=False, plausible=(0.0, 400.0))
            for name, one in site.quantities.items()
        },
        results={},
    )
