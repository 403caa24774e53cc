"""`shorewalk practice`: a site of the invented campground, or a surprise, in the app or in plain text."""

from __future__ import annotations

import sys
from collections.abc import Callable
from random import SystemRandom

from .exits import Exit
from .journal.practised import practised
from .listing import fitted
from .pedestal.campground import Site, campground
from .practice_site import SURPRISE, AtSite, begin_at, keep_how_it_ended, not_kept
from .starting import narrate
from .walking import columns, draws_nothing

SEEDS = 10_000


def practise(
    name: str | None, seed: int | None, tell: Callable[[str], object], *, plain: bool = False
) -> int:
    """Practise at a site; without a name say which there are. Raises `Usage` for one that is not there."""
    if name is None and not plain:
        tell(fitted("\n".join(_listed(campground()))))
        return Exit.CLEAN
    if plain or draws_nothing():
        return _in_plain_text(name, seed)
    return _in_app(begin_at(name or "", SystemRandom().randrange(SEEDS) if seed is None else seed))


def _in_plain_text(name: str | None, seed: int | None) -> int:
    from .plain.practice import practise as in_sentences

    return in_sentences(name, seed, sys.stdin, sys.stdout, columns)


def _in_app(at: AtSite) -> int:
    from .practice_app import PracticeApp
    from .ruling import Ruling

    app = PracticeApp(at.walk, not_kept(f"{at.scene} "), at.hands)
    app.ruling = Ruling()
    code = app.run() or 0
    if problem := keep_how_it_ended(at.site, at.hands, app.last):
        narrate(problem)
    return code


def _listed(sites: dict[str, Site]) -> list[str]:
    wide, before = max(map(len, sites)), practised()
    marks = {None: "", True: " (done, as it should)", False: " (done, not as it should)"}
    lines = ["Someday Flats, a campground that does not exist:"]
    lines += [
        f"  {site.id:{wide}}  {site.level:5}  {site.says}{marks[before.get(site.id)]}"
        for site in sites.values()
    ]
    return [*lines, f"  {SURPRISE:{wide}}         A site that nobody knows. --seed N brings it again"]
