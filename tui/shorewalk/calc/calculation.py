"""What a calculation is: what it takes, what it gives, and where it comes from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from shorewalk.electrics.formula import Formula
from shorewalk.plots import Plot
from shorewalk.tree.facts import Site
from shorewalk.walk.interval import Amount
from shorewalk.walk.meter import Meter


@dataclass(frozen=True, slots=True)
class Input:
    """A number or word it takes. `unit` is what it is counted in; `low` to `high` is what can be.

    `kind`: "number" (an ordinary one), "choice" (of `choices`), "gauge" or "loads". `reading`:
    what a meter reads there (ac-volts, dc-volts, amps), so that its error counts. `default`: as it
    would be typed; None where it has to be given, "" where it may be left out.
    """

    name: str
    says: str
    unit: str = ""
    low: float = 0.0
    high: float = 1e9
    kind: str = "number"
    reading: str = ""
    default: str | None = None
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Given:
    """What was typed, read: numbers with their error, words, the meter, and the facts of the site."""

    amounts: Mapping[str, Amount]
    words: Mapping[str, str]
    meter: Meter
    site: Site

    def __getitem__(self, name: str) -> Amount:
        return self.amounts[name]

    def __contains__(self, name: str) -> bool:
        return name in self.amounts or bool(self.words.get(name))


@dataclass(frozen=True, slots=True)
class Result:
    """One line of what came out.

    `numbers`: the formula with its numbers. `shows`: the value. `notes`: what it means, one line
    each. A result without a number of its own (a band of time) has no `amount`.
    """

    id: str
    says: str
    shows: str
    numbers: str = ""
    formula: Formula | None = None
    amount: Amount | None = None
    grade: str | None = None
    notes: tuple[str, ...] = ()

    @property
    def number(self) -> Amount:
        """The number; only a result that was worked out has one."""
        if self.amount is None:
            raise TypeError(f"{self.id} has no number")
        return self.amount


@dataclass(frozen=True, slots=True)
class Calculation:
    """`example`: what to type, run by a test. `beware`: a caution of its own, beside the common one.

    `functions` of the arithmetic that give no plain sum are explained by their own words.
    """

    name: str
    says: str
    inputs: tuple[Input, ...]
    work: Callable[[Given], list[Result]]
    source: str
    example: str
    beware: str = ""
    plot: Callable[[Given], Plot] | None = None
    functions: tuple[Callable[..., object], ...] = ()

    @property
    def by_meter(self) -> bool:
        """Whether the meter's error counts."""
        return any(each.reading for each in self.inputs)
