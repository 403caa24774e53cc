"""From a formula and what was typed to a result: its number with its bounds, its grade, its limits."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from functools import partial

from shorewalk.electrics.formula import Formula
from shorewalk.electrics.formulas import FORMULAS
from shorewalk.starting import Usage
from shorewalk.tree.facts import Cut, Limit
from shorewalk.walk.interval import ANYTHING, Amount, Base, alone, of_function
from shorewalk.walk.judge import condemns, judge_bands, sides
from shorewalk.walk.wording import digits_of, number
from shorewalk.walk.working import COARSE

from .calculation import Given, Result

GRADE_WORDS = {"ok": "good", "watch": "watch", "stop": "stop", "danger": "danger"}


def exact(value: float, unit: str = "1") -> Amount:
    """Return a number that is taken as it stands."""
    return alone(f"exactly {value!r}", Base(value, value, value), unit)


def compute(name: str, inputs: Mapping[str, Amount], **words: object) -> Amount:
    """Return a formula's result with its bounds; raise `Usage` where it has none for the numbers as typed."""
    formula = FORMULAS[name]
    call = partial(formula.fn, **words)
    try:
        call(**{arg: amount.value for arg, amount in inputs.items()})
    except ValueError as error:
        raise Usage(str(error)) from None
    except ArithmeticError:
        raise Usage(f"{formula.says}: that divides by 0 with these numbers.") from None
    return of_function(lambda known: call(**known), inputs, formula.unit)


def worked(
    given: Given, name: str, says: str, inputs: Mapping[str, Amount], *, result: str = "", **words: object
) -> Result:
    """Return a formula worked out; `result` names the least grades in `site/grades.yaml` it is judged by."""
    formula = FORMULAS[name]
    amount = compute(name, inputs, **words)
    fact = given.site.results.get(result)
    graded = judge(given, amount, fact.floor if fact else (), small=formula.small)
    return Result(
        id=name.replace("_", "-"),
        says=says,
        shows=shown(amount),
        numbers=_numbers(formula, inputs),
        formula=formula,
        amount=amount,
        grade=graded[0],
        notes=graded[1],
    )


def _numbers(formula: Formula, inputs: Mapping[str, Amount]) -> str:
    return formula.put_in({arg: amount.value for arg, amount in inputs.items()})


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
        grade = GRADE_WORDS.get(cut.grade or "", "noted")
        if limit is None:
            parts.append(f"else {grade}")
            continue
        unit = "" if limit.unit == "1" else f" {limit.unit}"
        until = "unless surely over" if limit.kind == "surely" else "under" if cut.below else "up to"
        parts.append(f"{grade} {until} {limit.value:g}{unit}")
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


def shown(amount: Amount) -> str:
    """Return a number with its unit and, where it is not exact, its bounds rounded outward."""
    value = number(amount.value, amount.unit)
    if amount.span == ANYTHING:
        return f"{value} (it could be anything)"
    bounds = span_words(amount)
    return f"{value} ({bounds})" if bounds else value


def span_words(amount: Amount) -> str:
    """Return the bounds in words, rounded outward; "" where there is nothing between them."""
    low, high = amount.span
    if not (math.isfinite(low) and math.isfinite(high)) or high - low < 1e-9:
        return ""
    ten = 10 ** digits_of(amount.unit)
    ends = (math.floor(round(low * ten, 6)) / ten, math.ceil(round(high * ten, 6)) / ten)
    return " to ".join(f"{end + 0.0:.{digits_of(amount.unit)}f}" for end in ends)


def parts_of(amount: Amount) -> list[tuple[str, float]]:
    """Return how far each number typed alone moves a result either way, the most first.

    The gain of a meter counts as one, because its readings share it.
    """
    found: list[tuple[str, float]] = []
    fixed = {key: Base(base.value, base.value, base.value) for key, base in amount.bases.items()}
    gains = {base.gain for base in amount.bases.values() if base.gain}
    for key, base in amount.bases.items():
        ends = (base.low - base.count, base.high + base.count)
        found.append((key, _reach(amount, [{key: end} for end in ends], fixed)))
    for gain in gains:
        shares = [
            (1 + sign * base.percent / 100)
            for base in amount.bases.values()
            if base.gain == gain
            for sign in (-1, 1)
        ]
        scaled = [
            {key: base.value * share for key, base in amount.bases.items() if base.gain == gain}
            for share in shares
        ]
        found.append((f"the gain on {gain.replace('-', ' ')}", _reach(amount, scaled, fixed)))
    return sorted(found, key=lambda part: -part[1])


def _reach(amount: Amount, changes: Sequence[Mapping[str, float]], fixed: Mapping[str, Base]) -> float:
    middle = {key: base.value for key, base in fixed.items()}
    moved = [abs(amount.compute({**middle, **change}) - amount.value) for change in changes]
    return max((each for each in moved if math.isfinite(each)), default=0.0)
