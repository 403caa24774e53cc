"""Which kind of reading a measure is, its least grade, and whether a meter is fine enough for it."""

from __future__ import annotations

from shorewalk.tree.facts import Quantity, Site
from shorewalk.tree.model import Measure

from .interval import Amount
from .judge import judge_bands
from .meter import Meter


def quantity_of(measure: Measure, site: Site) -> Quantity | None:
    """Return the first quantity of `grades.yaml` that covers this measure.

    It covers by what is measured, the roles of the two terminals in either order, the kind of
    place, the load, and what the node says it needs of the pedestal breaker.
    """
    place = site.places.get(measure.place)
    if place is None or measure.from_ not in place.terminals or measure.to not in place.terminals:
        return None
    roles = sorted((place.terminals[measure.from_].role, place.terminals[measure.to].role))
    breaker = dict(measure.needs).get("pedestal-breaker")
    for quantity in site.quantities.values():
        if (
            quantity.what == measure.what
            and sorted(quantity.between) == roles
            and quantity.at in (None, place.kind)
            and (not quantity.load or measure.load.amount in quantity.load)
            and quantity.breaker in (None, breaker)
        ):
            return quantity
    return None


def too_coarse(quantity: Quantity, meter: Meter, unit: str, site: Site) -> bool:
    """Tell whether this meter's last digits are wider than what is good: it can condemn, not clear."""
    if not quantity.small:
        return False
    count = meter.step(unit, quantity.what)
    if not meter.tenths:
        return True
    good = [cut for cut in quantity.floor[:-1] if cut.grade in (None, "ok")]
    names = [cut.below or cut.upto or "" for cut in good]
    widths = [abs(site.limits[name].value) for name in names if name in site.limits]
    return bool(widths) and meter.counts * count > max(widths)


def floor_of(quantity: Quantity | None, amount: Amount, site: Site) -> str | None:
    """Return the least grade of a reading, by `grades.yaml`."""
    if quantity is None or not quantity.floor:
        return None
    return judge_bands(quantity.floor, amount, site.limits).grade
