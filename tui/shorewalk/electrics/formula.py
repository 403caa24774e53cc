"""A function with how it reads on paper: in words, and with the numbers put in.

The template has the arguments in braces and the units in brackets, as in
`({unloaded} - {loaded}) [V] / {amps} [A]`. Words leave the units out; numbers bring them.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from inspect import signature

WORDS = {
    "unloaded": "V unloaded",
    "loaded": "V loaded",
    "hot1": "V1",
    "hot2": "V2",
    "hot_hot": "V12",
    "hot_earth": "hot-earth",
    "hot_ground": "hot-ground",
    "hot_neutral": "hot-neutral",
    "neutral_ground": "neutral-ground",
    "ng_unloaded": "N-G unloaded",
    "ng_loaded": "N-G loaded",
    "ln_unloaded": "L-N unloaded",
    "ln_loaded": "L-N loaded",
}
"""How an argument is called in a formula, where its name with blanks would not do."""

ARGUMENT = re.compile(r"\{(\w+)\}")
UNIT = re.compile(r" ?\[([^\]]*)\]")


@dataclass(frozen=True, slots=True)
class Formula:
    """`fn` with the names of its arguments and the unit of its result.

    `small` marks a difference of near-equal readings: a meter without tenths cannot judge it.
    """

    args: tuple[str, ...]
    unit: str
    small: bool
    fn: Callable[..., float]
    template: str

    @property
    def says(self) -> str:
        """The formula in words."""
        bare = UNIT.sub("", self.template)
        return ARGUMENT.sub(lambda found: WORDS.get(found[1], found[1].replace("_", " ")), bare)

    def put_in(self, values: Mapping[str, float]) -> str:
        """Return the formula with its numbers, each with its unit."""
        units = UNIT.sub(lambda found: f" {found[1]}", self.template)
        return ARGUMENT.sub(lambda found: plain_number(values[found[1]]), units)


def formula(fn: Callable[..., float], unit: str, template: str, *, small: bool = False) -> Formula:
    """Return a function as a formula; the names of its arguments are those in its definition."""
    return Formula(tuple(signature(fn).parameters), unit, small, fn, template)


def plain_number(value: float) -> str:
    """Return a number as one would write it in a sum: no row of nines, no exponent."""
    if value != value or abs(value) == float("inf"):  # noqa: PLR0124 (not a number)
        return "endless" if value > 0 else "?"
    digits = 3 if abs(value) >= 1 or value == 0 else 5
    return f"{value:.{digits}f}".rstrip("0").rstrip(".")
