"""Every step a walk can take from where it is, with what the step claims of the numbers given so far.

Answers are all tried; numbers are left open, and a step is taken if some numbers fit all that is claimed. What is
remembered is what bears on the way ahead. The walk's own fold has the last word on every path: see `proving`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple, Never

from shorewalk.electrics.using import FUNCTIONS
from shorewalk.lint.walks.standings import Standings
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
    ways_out,
)
from shorewalk.walk.meter import Meter

from .ahead import Ahead
from .claims import Claim, Claims, Row
from .rows import Rows
from .solving import Solver, Together
from .values import Given, Values

NUMBER = (Measure, Tally, Work)
NOTHING: frozenset[Never] = frozenset()

FAILS = 4
"""So often numbers are looked for that lead one way, after different paths, before it is given up."""


class State(NamedTuple):
    """Where a walk is and all that bears on where it can go.

    `worst` is a place in `GRADES`, -1 for none; `given`: answers; `counts`: how often nodes were come to; `read`:
    numbers in force, and `worked`: arithmetic in force; `seen`: readings of looks that some judge ahead asks for.
    """

    node: str
    standing: int
    tenths: bool | None
    worst: int = -1
    given: frozenset[tuple[str, str]] = frozenset()
    counts: frozenset[tuple[str, int]] = frozenset()
    read: frozenset[Given] = frozenset()
    worked: frozenset[str] = frozenset()
    seen: frozenset[str] = frozenset()
    claims: Together = frozenset()


@dataclass(frozen=True, eq=False, slots=True)
class Move:
    """A way out of a node: its label, the answer it leaves (`None`: none), its grade, what it does to the states."""

    label: str
    way: Way
    answer: str | None = None
    grade: int = -1
    done: Pairs = ()
    perhaps: Pairs = ()

    @property
    def counts(self) -> bool:
        """Whether a number was given or worked out on this way."""
        return self.label == "next" or self.label.startswith("band ")


class Taken(NamedTuple):
    """A step that numbers fit: its ways (by label, with what each claims), what they claim together, where it leads.

    Ways that lead to the same are one step. `answers` is 1 where it takes an answer; `late`: one that comes so late
    that what was read at the slots is too old.
    """

    ways: tuple[tuple[str, Claim | None], ...]
    claim: Claim | None
    after: State
    answers: int
    late: bool = False


class Offered(NamedTuple):
    """Moves that lead to the same, with what they claim together, and each by itself."""

    move: Move
    claim: Claim | None
    ways: tuple[tuple[str, Claim | None], ...]
    after: State | None = None  # where they lead, without what is claimed, where that was worked out already


class Steps:
    """The steps in one tree with one meter."""

    def __init__(self, tree: Tree, site: Site, meter: Meter) -> None:
        self.tree, self.site, self.meter = tree, site, meter
        self.claims = Claims(tree, site)
        self.values = Values(tree, site, meter)
        self.solver = Solver(self.claims, self.values)
        self.ahead = Ahead(tree, site, self.claims)
        self.standings = Standings(site, self.ahead.states)
        self._moves: dict[str, tuple[Move, ...]] = {}
        self._failed: dict[tuple[str, str], int] = {}
        self._lasting: dict[tuple[Together, frozenset[Given]], Together] = {}

    @property
    def exact(self) -> bool:
        """Whether every step that was left out is known to be impossible."""
        return not self.solver.given_up and not any(times >= FAILS for times in self._failed.values())

    def begin(self) -> State:
        """Return where every walk begins."""
        standing = self.standings.at_begin(self.tree.starts)
        return State(self.tree.begin, standing, self.meter.tenths)

    def of(self, state: State) -> Iterator[Taken]:
        """Yield every step from a state that some numbers fit."""
        node = self.tree.nodes[state.node]
        if node.at_most is not None and node.spent:
            times = dict(state.counts)
            times[node.name] = times.get(node.name, 0) + 1
            if times[node.name] > node.at_most:
                move = self._spent(node.spent)
                yield Taken(((move.label, None),), None, self._spent_at(node, state, move), 0)
                return
            state = state._replace(counts=frozenset(times.items()))
        answers = self.answers(node, tenths=state.tenths)
        for move, claim, ways, after in self._offered(node, state):
            claims = self.claimed(node, state, move.label, claim)
            if claim and not self._possible((node.name, move.label), claims, state.claims):
                continue
            there = after or self._after(node, state, move)
            there = there._replace(claims=self.still(claims, there.read))
            yield Taken(ways, claim, there, answers)
            if answers and there.seen and there.node in self.ahead.aging:
                yield Taken(ways, claim, there._replace(seen=NOTHING), answers, late=True)

    def _possible(self, way: tuple[str, str], claims: Together, before: Together) -> bool:
        if self._failed.get(way, 0) >= FAILS:
            return False
        given_up = self.solver.given_up
        found = self.solver.solve(claims, self.solver.solve(before)) is not None
        self._failed[way] = self._failed.get(way, 0) + (self.solver.given_up > given_up)
        return found

    def claimed(self, node: Node, state: State, label: str, claim: Claim | None) -> Together:
        """Return all that is claimed after a step."""
        claims = state.claims
        if claims and isinstance(node, Measure | Tally) and (label == "next" or label.startswith("band ")):
            claims = frozenset(self.claims.older(one, node.name) for one in claims)
        return claims | {claim} if claim else claims

    def answers(self, node: Node, *, tenths: bool | None) -> int:
        """Return 1 where a node asks something, else 0."""
        if isinstance(node, Ask):
            return int(self.known_tenths(node, tenths=tenths) is None)
        return int(isinstance(node, Step | Measure | Tally))

    def known_tenths(self, node: Ask, *, tenths: bool | None) -> str | None:
        """Return the answer to a question about the meter that is known without asking."""
        name = {True: "yes", False: "no", None: ""}[tenths]
        asked = node.sign == "tenths" and any(choice.id == name for choice in node.choices)
        return name if asked else None

    def outlet(self, state: State) -> str | None:
        """Return the outlet the cord is in, where that is known."""
        cord = self.standings.possible(state.standing, "cord")
        return cord[0] if len(cord) == 1 and cord[0] in self.site.places else None

    def there(self, state: State, name: str) -> bool:
        """Tell whether a node has a number that counts, or an answer that does."""
        node = self.tree.nodes.get(name)
        if isinstance(node, Work):
            return name in state.worked
        if isinstance(node, NUMBER):
            return any(given.node == name for given in state.read)
        return any(one == name for one, _ in state.given)

    def _offered(self, node: Node, state: State) -> Iterator[Offered]:
        moves = self._of(node)
        match node:
            case Judge():
                yield from self._judged(node, state, moves)
            case Work():
                yield from self._worked(node, state, moves)
            case Ask() if known := self.known_tenths(node, tenths=state.tenths):
                yield from (_free(move) for move in moves if move.label == f"choose {known}")
            case Measure() | Tally():
                yield from self._numbers(node, state, moves)
            case _:
                yield from map(_free, moves)

    def _judged(self, node: Judge, state: State, moves: Iterable[Move]) -> Iterator[Offered]:
        if not all(self.there(state, name) for name in node.of):
            yield from (_free(move) for move in moves if move.label == "missing")
            return
        rows = Rows(self, state, node)
        places = {move.label: int(move.label[4:]) - 1 for move in moves if move.label != "missing"}
        met = [move for move in moves if places.get(move.label) in rows.tests]
        for group, after in self._alike(node, state, met):
            ways = tuple((move.label, rows.claim({places[move.label]})) for move in group)
            yield Offered(group[0], rows.claim({places[move.label] for move in group}), ways, after)

    def _worked(self, node: Work, state: State, moves: Iterable[Move]) -> Iterator[Offered]:
        missing = [move for move in moves if move.label == "missing"]
        formula, fact = FUNCTIONS.get(node.using), self.site.results.get(node.out)
        if formula is None or not all(self.there(state, name) for _, name in node.inputs):
            yield from map(_free, missing)
            return
        small = (formula.small or bool(fact and fact.small)) and not state.tenths
        bases = self.claims.bases(node.name)
        given = [one for one in state.read if one.node in bases]
        for move in missing if small else ():
            claim = self.claims.make((((self.claims.told(node.name, tells=False),), ()),), given)
            yield Offered(move, claim, ((move.label, claim),))
        told: Row = (self.claims.told(node.name, tells=True),) if small else ()
        for group, after in self._alike(node, state, [move for move in moves if move.counts]):
            yield self._of_bands(node, group, told, given)._replace(after=after)

    def _numbers(self, node: Measure | Tally, state: State, moves: Iterable[Move]) -> Iterator[Offered]:
        mine = Given(node.name, 0, bool(state.tenths))
        bases = self.claims.bases(node.name)
        given = [mine, *(one for one in state.read if one.node in bases and one.node != node.name)]
        counted = [move for move in moves if move.counts]
        for group, after in self._alike(node, state, counted if self.values.of(mine) else []):
            yield self._of_bands(node, group, (), given)._replace(after=after)
        yield from (_free(move) for move in moves if not move.counts)

    def _of_bands(
        self, node: Measure | Work | Tally, moves: list[Move], told: Row, given: list[Given]
    ) -> Offered:
        def claim(*some: Move) -> Claim | None:
            bands = frozenset(int(move.label[5:]) - 1 for move in some if move.label != "next")
            tests = told
            if 0 < len(bands) < len(node.bands):
                tests = (*told, self.claims.test(node.name, bands))
            return self.claims.make(((tests, ()),), given) if tests else None

        return Offered(moves[0], claim(*moves), tuple((move.label, claim(move)) for move in moves))

    def _alike(self, node: Node, state: State, moves: list[Move]) -> Iterable[tuple[list[Move], State]]:
        """Return the moves in groups that lead to the same, what they claim apart, and where that is."""
        groups: dict[State, list[Move]] = {}
        for move in moves:
            groups.setdefault(self._after(node, state, move), []).append(move)
        return [(group, after) for after, group in groups.items()]

    def _spent_at(self, node: Node, state: State, move: Move) -> State:
        after = self._after(node, state, move)
        return after._replace(claims=self.still(state.claims, after.read))

    def _after(self, node: Node, state: State, move: Move) -> State:
        """Return where a step leads, what is claimed apart, with all forgotten that no longer matters there."""
        goto, ahead = move.way.goto, self.ahead
        if goto not in self.tree.nodes:
            return State(goto, state.standing, state.tenths)
        names, spent = ahead.names[goto], move.label == "spent"
        standing = state.standing
        if move.perhaps:
            standing = self.standings.after(standing, move.perhaps, perhaps=True)
        standing = self.standings.after(self.standings.after(standing, move.done), move.way.leaves)
        read, worked, given, seen = state.read, state.worked, state.given, set(state.seen)
        again = move.way.grade == AGAIN
        gone: frozenset[str] = frozenset()
        if not spent and (isinstance(node, NUMBER) or (again and isinstance(node, Judge))):
            gone = frozenset(node.of) if isinstance(node, Judge) else frozenset({node.name})
            read = frozenset([one for one in read if gone.isdisjoint(self._made_of(one.node))])
            worked = frozenset([one for one in worked if gone.isdisjoint(self._made_of(one))])
            seen -= gone
            if isinstance(node, Judge):
                given = frozenset(one for one in given if one[0] not in gone)
        if not spent and move.counts and not again:
            if isinstance(node, Work):
                worked |= {node.name}
            else:
                read |= {Given(node.name, 0, bool(state.tenths))}
                live = self.standings.must(standing, "pedestal-breaker", "on")
                if isinstance(node, Measure) and live and ahead.seen(node):
                    seen.add(node.name)
        if not spent and isinstance(node, Ask | Step | Measure):
            kept = move.answer if (node.name, move.answer) in ahead.asked else "other"
            given = frozenset(one for one in given if one[0] != node.name)
            if move.answer and (kept != "other" or not isinstance(node, Measure)):
                given |= {(node.name, str(kept))}
        tenths = state.tenths
        if isinstance(node, Ask) and node.sign == "tenths" and not spent:
            tenths = move.answer == "yes"
        bases = ahead.bases[goto]
        if read:
            read = frozenset([one for one in read if one.node in bases])
        return State(
            goto,
            standing,
            tenths if goto in ahead.fine else None,
            ahead.worst_kept(max(state.worst, move.grade), goto),
            frozenset([one for one in given if one[0] in names]) if given else NOTHING,
            frozenset([one for one in state.counts if one[0] in ahead.counts[goto]])
            if state.counts
            else NOTHING,
            read,
            worked & names,
            ahead.kept(seen, goto) if seen else NOTHING,
        )

    def _made_of(self, name: str) -> tuple[str, ...]:
        return (name, *self.claims.bases(name))

    def still(self, claims: Together, read: frozenset[Given]) -> Together:
        """Return the claims that bear on numbers still in force, directly or by others."""
        if not claims:
            return claims
        key = (claims, read)
        if key not in self._lasting:
            groups = self.solver.groups(claims)
            kept = (group for group in groups if any(one in read for claim in group for one in claim.given))
            self._lasting[key] = frozenset().union(*kept)
        return self._lasting[key]

    def _of(self, node: Node) -> tuple[Move, ...]:
        if node.name not in self._moves:
            self._moves[node.name] = tuple(
                self._move(node, label, way) for label, way in ways_out(node) if label != "spent"
            )
        return self._moves[node.name]

    def _spent(self, way: Way) -> Move:
        return Move("spent", way, grade=_rank(way.grade))

    def _move(self, node: Node, label: str, way: Way) -> Move:
        match node:
            case Ask():
                if label == "unsure":
                    return Move(label, way, label, _rank(grade_of_unsure(node, self.site)))
                choice = next(choice for choice in node.choices if label == f"choose {choice.id}")
                return Move(label, way, choice.id, _rank(grade_of_choice(node, choice, self.site)))
            case Step():
                done, perhaps = (node.leaves, ()) if label == "done" else ((), node.leaves)
                return Move(label, way, label, _rank(way.grade), done, perhaps)
            case Measure() if label == "unable":
                return Move(label, way, label, _rank(way.grade))
        return Move(label, way, None, _rank(way.grade))


def _rank(grade: str | None) -> int:
    return GRADES.index(grade) if grade in GRADES else -1


def _free(move: Move) -> Offered:
    """Return a move that claims nothing."""
    return Offered(move, None, ((move.label, None),))
