"""What is told of a result: with its sum where that helps, and what to hold it against."""

from __future__ import annotations

from shorewalk.tree.facts import Cut, Result, Site
from shorewalk.tree.model import GRADES
from shorewalk.walk.known import Worked
from shorewalk.walk.sums import shows_span, sum_of

SOUND_FEET, SOUND_GAUGE = 25.0, 10.0
"""The cord that a loss in ohms is held against: the usual one of a 30 A outlet (common practice)."""


MANY = 3
"""More results at once than these are told without their sums where they are good."""


def told_of(worked: Worked, *, among: int) -> str:
    """Return a result as it is told with the next question: with its sum, but for a good one `among` many."""
    return f"{worked.says}: {shows_span(worked) if worked.grade == 'ok' and among > MANY else sum_of(worked)}"


def beside(worked: Worked, site: Site) -> str:
    """Return what a result is held against: what is good and what is a stop, or what a sound cord has."""
    fact = site.results.get(worked.out)
    words = _limits(fact, site) if fact else []
    if worked.unit == "ohm":
        words.append(f"a sound {SOUND_FEET:g} ft {SOUND_GAUGE:g} AWG cord has {sound_ohms():.2f} ohm")
    return ", ".join(words)


def _limits(fact: Result, site: Site) -> list[str]:
    grades = [cut.grade for cut in fact.floor]
    if "ok" not in grades or grades != sorted(grades, key=lambda grade: GRADES.index(grade or "ok")):
        return []  # an angle is good at one end and at neither side of another
    last_good = max(at for at, grade in enumerate(grades) if grade == "ok")
    words = [
        f"good is {'under' if fact.floor[last_good].below else 'up to'} {_limit(fact.floor[last_good], site)}"
    ]
    bad = next((at for at, grade in enumerate(grades) if grade in ("stop", "danger")), None)
    if bad is not None and bad > 0:
        before = fact.floor[bad - 1]
        words.append(f"a stop is {'from' if before.below else 'over'} {_limit(before, site)}")
    return words


def _limit(cut: Cut, site: Site) -> str:
    limit = site.limits[cut.below or cut.upto or ""]
    return f"{limit.value:g} {limit.unit}".removesuffix(" 1")


def sound_ohms() -> float:
    """Return the ohms, there and back, of a sound cord as one carries it, at the 75 C of wire tables."""
    from shorewalk.electrics.conductors import gauge_mm2, ohms_per_1000_ft
    from shorewalk.electrics.cord import cord_ohms

    return cord_ohms(SOUND_FEET, ohms_per_1000_ft(gauge_mm2(SOUND_GAUGE)))
