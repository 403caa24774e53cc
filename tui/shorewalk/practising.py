"""`shorewalk practice`: a site of the invented campground, or a surprise, opened in plain text."""

from __future__ import annotations

import sys
from collections.abc import Callable
from random import SystemRandom

from .exits import Exit
from .journal.practised import keep_practised, practised
from .pedestal.campground import Site, bench_at, campground, surprise
from .plain.practising import Practising
from .starting import Usage, narrate, start
from .tree.words import choose_from, quoted
from .walking import columns

SURPRISE = "surprise"
METER = "basic,tenths"


def practise(name: str | None, seed: int | None, tell: Callable[[str], object]) -> int:
    """Practise at a site; without a name say which there are. Raises `Usage` for one that is not there."""
    sites = campground()
    if name is None:
        tell("\n".join(_listed(sites)))
        return Exit.CLEAN
    seed = seed if seed is not None else SystemRandom().randrange(10_000)
    if name != SURPRISE and name not in sites:
        raise Usage(f"There is no site {quoted(name)}.{choose_from(name, [*sites, SURPRISE])}")
    site = surprise(seed) if name == SURPRISE else sites[name]
    walk = start("arrival", METER)
    talk = Practising.at(bench_at(site, walk.meter, seed), walk, sys.stdin, sys.stdout, columns())
    talk.scene = f"{site.says}. You have a {site.outlet} A cord. Seed {seed} brings it again."
    code = talk.run()
    if talk.walk.ended and (problem := keep_practised(site.id, right=talk.right)):
        narrate(problem)
    return code


def _listed(sites: dict[str, Site]) -> list[str]:
    wide, before = max(map(len, sites)), practised()
    marks = {None: "", True: " (done, as it should)", False: " (done, not as it should)"}
    lines = ["Juniper Flats, a campground that does not exist:"]
    lines += [
        f"  {site.id:{wide}}  {site.level:5}  {site.says}{marks[before.get(site.id)]}"
        for site in sites.values()
    ]
    return [*lines, f"  {SURPRISE:{wide}}         A site that nobody knows. --seed N brings it again"]
