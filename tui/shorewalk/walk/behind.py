"""The readings that an ending rests on."""

from __future__ import annotations

from collections.abc import Iterable

from .known import Known
from .ledger import Ledger
from .verdict import worst_in_all

USUAL = ("hot-neutral", "hot-neutral-loaded", "rig-hot-neutral-loaded")
"""What everybody asks for first: from hot to neutral, with a load and without."""


def in_force(ledger: Ledger) -> list[Known]:
    """Return the readings that still count, in the order taken."""
    return [known for key, known in ledger.known.items() if key in ledger.taken]


def behind(ledger: Ledger) -> tuple[Known, ...]:
    """Return the readings behind the ending: those graded worst, else hot to neutral, loaded and not."""
    readings = in_force(ledger)
    if worst_in_all(ledger) in ("watch", "stop", "danger"):
        for grade in ("danger", "stop", "watch"):
            if graded := [known for known in readings if known.grade == grade]:
                return _last_of_each(graded)
    return usual(ledger)


def usual(ledger: Ledger) -> tuple[Known, ...]:
    """Return the readings from hot to neutral of the outlet in use, and those in the rig."""
    return _last_of_each(
        known for known in in_force(ledger) if known.quantity in USUAL and _concerns(ledger, known)
    )


def _last_of_each(readings: Iterable[Known]) -> tuple[Known, ...]:
    return tuple({known.says: known for known in readings}.values())


def _concerns(ledger: Ledger, known: Known) -> bool:
    """Tell whether a reading is of the outlet in use, or of the rig."""
    place = ledger.site.places.get(known.place or "")
    return known.place == ledger.outlet or (place is not None and place.at == "rig")
