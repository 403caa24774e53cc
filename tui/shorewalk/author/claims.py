"""What a path through a tree says of the numbers given on it: which bands they fall in, which rows they meet.

A claim is of one step. Its tests name nodes; `given` says which time a number was given to each of them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from shorewalk.electrics.using import FUNCTIONS
from shorewalk.tree.facts import Site
from shorewalk.tree.model import Condition, Measure, Tally, Tree, Work
from shorewalk.walk.answers import Running
from shorewalk.walk.interval import Amount, of_function
from shorewalk.walk.judge import condemns, condition_met, judge_node
from shorewalk.walk.tallying import total_amps

from .values import Given, Value

Chosen = Mapping[Given, Value]
Asks = Condition | frozenset[int] | bool


@dataclass(frozen=True, eq=False, slots=True)
class Test:
    """One thing asked of a node's number: to meet a condition, to fall in some bands (from 0), to be told at all."""

    node: str
    asks: Asks


Row = tuple[Test, ...]
Case = tuple[Row, tuple[Row, ...]]
"""Tests that all hold, and rows of tests of which none holds as a whole."""


@dataclass(frozen=True, eq=False, slots=True)
class Claim:
    """One of the cases holds. Each claim is made once, so that the same object is the same claim."""

    cases: tuple[Case, ...]
    given: tuple[Given, ...]
    by_name: Mapping[str, Given] = field(default_factory=dict)
    number: int = 0  # in the order made
    out: frozenset[Test] = frozenset()  # tests that by this claim do not hold, whatever else does

    @property
    def bands(self) -> Row:
        """The bands that a number is in by this claim."""
        return (
            tuple(t for t in self.cases[0][0] if isinstance(t.asks, frozenset))
            if len(self.cases) == 1
            else ()
        )


class Claims:
    """Makes claims, and holds numbers against them by the walk's own rules."""

    def __init__(self, tree: Tree, site: Site) -> None:
        self.tree, self.site = tree, site
        self._tests: dict[tuple[object, ...], Test] = {}
        self._made: dict[tuple[object, ...], Claim] = {}
        self._bases: dict[str, tuple[str, ...]] = {}
        self._amounts: dict[tuple[object, ...], Amount] = {}
        self._worked: dict[tuple[object, ...], Amount] = {}
        self._met: dict[tuple[object, ...], bool] = {}

    def test(self, node: str, asks: Asks) -> Test:
        """Return the test of a node's number."""
        key = (node, type(asks), asks)
        if key not in self._tests:
            self._tests[key] = Test(node, asks)
        return self._tests[key]

    def told(self, node: str, *, tells: bool) -> Test:
        """Return the test that the meter is fine enough for the number of a node, or is not."""
        return self.test(node, tells)

    def make(self, cases: tuple[Case, ...], given: Iterable[Given]) -> Claim:
        """Return the claim that one of the cases holds."""
        given = tuple(sorted(given))
        key = (cases, given)
        if key not in self._made:
            singles = [{row[0] for row in never if len(row) == 1} for _, never in cases]
            out = frozenset(singles[0].intersection(*singles[1:])) if singles else frozenset[Test]()
            self._made[key] = Claim(cases, given, {one.node: one for one in given}, len(self._made), out)
        return self._made[key]

    def older(self, claim: Claim, node: str) -> Claim:
        """Return the claim as it stands once a number is given to `node` anew."""
        if node not in claim.by_name:
            return claim
        given = (one._replace(age=one.age + 1) if one.node == node else one for one in claim.given)
        return self.make(claim.cases, given)

    def bases(self, name: str) -> tuple[str, ...]:
        """Return the nodes whose numbers make up the number of this one."""
        if name not in self._bases:
            node = self.tree.nodes.get(name)
            found = [name]
            if isinstance(node, Work):
                found = [base for _, read in node.inputs for base in self.bases(read)]
            elif isinstance(node, Tally) and node.at_voltage:
                found = [name, *self.bases(node.at_voltage)]
            self._bases[name] = tuple(dict.fromkeys(found))
        return self._bases[name]

    def needs(self, name: str) -> tuple[str, ...]:
        """Return those of `bases` without which there is no number: a tally does without a voltage."""
        node = self.tree.nodes.get(name)
        if isinstance(node, Work):
            return tuple(dict.fromkeys(base for _, read in node.inputs for base in self.needs(read)))
        return (name,)

    def of(self, test: Test, claim: Claim) -> tuple[Given, ...]:
        """Return the numbers given that a test looks at."""
        return tuple(claim.by_name[base] for base in self.bases(test.node) if base in claim.by_name)

    def met(self, test: Test, given: tuple[Given, ...], chosen: Chosen) -> bool:
        """Tell whether the test holds of the numbers chosen; `given`: those it looks at."""
        key = (test, *[chosen[one] for one in given])
        known = self._met.get(key)
        if known is None:
            amount = self.amount(test.node, {one.node: one for one in given}, chosen)
            known = self._met[key] = self._holds(test, amount)
        return known

    def amount(self, name: str, given: Mapping[str, Given], chosen: Chosen) -> Amount:
        """Return the number of a node, worked out from those chosen, with what it may be off by."""
        node = self.tree.nodes[name]
        if isinstance(node, Measure):
            amount = chosen[given[name]].amount
            assert amount  # noqa: S101 (a reading always has one)
            return amount
        here = (name, *[chosen[given[base]] for base in self.bases(name) if base in given])
        if here not in self._amounts:
            alike = self._alike(name, given, chosen)
            if alike not in self._worked:
                self._worked[alike] = self._work_out(node, given, chosen)
            self._amounts[here] = self._worked[alike]
        return self._amounts[here]

    def _alike(self, name: str, given: Mapping[str, Given], chosen: Chosen) -> tuple[object, ...]:
        """Return what makes up the number of a node: the same in all the places where a part is put in."""
        node = self.tree.nodes[name]
        if isinstance(node, Work):
            return (node.using, *[(arg, self._alike(read, given, chosen)) for arg, read in node.inputs])
        if isinstance(node, Tally) and node.at_voltage and node.at_voltage in given:
            return (chosen[given[name]].answer, self._alike(node.at_voltage, given, chosen))
        one = given[name]
        what = node.what if isinstance(node, Measure) else ""
        amount = chosen[one].amount
        return (chosen[one].answer, one.tenths, what, amount.unit if amount else "")

    def plain(
        self, name: str, given: Mapping[str, Given], chosen: Chosen, last: tuple[Given, float]
    ) -> float | None:
        """Return the number of a node as if no meter were ever off, with `last` given as well; `None` for none."""
        node = self.tree.nodes[name]
        if isinstance(node, Work):
            inputs = {arg: self.plain(read, given, chosen, last) for arg, read in node.inputs}
            if None in inputs.values():
                return None
            try:
                return float(FUNCTIONS[node.using].fn(**inputs))
            except (ArithmeticError, ValueError):
                return None
        if name in given and given[name] == last[0]:
            return last[1]
        if isinstance(node, Tally) and last[0] in {given.get(base) for base in self.bases(name)}:
            return None
        return self.amount(name, given, chosen).value

    def _work_out(self, node: object, given: Mapping[str, Given], chosen: Chosen) -> Amount:
        if isinstance(node, Tally):
            volts = node.at_voltage
            there = volts and all(base in given for base in self.bases(volts))
            at = self.amount(volts, given, chosen) if volts and there else None
            answer = chosen[given[node.name]].answer
            loads = dict(answer.loads) if isinstance(answer, Running) else {}
            return total_amps(node.name, loads, at, self.site)
        assert isinstance(node, Work)  # noqa: S101 (nothing else has a number)
        formula = FUNCTIONS[node.using]
        inputs = {arg: self.amount(read, given, chosen) for arg, read in node.inputs}
        return of_function(lambda known: formula.fn(**known), inputs, formula.unit)

    def _holds(self, test: Test, amount: Amount) -> bool:
        node, limits = self.tree.nodes[test.node], self.site.limits
        match test.asks, node:
            case bool(tells), Work():
                fact = self.site.results.get(node.out)
                return condemns(fact.floor if fact and fact.floor else node.bands, amount, limits) is tells
            case frozenset() as bands, Measure() | Work() | Tally():
                return judge_node(node, amount, limits).index in bands
            case Condition() as asked, _:
                return math.isnan(amount.value) or condition_met(asked, amount, limits)
        return False
