"""Writing an answer down as the person will see it."""

from __future__ import annotations

from dataclasses import replace

from shorewalk.tree.model import AGAIN, Way

from .age import noted
from .known import Known
from .ledger import Ledger


def grade_of(way: Way | None) -> str | None:
    """Return the grade a way gives, if it gives one."""
    return way.grade if way and way.grade != AGAIN else None


def tell(ledger: Ledger, says: str, shows: str, grade: str | None, time: str | None, **more: object) -> None:
    """Write down the answer to the open question; one asked afresh stands last, in place of the older."""
    key = ledger.key()
    ledger.known.pop(key, None)
    known = Known(
        index=ledger.moment - 1, tree=key[0], at=key[1], says=says, shows=shows, grade=grade, time=noted(time)
    )
    ledger.known[key] = replace(known, **more)  # type: ignore[arg-type]
