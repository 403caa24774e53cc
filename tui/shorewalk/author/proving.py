"""From a path to a walk: its answers with readings that fit, held to the walk's own fold."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from itertools import accumulate, pairwise

from shorewalk.tree.library import Library
from shorewalk.tree.model import Ask, Jump, Measure, Node, Step, Tally
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Unable, Unsure
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import Walk

from .claims import Claim
from .searching import Reached
from .solving import Together
from .stepping import Steps
from .trail import Step as Gone
from .trail import Timed, traced
from .values import Given

WORDS: dict[str, Answer] = {"done": Done(), "cannot": Cannot(), "unable": Unable(), "unsure": Unsure()}


BEGUN = datetime(2026, 5, 1, 10, tzinfo=UTC)
QUICK, LATE = timedelta(seconds=10), timedelta(minutes=20)
"""How long an answer takes, and one after which what was read at the slots is too old."""


class Proven:
    """A walk that was folded, with every way it went."""

    def __init__(self, walk: Walk, gone: tuple[Gone, ...]) -> None:
        self.walk, self.gone = walk, gone

    @property
    def answers(self) -> list[Answer]:
        """The answers of the walk."""
        return [answered.answer for answered in self.walk.answers]

    @property
    def timed(self) -> list[Timed]:
        """The answers with their times."""
        return [(answered.answer, answered.time) for answered in self.walk.answers]


def prove(
    steps: Steps, library: Library, path: list[Reached], last: tuple[str, Claim | None] | None = None
) -> Proven | None:
    """Return the walk along a path, `last` the way to take from where it ends; `None` where the fold goes otherwise.

    Where the path ends at a jump, the walk stands in the other tree.
    """
    answers = answers_along(steps, path, last)
    if answers is None:
        return None
    try:
        walk, gone = traced(library, steps.tree.name, steps.meter, answers)
    except Refused:
        return None
    if last:
        return Proven(walk, gone) if Gone(steps.tree.name, path[-1].state.node, last[0]) in gone else None
    node = steps.tree.nodes[path[-1].state.node]
    if isinstance(node, Jump):
        return Proven(walk, gone) if walk.ledger.tree.name == node.tree else None
    return Proven(walk, gone) if walk.ledger.node is node else None


def answers_along(
    steps: Steps, path: list[Reached], last: tuple[str, Claim | None] | None = None
) -> list[Timed] | None:
    """Return answers that lead along a path, with numbers that fit all it claims; `None` where none were found."""
    ways = [(before.state.node, after.label, after.claim, after.late) for before, after in pairwise(path)]
    if last:
        ways.append((path[-1].state.node, *last, False))
    claims: Together = frozenset()
    taken: dict[str, int] = {}
    asked: list[tuple[Node, str, Given | None, int, bool]] = []
    tenths = path[0].state.tenths
    for (name, label, claim, late), here in zip(ways, path, strict=False):
        node, tenths = steps.tree.nodes[name], here.state.tenths
        given = None
        if isinstance(node, Measure | Tally) and (label == "next" or label.startswith("band ")):
            taken[name] = taken.get(name, 0) + 1
            given = Given(name, 0, bool(tenths))
        claims = steps.claimed(node, here.state._replace(claims=claims), label, claim)
        if steps.answers(node, tenths=tenths) and label != "spent":
            asked.append((node, label, given, taken.get(name, 0), late))
    found = steps.solver.solve(claims)
    if found is None:
        return None
    answers: list[Answer] = []
    for node, label, given, nth, _ in asked:
        if given:
            one = given._replace(age=taken[node.name] - nth)
            value = found.get(one) or next(iter(steps.values.of(given)), None)
            if value is None:
                return None
            answers.append(value.answer)
        else:
            answers.append(WORDS.get(label) or Choose(label.removeprefix("choose ")))
    return list(zip(answers, _times([late for *_, late in asked]), strict=True))


def _times(late: list[bool]) -> list[str | None]:
    """Return the times of answers of which some come late; none where none does."""
    if not any(late):
        return [None] * len(late)
    times = accumulate(LATE if one else QUICK for one in late)
    return [(BEGUN + time).strftime("%Y-%m-%dT%H:%M:%SZ") for time in times]


def along(
    steps: Steps, library: Library, path: list[Reached], last: tuple[str, Claim | None] | None = None
) -> Proven | None:
    """Return the walk along a path as far as the fold goes it; `None` where no numbers were found for it."""
    answers = answers_along(steps, path, last)
    while answers is not None:
        try:
            return Proven(*traced(library, steps.tree.name, steps.meter, answers))
        except Refused:
            answers.pop()
    return None


def finished(proven: Proven, library: Library, most: int = 3000) -> Proven | None:
    """Return a walk that goes on from where this one stands to the nearest ending, without reading anything."""
    waiting = [proven.walk]
    for walk in waiting:
        if walk.ended:
            whole, gone = traced(
                library, walk.tree, walk.meter, ((one.answer, one.time) for one in walk.answers)
            )
            return Proven(whole, gone)
        if len(waiting) > most:
            return None
        waiting.extend(walk.answer(answer) for answer in _plain(walk.now.node))
    return None


def _plain(node: Node) -> Iterator[Answer]:
    match node:
        case Ask():
            yield from (Choose(choice.id) for choice in node.choices)
            yield Unsure()
        case Step():
            yield from (Cannot(), Done())
        case Measure():
            yield Unable()
        case Tally():
            yield Unsure()
