"""A reading with a load on is never told as better than the same slots at rest.

A supply is held to one table where it is handed over, and to a milder one where an appliance is fed. Each is right by
itself; side by side 112 V would be "watch" at rest and 111 V "good" with a load on, as if it had got better. What was
wrong at rest stays so, as far as the loaded reading would be wrong at rest too. No way through a tree hangs on it:
the grade at rest counted when it was given.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from shorewalk.tree.facts import Quantity, Site

from .evidence import floor_of
from .interval import Amount
from .judge import rank
from .ledger import Key, Ledger
from .looks import Taken


def no_better(rest: Amount, loaded: Amount, quantity: Quantity | None, site: Site) -> str | None:
    """Return the grade that a loaded reading has at least: the lesser of both by the table at rest, `quantity`."""
    return min(floor_of(quantity, rest, site), floor_of(quantity, loaded, site), key=rank)


def says_no_better(rest: str) -> str:
    """Return why a loaded reading has a worse grade than its own limits give; `rest` as shown."""
    return f"At rest it was {rest}; with a load on this is no better."


def hold_to_rest(ledger: Ledger) -> None:
    """Grade loaded readings no better than the readings at rest next to them, and say why."""
    for key, loaded in ledger.taken.items():
        known = ledger.known.get(key)
        if loaded.measure.load.amount == "none" or known is None or known.grade is None:
            continue
        for beside in _beside(ledger, loaded):
            rest = ledger.taken[beside]
            least = no_better(rest.amount, loaded.amount, rest.quantity, ledger.site)
            if rank(least) > rank(ledger.known[key].grade):
                note = says_no_better(ledger.known[beside].shows)
                ledger.grade(key, least)
                graded = ledger.known[key]
                ledger.known[key] = replace(graded, note=" ".join(filter(None, (graded.note, note))))
                ledger.note(note)


def _beside(ledger: Ledger, loaded: Taken) -> Iterator[Key]:
    """Yield the judged readings of the same slots at rest that were taken last before, and first after."""
    rests = [
        (taken.moment, key)
        for key, taken in ledger.taken.items()
        if same_slots(taken, loaded) and key not in ledger.unjudged and key in ledger.known
    ]
    yield from (key for _, key in sorted(one for one in rests if one[0] < loaded.moment)[-1:])
    yield from (key for _, key in sorted(one for one in rests if one[0] > loaded.moment)[:1])


def same_slots(rest: Taken, loaded: Taken) -> bool:
    """Tell whether one reading was taken with nothing running where the other was, at the same supply."""
    of, other = rest.measure, loaded.measure
    return (
        of.load.amount == "none"
        and (of.what, of.place, of.meter) == (other.what, other.place, other.meter)
        and {of.from_, of.to} == {other.from_, other.to}
        and rest.standing.get("cord")
        == loaded.standing.get("cord")  # through another outlet it is another supply
        and (rest.quantity is None or rest.quantity.breaker != "off")
    )
