"""Which row of a judge can be the first that is met, whatever was read, answered and done before.

Every part of a row asks one variable for a value: the stretch of a line that a reading lies in, an answer, what a
state may be, the worst grade, a look. A variable has few values that differ, so a set of them is a bit mask,
a row is a mask for each variable it asks, and the question is solved by search with unit propagation.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import chain, combinations, pairwise

from shorewalk.tree.facts import Limit, Site
from shorewalk.tree.model import GRADES, Condition, Judge, Node, Row, Tree
from shorewalk.walk.interval import Amount
from shorewalk.walk.judge import condition_met, limits_of

from .names import answers_of

Var = tuple[str, str]
"""What is asked: ("node", name), ("state", name), ("worst", ""), ("look", name)."""

Domain = Mapping[Var, int]
Asked = dict[Var, int]
Masks = tuple[int, ...]
"""What each variable may be, in the order of a table's domain."""

Numbered = tuple[tuple[tuple[int, int], ...], ...]
"""Rows without names: of each the variables it asks, by place, and what it asks of them."""

NOT_TAKEN = 1
"""The first value of every node: nothing was read or answered."""

SPLITS = 5_000
"""After so many tries the answer is yes: better a false alarm than a danger not told."""


def exactly(value: float, width: float = 0.0) -> Amount:
    """Return a reading of `value` that may be off by `width`."""
    return Amount(value, "", (value, value), (value - width, value + width))


def cells(cuts: Iterable[float]) -> list[tuple[float, float]]:
    """Return the points and the open stretches between them that make up the line, from left to right."""
    marks = sorted(set(cuts))
    line = [-math.inf, *chain.from_iterable((mark, mark) for mark in marks), math.inf]
    return [(low, high) for at, (low, high) in enumerate(pairwise(line)) if at % 2 == 0 or low == high]


def value_in(cell: tuple[float, float]) -> float:
    """Return a number in a cell."""
    low, high = cell
    if math.isinf(low) and math.isinf(high):
        return 0.0
    if math.isinf(low):
        return high - 1
    return low + 1 if math.isinf(high) else (low + high) / 2


@dataclass
class Table:
    """A judge as masks: one for each row, and what each variable may be from the start."""

    rows: list[Asked]
    domain: dict[Var, int]
    values: dict[Var, list[str]]

    def first(self, row: int, domain: Domain) -> dict[Var, int] | None:
        """Return values with which `row` is met and none above it, or `None` where there are none."""
        found = dict(domain)
        for var, mask in self.rows[row].items():
            found[var] &= mask
            if not found[var]:
                return None
        return _falsify(found, self.rows[:row], [SPLITS])

    def firsts(self, domain: Domain) -> Iterator[int]:
        """Yield every row that can be the first that is met, narrowing the domain as rows are passed."""
        base, above = dict(domain), list[Asked]()
        for number, row in enumerate(self.rows):
            inside = {var: base[var] & mask for var, mask in row.items()}
            if not all(inside.values()):
                continue
            if not above or _falsify(base | inside, above, [SPLITS]) is not None:
                yield number
            open_ = {var: row[var] for var, narrowed in inside.items() if narrowed != base[var]}
            if not open_:
                return  # always met
            if len(open_) == 1:
                base |= {var: base[var] & ~mask for var, mask in open_.items()}
            else:
                above.append(open_)

    def unmet(self) -> dict[Var, int] | None:
        """Return values with which no row is met, or `None` where there are none."""
        return _falsify(self.domain, self.rows, [SPLITS])

    def boxes(self, row: int, domain: Domain, most: int = 64) -> list[dict[Var, int]]:
        """Return sets of values that together are all with which `row` is met and none above it.

        Where they would be more than `most`, one set that holds them all.
        """
        inside = dict(domain)
        for var, mask in self.rows[row].items():
            inside[var] &= mask
            if not inside[var]:
                return []
        masks = tuple(inside[var] for var in self.domain)
        return [dict(zip(self.domain, box, strict=True)) for box in _boxes(self._numbered[:row], masks, most)]

    @cached_property
    def _numbered(self) -> Numbered:
        place = {var: at for at, var in enumerate(self.domain)}
        return tuple(tuple((place[var], mask) for var, mask in row.items()) for row in self.rows)

    def told(self, domain: Domain) -> list[str]:
        """Return an example of what the variables asked may be, in words."""
        words = []
        for var, mask in domain.items():
            if var in self.values and mask != self.domain[var]:
                at = (mask & -mask).bit_length() - 1
                if var[0] == "node" and at == 0:
                    continue  # not taken
                words.append(f"{var[1]} {self.values[var][at]}".strip())
        return words


def _falsify(domain: dict[Var, int], rows: list[Asked], left: list[int]) -> dict[Var, int] | None:
    """Narrow `domain` until no row can be met."""
    while True:
        best: list[tuple[Var, int]] | None = None
        for row in rows:
            outside = [(var, domain[var] & ~mask) for var, mask in row.items()]
            if any(rest == domain[var] for var, rest in outside):
                continue
            options = [(var, rest) for var, rest in outside if rest]
            if not options:
                return None
            if best is None or len(options) < len(best):
                best = options
        if best is None:
            return domain
        if len(best) == 1:
            domain = domain | dict(best)
            continue
        for option in best:
            left[0] -= 1
            if left[0] < 0:
                return domain
            if found := _falsify(domain | dict([option]), rows, left):
                return found
        return None


@lru_cache(maxsize=1 << 17)  # judges of one shape stand at many places
def _boxes(rows: Numbered, inside: Masks, most: int) -> tuple[Masks, ...]:
    """Return sets of values with which no row is met; `inside` alone where they would be more than `most`."""
    found: list[Masks] = []
    left = [SPLITS]
    for box in _falsified(inside, rows, left):
        found.append(box)
        if len(found) > most or left[0] < 0:
            return (inside,)
    return tuple(found) if left[0] >= 0 else (inside,)


def _falsified(domain: Masks, rows: Numbered, left: list[int], begin: int = 0) -> Iterator[Masks]:
    """Yield sets of values with which no row is met; together they are all of them, if tries are `left`."""
    left[0] -= 1
    if left[0] < 0:
        return
    for at in range(begin, len(rows)):
        outside = []
        for var, mask in rows[at]:
            if rest := domain[var] & ~mask:
                if rest == domain[var]:
                    break  # never met
                outside.append((var, rest))
        else:
            for var, rest in outside:
                yield from _falsified((*domain[:var], rest, *domain[var + 1 :]), rows, left, at + 1)
            return
    yield domain


def table_of(
    judge: Judge, tree: Tree, site: Site, lines: Mapping[str, Sequence[Amount]] | None = None
) -> Table:
    """Return the table of a judge; it waits for the nodes in `of`, so these were read or answered.

    `lines`: the amounts that a reading may be, where other than exact ones.
    """
    table = Table([], {}, {})
    cut = {name: _line(name, judge, site.limits) for name in _asked(judge)}
    amounts = {name: [exactly(value_in(cell)) for cell in line] for name, line in cut.items()} | {
        name: list(line) for name, line in (lines or {}).items() if cut.get(name)
    }
    for name, line in amounts.items():
        answers = answers_of(tree.nodes[name]) if name in tree.nodes else ()
        exact = len(line) == len(cut[name]) and not (lines and name in lines)
        spans = [_span(cell) for cell in cut[name]] if exact else [str(at) for at in range(len(line))]
        table.values["node", name] = ["not taken", *spans, *answers]
        table.domain["node", name] = _full(table.values["node", name])
    for name in judge.of:
        if ("node", name) in table.domain:
            table.domain["node", name] &= ~(
                NOT_TAKEN | _unread(table.values["node", name], tree.nodes.get(name))
            )
    for row in judge.rows:
        table.rows.append(dict(_row(row, table, amounts, site)))
    return table


def _unread(values: list[str], node: Node | None) -> int:
    unable = "unable" in values and node is not None and "unable" in answers_of(node)
    return 1 << values.index("unable") if unable else 0


def _asked(judge: Judge) -> list[str]:
    return list(dict.fromkeys(asked.node for row in judge.rows for asked in row.when))


def _line(name: str, judge: Judge, limits: Mapping[str, Limit]) -> list[tuple[float, float]]:
    asked = [c for row in judge.rows for c in row.when if c.node == name and c.choice is None]
    return cells(limits[cut].value for c in asked for cut in limits_of(c) if cut in limits) if asked else []


def _row(
    row: Row, table: Table, lines: Mapping[str, Sequence[Amount]], site: Site
) -> Iterable[tuple[Var, int]]:
    for asked in row.when:
        yield (
            ("node", asked.node),
            _condition(asked, lines[asked.node], table.values["node", asked.node], site),
        )
    for name, value in row.while_:
        var = ("state", name)
        if var not in table.values:
            table.values[var] = [" or ".join(some) for some in subsets(name, site)]
            table.domain[var] = _full(table.values[var])
        state = site.states.get(name)
        wanted = set(state.groups.get(value, (value,))) if state else {value}
        yield var, _mask(subsets(name, site), lambda some, wanted=wanted: bool(wanted & set(some)))
    if row.worst:
        table.values["worst", ""] = ["no grade", *GRADES]
        table.domain["worst", ""] = _full(table.values["worst", ""])
        yield ("worst", ""), worse_than(row.worst)
    if row.lacks:
        table.values["look", row.lacks] = ["held", "lacking"]
        table.domain["look", row.lacks] = 0b11
        yield ("look", row.lacks), 0b10


def _condition(asked: Condition, line: Sequence[Amount], values: list[str], site: Site) -> int:
    if asked.choice is not None:
        return 1 << values.index(asked.choice) if asked.choice in values else 0
    return _mask(line, lambda amount: condition_met(asked, amount, site.limits)) << 1


def worse_than(grade: str) -> int:
    """Return the mask of the worst grades so far that are `grade` or worse."""
    return _mask(["", *GRADES], lambda worst: worst in GRADES[GRADES.index(grade) :])


def subsets(name: str, site: Site) -> list[tuple[str, ...]]:
    """Return everything that may be known of a state: any of its values, or some, or all."""
    state = site.states.get(name)
    values = state.values if state else ("yes", "no")
    return [some for size in range(1, len(values) + 1) for some in combinations(values, size)]


def _mask(values: Iterable[object], met: Callable[..., bool]) -> int:
    return sum(1 << at for at, value in enumerate(values) if met(value))


def _full(values: list[str]) -> int:
    return (1 << len(values)) - 1


def _span(cell: tuple[float, float]) -> str:
    low, high = cell
    if low == high:
        return f"{low:g}"
    if math.isinf(low):
        return f"under {high:g}"
    return f"over {low:g}" if math.isinf(high) else f"between {low:g} and {high:g}"
