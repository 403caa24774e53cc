"""Finding numbers that fit all that a path claims of them: readings that are possible together.

What is asked of each number by itself is solved exactly, as the linter does (`lint.rows`). Where arithmetic joins
several, numbers are changed one at a time, whichever mends most; a claim that stays broken comes to weigh more.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import islice, pairwise, product
from math import isfinite

from shorewalk.lint.rows import Table
from shorewalk.tree.model import Measure, Work

from .claims import Case, Claim, Claims, Row, Test
from .values import Given, Value, Values

CHANGES = 25
"""So often a number is changed to fit one set of claims; then none are said to be found."""

CASES = 8
"""So many ways in which claims can be met together are tried."""

BY = (-1.5, -0.4, 0.4, 1.5, 4.0)
"""How far from a limit arithmetic is brought, in shares of the limit."""

Found = dict[Given, Value]
Together = frozenset[Claim]
Var = tuple[str, str]


@dataclass(frozen=True, eq=False, slots=True)
class Part:
    """A part of a claim: its tests all hold (`must`), or they do not all hold."""

    tests: tuple[tuple[Test, tuple[Given, ...]], ...]
    must: bool
    given: frozenset[Given]


class Solver:
    """Numbers for claims. What was solved once is remembered."""

    def __init__(self, claims: Claims, values: Values) -> None:
        self.claims, self.values = claims, values
        self.given_up = 0  # how often no numbers were found though some may be
        self._known: dict[Together, Found | None] = {}
        self._groups: dict[Together, list[Together]] = {}
        self._cut: dict[tuple[Claim, Case], list[Part]] = {}
        self._brought: dict[tuple[object, ...], tuple[Value, ...]] = {}
        self._masks: dict[tuple[Test, str, bool], int] = {}

    def solve(self, claims: Together, near: Found | None = None) -> Found | None:
        """Return numbers that fit all claims, or `None`; `near`: numbers that fit most of them."""
        found: Found = {}
        for group in self.groups(claims):
            if group not in self._known:
                self._known[group] = self._solve(group, near or {})
            one = self._known[group]
            if one is None:
                return None
            found |= one
        return found

    def groups(self, claims: Together) -> list[Together]:
        """Return the claims in groups that have no number in common."""
        if claims not in self._groups:
            groups: list[tuple[set[Given], set[Claim]]] = []
            for claim in claims:
                mine = (set(claim.given), {claim})
                for other in [group for group in groups if group[0] & mine[0]]:
                    groups.remove(other)
                    mine = (mine[0] | other[0], mine[1] | other[1])
                groups.append(mine)
            self._groups[claims] = [frozenset(group[1]) for group in groups]
        return self._groups[claims]

    def _solve(self, claims: Together, near: Found) -> Found | None:
        given = sorted({one for claim in claims for one in claim.given})
        if all(one in near for one in given) and all(self._fits(claim, near) for claim in claims):
            return {one: near[one] for one in given}
        lists = {one: self.values.of(one) for one in given}
        if not all(lists.values()) or any(
            self._known.get(frozenset({claim}), near) is None for claim in claims
        ):
            return None
        ordered = sorted(claims, key=lambda claim: (len(claim.cases), claim.given, claim.number))
        for cases in islice(product(*(claim.cases for claim in ordered)), CASES):
            parts = [
                part for claim, case in zip(ordered, cases, strict=True) for part in self._parts(claim, case)
            ]
            if found := self._find(parts, lists, near):
                return found
        if len(claims) > 1:  # what cannot be by itself need not be tried with others again
            for claim in claims:
                self.solve(frozenset({claim}), near)
        return None

    def _fits(self, claim: Claim, chosen: Found) -> bool:
        return any(
            all(self._holds(part, chosen) for part in self._parts(claim, case)) for case in claim.cases
        )

    def _find(self, parts: list[Part], lists: dict[Given, tuple[Value, ...]], near: Found) -> Found | None:
        sure = {test for part in parts if part.must for test in part.tests}
        if any(not part.must and sure.issuperset(part.tests) for part in parts):
            return None
        box = self._apart(parts, lists)
        if box is None:
            return None
        chosen: Found = {}
        for one, values in lists.items():
            fit = tuple(_in(values, box[one]))
            chosen[one] = near[one] if one in near and near[one] in fit else fit[0]
        return self._mended(parts, lists, chosen)

    def _parts(self, claim: Claim, case: Case) -> list[Part]:
        key = (claim, case)
        if key not in self._cut:
            must, never = case
            self._cut[key] = [
                self._part(claim, tests, must=holds)
                for tests, holds in (*(((test,), True) for test in must), *((row, False) for row in never))
            ]
        return self._cut[key]

    def _part(self, claim: Claim, tests: Row, *, must: bool) -> Part:
        asked = tuple((test, self.claims.of(test, claim)) for test in tests)
        return Part(asked, must, frozenset(one for _, given in asked for one in given))

    def _holds(self, part: Part, chosen: Found) -> bool:
        return all(self.claims.met(test, given, chosen) for test, given in part.tests) is part.must

    def _apart(self, parts: Iterable[Part], lists: dict[Given, tuple[Value, ...]]) -> dict[Given, int] | None:
        """Return the numbers of each list that fit, as masks, with what joins several left out of account."""
        names: dict[Given, Var] = {one: ("node", f"{one.node} {one.age}") for one in lists}
        full = {names[one]: (1 << len(values)) - 1 for one, values in lists.items()}
        rows: list[dict[Var, int]] = []
        wanted = dict(full)
        for part in parts:
            if any(len(given) > 1 for _, given in part.tests):
                continue
            row = wanted if part.must else {}
            for test, (one,) in part.tests:
                row[names[one]] = row.get(names[one], full[names[one]]) & self._mask(test, one, lists[one])
            if not part.must:
                rows.append(row)
        found = Table([*rows, wanted], full, {}).first(len(rows), full)
        return None if found is None else {one: found[name] for one, name in names.items()}

    def _mask(self, test: Test, one: Given, values: tuple[Value, ...]) -> int:
        key = (test, one.node, one.tenths)
        if key not in self._masks:
            met = (self.claims.met(test, (one,), {one: value}) for value in values)
            self._masks[key] = sum(1 << at for at, fits in enumerate(met) if fits)
        return self._masks[key]

    def _mended(
        self, parts: list[Part], lists: dict[Given, tuple[Value, ...]], chosen: Found
    ) -> Found | None:
        """Change numbers until nothing is broken."""
        alone = [part for part in parts if part.must and len(part.given) == 1]
        easy = sorted(parts, key=lambda part: len(part.given))  # what takes arithmetic is asked last
        users = {one: [part for part in easy if one in part.given] for one in lists}
        fitting = {
            one: [
                value
                for value in values
                if all(self._holds(part, {one: value}) for part in alone if one in part.given)
            ]
            for one, values in lists.items()
        }
        weights = dict.fromkeys(parts, 1)
        for _ in range(CHANGES):
            broken = [part for part in parts if not self._holds(part, chosen)]
            if not broken:
                return chosen
            worst = max(broken, key=weights.__getitem__)
            best: tuple[int, Given, Value] | None = None
            for one in sorted(worst.given):
                before = sum(weights[part] for part in broken if one in part.given)
                for value in dict.fromkeys((*fitting[one], *self._past(worst, one, chosen))):
                    least = best[0] if best else 0
                    if least >= before:
                        break
                    left = self._cost(users[one], weights, {**chosen, one: value}, before - least)
                    if before - left > least:
                        best = (before - left, one, value)
            if best:
                chosen = {**chosen, best[1]: best[2]}
            else:
                for part in broken:
                    weights[part] += 1
        self.given_up += 1
        return None

    def _cost(self, parts: list[Part], weights: dict[Part, int], chosen: Found, most: int) -> int:
        """Return what the broken parts cost, counted no further than to `most`."""
        cost = 0
        for part in parts:
            if not self._holds(part, chosen):
                cost += weights[part]
                if cost >= most:
                    break
        return cost

    def _past(self, part: Part, one: Given, chosen: Found) -> Iterator[Value]:
        """Yield numbers with which arithmetic comes to lie in each stretch between its limits, and well past them."""
        if not isinstance(self.claims.tree.nodes[one.node], Measure):
            return
        for test, given in part.tests:
            if one in given and isinstance(self.claims.tree.nodes[test.node], Work):
                key = (test.node, one.node, one.tenths, *(chosen[each] for each in given if each != one))
                if key not in self._brought:
                    self._brought[key] = tuple(
                        self._bring(test.node, one, {each: chosen[each] for each in given})
                    )
                yield from self._brought[key]

    def _bring(self, work: str, one: Given, chosen: Found) -> Iterator[Value]:
        node = self.claims.tree.nodes[one.node]
        assert isinstance(node, Measure)  # noqa: S101 (what was running is one of few)
        usual = self.values.usual(node)
        points = {usual + step for step in range(-25, 26)} | {step * 5.0 for step in range(61)}
        points |= {
            value.amount.value for value in chosen.values() if value.amount and isfinite(value.amount.value)
        }
        by_name = {each.node: each for each in chosen}
        line = [
            (number, result)
            for number in sorted(points)
            if (result := self.claims.plain(work, by_name, chosen, (one, number))) is not None
        ]
        limits = [cut.value for cut in self.values.cuts(work)]
        told: set[Value] = set()
        for aim in sorted({cut + by * (abs(cut) or 1.0) for cut in limits for by in BY}):
            for (low, below), (high, above) in pairwise(line):
                if (below - aim) * (above - aim) <= 0 and below != above:
                    number = low + (high - low) * (aim - below) / (above - below)
                    value = self.values.value(one, number)
                    if value and value not in told:
                        told.add(value)
                        yield value


def _in(values: tuple[Value, ...], mask: int) -> Iterator[Value]:
    return (value for at, value in enumerate(values) if mask >> at & 1)
