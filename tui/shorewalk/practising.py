"""`shorewalk practice`: a site of the invented campground, or a surprise, in the app or in plain text."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from random import SystemRandom

from .exits import Exit
from .journal import Journal, Keeper
from .journal.practised import keep_practised, practised
from .journal.store import connect_in_memory
from .pedestal.campground import Site, bench_at, campground, surprise
from .pedestal.hands import Hands
from .starting import Usage, narrate, start
from .tree.words import choose_from, quoted
from .walk.message import ending
from .walk.walk import Walk
from .walking import columns

SURPRISE = "surprise"
METER = "basic,tenths"


def practise(
    name: str | None, seed: int | None, tell: Callable[[str], object], *, plain: bool = False
) -> int:
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
    hands = Hands(bench_at(site, walk.meter, seed))
    scene = f"{site.says}. You have a {site.outlet} A cord. Seed {seed} brings it again."
    shown = _in_plain_text if plain or _no_terminal() else _in_app
    code, last = shown(walk, hands, scene)
    if last.ended and (problem := keep_practised(site.id, right=hands.bench.right(ending(last, None), last))):
        narrate(problem)
    return code


def _no_terminal() -> bool:
    return os.environ.get("TERM") == "dumb" or not (sys.stdin.isatty() and sys.stdout.isatty())


def _in_plain_text(walk: Walk, hands: Hands, scene: str) -> tuple[int, Walk]:
    from .plain.practising import Practising

    talk = Practising(walk, _not_kept(), sys.stdin, sys.stdout, columns()).at(hands, scene)
    return talk.run(), talk.walk


def _in_app(walk: Walk, hands: Hands, scene: str) -> tuple[int, Walk]:
    from .practice_app import PracticeApp
    from .ruling import Ruling

    app = PracticeApp(walk, _not_kept(f"{scene} "), hands)
    app.ruling = Ruling()
    return app.run() or 0, app.last


def _not_kept(scene: str = "") -> Keeper:
    """Return what keeps nothing; it says so once, and where one stands."""
    return Keeper(Journal(connect_in_memory(), problem=f"{scene}A practice walk is not kept."))


def _listed(sites: dict[str, Site]) -> list[str]:
    wide, before = max(map(len, sites)), practised()
    marks = {None: "", True: " (done, as it should)", False: " (done, not as it should)"}
    lines = ["Juniper Flats, a campground that does not exist:"]
    lines += [
        f"  {site.id:{wide}}  {site.level:5}  {site.says}{marks[before.get(site.id)]}"
        for site in sites.values()
    ]
    return [*lines, f"  {SURPRISE:{wide}}         A site that nobody knows. --seed N brings it again"]
