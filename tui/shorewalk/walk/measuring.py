"""Taking a reading: whether it counts, what it grades, which way it goes."""

from __future__ import annotations

from shorewalk.tree.model import AGAIN, Measure, worse

from .age import seconds_of
from .answers import Read
from .evidence import floor_of, quantity_of, too_coarse
from .interval import finite, of_reading
from .judge import condemns, judge_node
from .ledger import Ledger
from .looks import Taken
from .reading import read
from .telling import grade_of, tell
from .wording import says_measure, shows_reading

COARSE = {
    False: "Your meter shows whole volts only: this can tell that something is wrong, not that all is well.",
    True: "Your meter is too coarse for this: it can tell that something is wrong, not that all is well.",
}


def _probes(ledger: Ledger, node: Measure) -> dict[str, object]:
    quantity = quantity_of(node, ledger.site)
    return {
        "place": node.place,
        "from_": node.from_,
        "to": node.to,
        "load": node.load.amount,
        "quantity": quantity.id if quantity else None,
    }


def take_unable(ledger: Ledger, node: Measure, shows: str, time: str | None, **more: object) -> None:
    """No evidence; an older reading of the same node no longer counts."""
    ledger.void([ledger.key()])
    ledger.given[ledger.key()] = "unable"
    says = says_measure(node, ledger.standing, ledger.site)
    tell(ledger, says, shows, grade_of(node.unable), time, **_probes(ledger, node), **more)
    ledger.go(node.unable)


def take_reading(ledger: Ledger, node: Measure, answer: Read, time: str | None) -> None:
    """Take what the meter shows; raise `Refused` where that cannot be."""
    site = ledger.site
    quantity = quantity_of(node, site)
    reading = read(answer.text, node.what, quantity, ledger.meter, confirmed=answer.confirmed)
    key = ledger.key()
    amount = of_reading("/".join(key), reading, ledger.meter, node.what)
    shows = shows_reading(reading, tenths=bool(ledger.meter.tenths))
    if (
        quantity
        and too_coarse(quantity, ledger.meter, reading.unit, site)
        and not condemns(quantity.floor or node.bands, amount, site.limits)
    ):
        note = COARSE[bool(ledger.meter.tenths)]
        ledger.note(note)
        take_unable(ledger, node, shows, time, note=note, value=finite(amount.value), unit=amount.unit)
        return
    ledger.void([key])
    ledger.taken[key] = Taken(node, quantity, amount, ledger.standing, ledger.moment, seconds_of(time))
    if site.places.get(node.place) is not None and site.places[node.place].looks:
        ledger.outlet_looked_at = node.place
    floor = floor_of(quantity, amount, site)
    judged = judge_node(node, amount, site.limits)
    grade = judged.grade
    low, high = map(finite, amount.span)
    tell(
        ledger,
        says_measure(node, ledger.standing, site),
        shows,
        None,
        time,
        value=finite(amount.value),
        unit=amount.unit,
        low=low,
        high=high,
        note=" ".join(judged.notes) or None,
        **_probes(ledger, node),
    )
    ledger.note(*judged.notes)
    if grade == AGAIN:
        ledger.void([key])
    elif node.bands or grade:
        ledger.raise_to(worse(grade, floor))
        ledger.grade(key, worse(grade, floor))
    else:
        ledger.unjudged[key] = floor
    ledger.go(judged.way)
