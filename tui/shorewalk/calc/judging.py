"""A number against the limits of the site, as a walk judges it, and the limits in words."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from shorewalk.marks import grade_mark
from shorewalk.tree.facts import Cut, Limit
from shorewalk.walk.interval import Amount
from shorewalk.walk.judge import condemns, judge_bands, sides
from shorewalk.walk.working import COARSE

from .calculation import Given


def judge(
    given: Given, amount: Amount, floor: Sequence[Cut], *, small: bool = False
) -> tuple[str | None, tuple[str, ...]]:
    """Return grade and notes of a number by least grades, as a walk would; no grade where the meter is too coarse."""
    if not floor:
        return None, ()
    notes: tuple[str, ...] = (limits_in_words(floor, given.site.limits),)
    if (
        small
        and not given.meter.tenths
        and _by_volts(amount)
        and not condemns(floor, amount, given.site.limits)
    ):
        return None, (*notes, COARSE)
    judged = judge_bands(floor, amount, given.site.limits)
    return judged.grade, (*notes, *judged.notes)


def _by_volts(amount: Amount) -> bool:
    return any(base.gain == "ac-volts" for base in amount.bases.values())


def judge_reading(given: Given, name: str, quantity: str) -> tuple[str | None, tuple[str, ...]]:
    """Return grade and notes of a reading by the least grades of a quantity."""
    return judge(given, given[name], given.site.quantities[quantity].floor)


def limits_in_words(floor: Sequence[Cut], limits: Mapping[str, Limit]) -> str:
    """Return least grades as a sentence, with where their limits come from."""
    parts: list[str] = []
    sources: list[str] = []
    for cut in floor:
        limit = limits.get(cut.below or cut.upto or "")
        grade = grade_mark(cut.grade).word
        if limit is None:
            parts.append(f"else {grade}")
            continue
        unit = "" if limit.unit == "1" else f" {limit.unit}"
        until = "unless surely over" if limit.kind == "surely" else "under" if cut.below else "up to"
        shown = "" if limit.shown is None else f", or shown over {limit.shown:g}{unit}"
        parts.append(f"{grade} {until} {limit.value:g}{unit}{shown}")
        if _bare(limit.source) not in map(_bare, sources):
            sources.append(limit.source)
    return f"Limits: {', '.join(parts)} ({'; '.join(sources)})."


def _bare(source: str) -> str:
    """Return a source without its numbers: four cosines need no four sentences."""
    return re.sub(r"\d+ degrees", "", source)


def against(given: Given, amount: Amount, limit_id: str) -> tuple[bool, str]:
    """Tell whether a number may be over a limit, and say so in a sentence with the limit's source."""
    limit = given.site.limits[limit_id]
    under, over = sides(amount, limit, over_at=False)
    how = "may be over" if under and over else "over" if over else "within"
    unit = "" if limit.unit == "1" else f" {limit.unit}"
    return over, f"{how.capitalize()} {limit.value:g}{unit}, {limit.says} ({limit.source})."
