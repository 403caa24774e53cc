"""Every step a walk can take from where it is: the walk's own rules, with all answers instead of one.

Readings are free: any value is possible wherever one is taken, and a judge goes to every row that some values
lead to. What was answered, taken, done and counted is remembered (see `lives`); so is the worst grade, where a
judge ahead asks for it or a rule does.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import NamedTuple

from shorewalk.electrics.using import FUNCTIONS
from shorewalk.tree.facts import Site
from shorewalk.tree.graded import grade_of_choice, grade_of_unsure
from shorewalk.tree.model import (
    AGAIN,
    GRADES,
    Ask,
    Judge,
    Measure,
    Node,
    Pairs,
    Step,
    Tally,
    Tree,
    Way,
    Work,
    worse,
)
from shorewalk.walk.judge import judge_bands

from ..rows import NOT_TAKEN, Table, Var, subsets, table_of
from .lives import MAYBE, OTHER, READ, Alike, Lives
from .spread import Kinds
from .standings import Standings

SPENT = "spent"
"""The label of the way out of a node that was come to too often."""

NOTHING: frozenset[str] = frozenset()


class At(NamedTuple):
    """Where a walk is and all that bears on where it can go.

    `worst` is a place in `GRADES`, -1 for none; `coarse`: the meter shows no tenths, or nobody knows.
    """

    tree: str
    node: str
    standing: int
    memory: int = 0
    worst: int = -1
    coarse: bool = False


@dataclass(frozen=True, slots=True)
class Move:
    """One way out of a node. `keep` and `put` say what becomes of the memory."""

    label: str
    goto: str
    keep: int = -1
    put: int = 0
    grade: int = -1
    perhaps: Pairs = ()
    done: Pairs = ()
    leaves: Pairs = ()
    coarse: bool | None = None  # what is known of the meter after it
    again: bool = False  # what was read counts for nothing
    # Of the looks asked for, what may be lacking together; nothing where none is asked for.
    lacks: tuple[Mapping[str, bool], ...] = ()


class Moves:
    """The moves in one tree."""

    def __init__(
        self,
        tree: Tree,
        site: Site,
        standings: Standings,
        relevant: Mapping[tuple[str, str], frozenset[str]] | None,
        kinds: Kinds,
    ) -> None:
        self.tree, self.site, self.standings = tree, site, standings
        self._kept = (
            {name: relevant.get((tree.name, name), NOTHING) for name in tree.nodes}
            if relevant is not None
            else {}
        )
        self._widened: dict[int, tuple[Move, list[Alike]]] = {}
        self.lives = Lives(tree, site, kinds)
        self.void = {
            name: ~sum(self.lives.given[gone].mask for gone in all_ if gone in self.lives.given)
            for name, all_ in self.lives.voided.items()
        }
        self._known: dict[tuple[str, bool], tuple[Move, ...]] = {}
        self._missing: dict[str, tuple[Move, ...]] = {}
        self._doubtful: dict[str, tuple[Move, ...]] = {}
        self._spent: dict[str, Move] = {}
        self._tables: dict[str, tuple[Table, int]] = {}
        self._rows: dict[tuple[object, ...], tuple[Move, ...]] = {}

    def arrive(self, at: At) -> At | None:
        """Return the walk with the node's count risen; `None` where the count is used up."""
        field = self.lives.count.get(at.node)
        if field is None:
            return at
        if (at.memory & field.mask) >> field.at >= len(field.values):
            return None
        return at._replace(memory=at.memory + (1 << field.at))

    def settled(self, at: At) -> At:
        """Return a state as a walk comes to it from another tree, with what nobody asks for here forgotten."""
        return self.go(at, Move("", at.node, keep=0))

    def go(self, at: At, move: Move) -> At:
        """Return where a move leads, with everything forgotten that no longer matters there."""
        goto, standing, lives = move.goto, at.standing, self.lives
        if move.perhaps:
            standing = self.standings.after(standing, move.perhaps, perhaps=True)
        if move.done:
            standing = self.standings.after(standing, move.done)
        if move.leaves:
            standing = self.standings.after(standing, move.leaves)
        if goto in self._kept:
            standing = self.standings.cut(standing, self._kept[goto])
        memory = (at.memory & move.keep | move.put) & lives.live.get(goto, 0)
        if memory:
            for alike in self._widening(at.node, move):
                memory = alike.widen(memory)
        worst = max(move.grade, at.worst)
        if worst >= 0:
            worst = lives.worst[goto][worst] if goto in lives.worst else -1
        coarse = at.coarse if move.coarse is None else move.coarse
        return At(at.tree, goto, standing, memory, worst, coarse and goto in lives.coarse)

    def _widening(self, node: str, move: Move) -> list[Alike]:
        """Return the amounts that fewer judges tell apart behind this move, or that it has just put."""
        key = id(move)
        if key not in self._widened:
            here = self.lives.alike.get(node, ())
            there = self.lives.alike.get(move.goto, ())
            some = [alike for alike in there if alike.amounts & move.put or not any(alike is a for a in here)]
            self._widened[key] = (move, some)
        return self._widened[key][1]

    def out(self, at: At) -> Sequence[Move]:
        """Return every move from a node that was arrived at, in the order written."""
        node = self.tree.nodes[at.node]
        if isinstance(node, Judge):
            return self._judge(node, at)
        key = (at.node, at.coarse)
        if key not in self._known:
            self._known[key] = tuple(self._static(node, coarse=at.coarse))
            if isinstance(node, Work):
                self._doubtful[at.node] = tuple(self._number(node, MAYBE))
                self._missing[at.node] = tuple(self._without(node, None))
        if not isinstance(node, Work):
            return self._known[key]
        inputs = {
            self.lives.given[name].value(at.memory) for _, name in node.inputs if name in self.lives.given
        }
        if not inputs <= {READ, MAYBE}:
            return self._missing[at.node]
        if MAYBE in inputs or (at.coarse and self._small(node)):
            return self._doubtful[at.node]
        return self._known[key]

    def spent(self, node: Node) -> Move:
        """Return the move from a node that was come to too often."""
        assert node.spent  # noqa: S101 - only nodes with both are counted
        if node.name not in self._spent:
            self._spent[node.name] = self._move(SPENT, node.spent)
        return self._spent[node.name]

    def _static(self, node: Node, *, coarse: bool) -> Iterator[Move]:
        match node:
            case Ask():
                yield from self._ask(node)
            case Step():
                yield self._move("done", node.done, (node.name, "done"), done=node.leaves)
                if node.cannot:
                    yield self._move("cannot", node.cannot, (node.name, "cannot"), perhaps=node.leaves)
            case Measure() | Work() | Tally():
                yield from self._number(node, READ, coarse=coarse)

    def _number(self, node: Measure | Work | Tally, read: str, *, coarse: bool = True) -> Iterator[Move]:
        """Yield the ways of a number that was taken, or that may have been, and those of one that was not."""
        void = self.void[node.name]
        for label, way, amounts in self._ways(node, coarse=coarse):
            given = None if way.grade == AGAIN else (node.name, read)
            yield self._move(label, way, given, keep=void, amounts=amounts)
        if isinstance(node, Measure) and node.unable:
            yield self._move("unable", node.unable, (node.name, "unable"), keep=void)
        elif isinstance(node, Tally) and node.unsure:
            yield self._move("unsure", node.unsure, keep=void)
        elif isinstance(node, Work) and read == MAYBE:
            yield from self._without(node, (node.name, MAYBE))

    def _ways(self, node: Measure | Work | Tally, *, coarse: bool) -> Iterator[tuple[str, Way, int]]:
        """Yield the ways of a number with the amounts that go them, in their place in the memory."""
        field = self.lives.given.get(node.name)
        possible = 0 if field is None else field.any if coarse else field.fine
        if node.next:
            yield "next", node.next, possible
        going = [0] * len(node.bands)
        for at, amount in enumerate(field.amounts if field and node.bands else ()):
            bit = 1 << (field.first + at if field else 0)
            going[judge_bands(node.bands, amount, self.site.limits).index] |= bit & possible
        for at, band_ in enumerate(node.bands):
            if going[at] or not possible:
                yield f"band {at + 1}", band_.way, going[at]

    def _without(self, node: Work, given: tuple[str, str] | None) -> Iterator[Move]:
        if node.missing:
            yield self._move("missing", node.missing, given, keep=self.void[node.name])

    def _ask(self, node: Ask) -> Iterator[Move]:
        tells = node.sign == "tenths"
        for choice in node.choices:
            grade = grade_of_choice(node, choice, self.site)
            coarse = choice.id != "yes" if tells else None
            yield self._move(
                f"choose {choice.id}", choice.way, (node.name, choice.id), grade=grade, coarse=coarse
            )
        if node.unsure:
            grade = grade_of_unsure(node, self.site)
            yield self._move("unsure", node.unsure, (node.name, "unsure"), grade=grade, coarse=tells or None)

    def _move(
        self,
        label: str,
        way: Way,
        given: tuple[str, str] | None = None,
        *,
        keep: int = -1,
        grade: str | None = None,
        perhaps: Pairs = (),
        done: Pairs = (),
        coarse: bool | None = None,
        amounts: int = 0,
    ) -> Move:
        worst = worse(grade, way.grade)
        field = self.lives.given.get(given[0]) if given else None
        if field and given:
            keep, put = keep & ~field.mask, field.code(given[1]) | amounts
        else:
            put = 0
        rank = GRADES.index(worst) if worst else -1
        again = way.grade == AGAIN
        return Move(label, way.goto, keep, put, rank, perhaps, done, way.leaves, coarse, again)

    def _small(self, node: Work) -> bool:
        formula, result = FUNCTIONS.get(node.using), self.site.results.get(node.out)
        return bool((formula and formula.small) or (result and result.small))

    def _judge(self, node: Judge, at: At) -> tuple[Move, ...]:
        if node.name not in self._tables:
            followed = {name: f.amounts for name, f in self.lives.given.items() if f.amounts}
            table = table_of(node, self.tree, self.site, followed)
            names = {*node.of, *(name for kind, name in table.domain if kind == "node")}
            mask = sum(field.mask for name, field in self.lives.given.items() if name in names)
            self._tables[node.name] = (table, mask)
        table, mask = self._tables[node.name]
        asks = {kind for kind, _ in table.domain}
        key = (
            node.name,
            at.memory & mask,
            at.standing if "state" in asks else 0,
            at.worst if "worst" in asks else 0,
        )
        if key not in self._rows:
            self._rows[key] = tuple(self._rows_met(node, table, at))
        return self._rows[key]

    def _rows_met(self, node: Judge, table: Table, at: At) -> Iterator[Move]:
        there = {self.lives.given[name].value(at.memory) for name in node.of if name in self.lives.given}
        gone = bool({None, "unable"} & there)
        if node.missing and (gone or MAYBE in there):
            yield self._move("missing", node.missing)
        if gone:
            return
        domain = {var: self._narrowed(var, mask, table, at) for var, mask in table.domain.items()}
        looks = [var for var in domain if var[0] == "look"]
        found: dict[Move, list[Mapping[str, bool]]] = {}
        for lacking in product((False, True), repeat=len(looks)):
            domain |= {var: 0b10 if lacks else 0b01 for var, lacks in zip(looks, lacking, strict=True)}
            combination = {name: lacks for (_, name), lacks in zip(looks, lacking, strict=True)}
            for number in table.firsts(domain):
                for move in self._row(node, number, table, domain, at.memory):
                    found.setdefault(move, []).append(combination)
        for move, combinations in found.items():
            yield replace(move, lacks=tuple(combinations)) if looks else move

    def _row(
        self, node: Judge, number: int, table: Table, domain: dict[Var, int], memory: int
    ) -> Iterator[Move]:
        way, keep = node.rows[number].way, -1
        for name in node.of if way.grade == AGAIN else ():
            keep &= self.void.get(name, -1)
        move = self._move(f"row {number + 1}", way, keep=keep)
        yield from self._narrower(move, number, table, domain, memory)

    def _narrower(
        self, move: Move, row: int, table: Table, domain: dict[Var, int], memory: int
    ) -> Iterator[Move]:
        """Yield the move once for each set of amounts that go this way, as far as they are asked for again."""
        live = self.lives.live.get(move.goto, 0) & move.keep
        wide = sum(each.amounts for each in self.lives.alike.get(move.goto, ()) if not each.told_apart)
        followed = [
            (("node", name), field)
            for (_, name) in [var for var in table.domain if var[0] == "node"]
            if (field := self.lives.given.get(name)) and field.any & memory & live & ~wide
        ]
        if not followed:
            yield move
            return
        seen = set()
        for box in table.boxes(row, domain):
            keep, put = move.keep, move.put
            for var, field in followed:
                amounts = box[var] >> 1 & ((1 << len(field.amounts)) - 1)
                keep, put = keep & ~field.any, put | amounts << field.first
            if (keep, put) not in seen:
                seen.add((keep, put))
                yield replace(move, keep=keep, put=put)

    def _narrowed(self, var: Var, mask: int, table: Table, at: At) -> int:
        kind, name = var
        match kind:
            case "node":
                field, values = self.lives.given.get(name), table.values[var]
                answer = field.value(at.memory) if field else None
                if answer in (READ, MAYBE):
                    unable = sum(1 << i for i, value in enumerate(values) if value == "unable")
                    mask &= ~unable & ~(NOT_TAKEN if answer == READ else 0)
                    if field and field.amounts:
                        all_ = ((1 << len(field.amounts)) - 1) << 1
                        mask &= ~all_ | field.may_be(at.memory) << 1
                    return mask
                if answer == OTHER and field:
                    return (
                        mask
                        & ~NOT_TAKEN
                        & ~sum(1 << i for i, value in enumerate(values) if value in field.values)
                    )
                return 1 << values.index(answer) if answer in values else NOT_TAKEN
            case "state":
                return 1 << subsets(name, self.site).index(self.standings.possible(at.standing, name))
            case "worst":
                return 1 << (at.worst + 1)
        return mask
