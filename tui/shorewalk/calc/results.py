"""From a formula and what was typed to a result: its number with its bounds, its grade, its limits."""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import partial

from shorewalk.electrics.formula import Formula
from shorewalk.electrics.formulas import FORMULAS
from shorewalk.starting import Usage
from shorewalk.walk.interval import ANYTHING, Amount, Base, alone, of_function
from shorewalk.walk.wording import digits_of, number

from .calculation import Given, Result
from .judging import judge


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
