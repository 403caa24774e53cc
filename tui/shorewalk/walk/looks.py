"""Which looks at an outlet are held.

A look is derived from readings: it is held while every pair of it was read in the way it wants
(load, breaker, normal meter mode), recently enough, and nothing has happened since that voids it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import field

from shorewalk.tree.facts import LOOKS, Look, Pair, Quantity, Site
from shorewalk.tree.model import Measure
from shorewalk.tree.record import record

from . import state as states
from .age import Clock
from .interval import Amount

THROUGH_PLUG = ("look-b",)


@record()
class Taken:
    """A reading in force: what was read where, how things stood, and when: as a place in the walk, and by the clock."""

    measure: Measure
    quantity: Quantity | None
    amount: Amount
    standing: states.Standing
    moment: int
    seconds: float | None = None


@record()
class Happened:
    """When what voids a look last happened, as places in the walk.

    `reached`: a state or sign came to a value; `changed`: a state came to another value than before.
    """

    reached: Mapping[tuple[str, str], int] = field(default_factory=dict)
    changed: Mapping[str, int] = field(default_factory=dict)

    def last(self, name: str, value: str, outlet: str) -> int:
        """Return when this voider last happened, or -1.

        `changed` and `moved`: to another value. `another`: the cord went into another outlet.
        `tripped`: the breaker of this outlet, or of one not known. `storm` is told by a sign.
        """
        if value in ("changed", "moved"):
            return self.changed.get(name, -1)
        if value == "another":
            others = (
                at
                for (what, to), at in self.reached.items()
                if what == name and to not in (outlet, "unplugged")
            )
            return max(others, default=-1)
        if name == TRIPPED:
            return max(self.reached.get((TRIPPED, place), -1) for place in (outlet, ""))
        return self.reached.get(STORM if name == "storm" else (name, value), -1)


TRIPPED = "tripped"
STORM = ("weather", "thunder")


def _same(pair: Pair, measure: Measure) -> bool:
    return pair.place == measure.place and {pair.from_, pair.to} == {measure.from_, measure.to}


def _through_plug(standing: states.Standing, outlet: str, site: Site) -> bool:
    plugged = states.must(standing, "cord", outlet, site.states)
    return plugged and states.must(standing, states.ENERGISED, "yes", site.states)


def _counts(look: Look, outlet: str, taken: Taken, site: Site) -> bool:
    """Tell whether the reading was taken as the look wants it."""
    if taken.measure.what != "ac-volts" or taken.measure.meter != "normal":
        return False
    if taken.measure.load.amount != look.load:
        return False
    if look.id in THROUGH_PLUG:
        return _through_plug(taken.standing, outlet, site)
    return states.must(taken.standing, "pedestal-breaker", look.breaker, site.states)


def _aged(look: Look, taken: Taken, clock: Clock | None) -> bool:
    if clock is None or look.lasts is None:
        return False
    return clock.too_old(taken.seconds, taken.moment, look.lasts)


def held(
    look: Look,
    outlet: str,
    readings: Iterable[Taken],
    happened: Happened,
    site: Site,
    *,
    clock: Clock | None = None,
) -> bool:
    """Tell whether the look is held: every pair was read, and nothing has voided it since.

    `clock`: as it stood when the power came on, else as it stands; without one no age counts.
    """
    since = max((happened.last(name, value, outlet) for name, value in look.voided_by), default=-1)
    fit = [
        r
        for r in readings
        if r.moment > since and _counts(look, outlet, r, site) and not _aged(look, r, clock)
    ]
    return bool(look.pairs) and all(
        any(_same(pair, reading.measure) for reading in fit) for pair in look.pairs
    )


SKIN_VOIDED = (
    ("cord", "moved"),
    ("protector", "changed"),
    ("adapter", "changed"),
    ("tripped", "yes"),
    ("storm", "yes"),
)
SKIN = "rig-skin"
SKIN_SHOWS = ("skin-live",)


@record()
class Silent:
    """A voltage detector, tried on a live source, was silent; how things stood, and when."""

    standing: states.Standing
    moment: int


def skin_held(
    outlet: str, readings: Iterable[Taken], silent: Silent | None, happened: Happened, site: Site
) -> bool:
    """Tell whether the rig's metal was read, or a detector was silent at it, since the power came on."""
    since = max(happened.last(name, value, outlet) for name, value in SKIN_VOIDED)
    if silent and silent.moment > since and _through_plug(silent.standing, outlet, site):
        return True
    return any(
        reading.measure.place == SKIN
        and reading.measure.what == "ac-volts"
        and reading.measure.meter == "normal"
        and reading.moment > since
        and _through_plug(reading.standing, outlet, site)
        for reading in readings
    )


def looks_of(
    outlet: str | None,
    readings: Iterable[Taken],
    silent: Silent | None,
    happened: Happened,
    site: Site,
    *,
    clock: Clock | None = None,
) -> dict[str, bool]:
    """Return each look of the outlet in use, held or not; none is where no outlet is known. `clock`: see `held`."""
    place = site.places.get(outlet or "")
    if place is None or outlet is None:
        return dict.fromkeys(LOOKS, False)
    taken = list(readings)
    looks = {
        name: held(look, outlet, taken, happened, site, clock=clock) for name, look in place.looks.items()
    }
    return looks | {"skin": skin_held(outlet, taken, silent, happened, site)}
