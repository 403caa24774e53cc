"""Every walk there is, one node at a time, by the walk's own functions and with all that it keeps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from shorewalk.tree.facts import Site
from shorewalk.tree.model import AGAIN, Ask, Judge, Jump, Measure, Node, Step, Tree, Way, Work, worse
from shorewalk.walk import state as states
from shorewalk.walk.answers import Answer, Cannot, Choose, Done, Read, Unable, Unsure
from shorewalk.walk.interval import of_reading
from shorewalk.walk.judge import condition_met, judge_bands
from shorewalk.walk.judging import pass_judge
from shorewalk.walk.ledger import Key, Ledger
from shorewalk.walk.meter import Meter
from shorewalk.walk.reading import read
from shorewalk.walk.taking import take
from shorewalk.walk.working import pass_work

METERS = tuple(Meter("widest", 3.0, 10.0, tenths) for tenths in (True, False, None))


@dataclass(slots=True)
class Seen(Ledger):
    """A ledger that remembers the way it went last, and which readings were judged ok or watch since then."""

    way: Way = field(default_factory=lambda: Way(""))
    judged: frozenset[Key] = frozenset()

    def go(self, way: Way | None) -> None:
        """Go a way, and remember it."""
        assert way
        self.way = way
        Ledger.go(self, way)


@dataclass(frozen=True)
class Went:
    """One step of a walk: where it stood, how it was left (`read`, `choose` by its id ...), the grade that gave."""

    before: Seen
    label: str
    after: Seen
    grade: str | None

    @property
    def way(self) -> Way:
        """The way that was gone; a jump has none."""
        return self.after.way

    @property
    def again(self) -> bool:
        """What was read counts for nothing."""
        return self.way.grade == AGAIN


@dataclass
class Walks:
    """Walks in these trees."""

    site: Site
    trees: dict[str, Tree]
    _texts: dict[tuple[Key, bool], tuple[str, ...]] = field(default_factory=dict)

    def tree(self, name: str) -> Tree:
        """A tree by name, as a walk wants it."""
        return self.trees[name]

    def begins(self) -> Iterator[Seen]:
        """A walk in every tree, with every kind of meter."""
        for tree in self.trees.values():
            for meter in METERS:
                standing = states.at_begin(tree.starts, self.site.states)
                yield Seen(self, self.site, meter, tree, tree.nodes[tree.begin], standing)

    def spent(self, ledger: Seen) -> bool:
        """The node was come to more often than it may be."""
        most = ledger.node.at_most
        return most is not None and ledger.arrivals.get(ledger.key(), 0) >= most

    def steps(self, ledger: Seen) -> Iterator[Went]:
        """Every way on from where a walk stands."""
        node = ledger.node
        if self.spent(ledger):
            after = _copy(ledger)
            after.go(node.spent)
            yield self._went(ledger, "spent", after, after.way.grade)
            return
        for label, answer in self._answers(ledger):
            after = _copy(ledger)
            after.arrivals[after.key()] = after.arrivals.get(after.key(), 0) + 1
            match node:
                case Jump():
                    after.tree = self.trees[node.tree]
                    after.go(Way(after.tree.begin))
                case Judge():
                    pass_judge(after, node)
                case Work():
                    pass_work(after, node)
                case _:
                    assert answer
                    after.moment += 1
                    take(after, answer, None)
            yield self._went(ledger, label, after, self._grade(node, label, after.way))

    def _answers(self, ledger: Seen) -> Iterator[tuple[str, Answer | None]]:
        match ledger.node:
            case Ask() as node:
                yield from ((choice.id, Choose(choice.id)) for choice in node.choices)
                yield "unsure", Unsure()
            case Step():
                yield from (("done", Done()), ("cannot", Cannot()))
            case Measure() as node:
                yield from (("read", Read(text, confirmed=True)) for text in self._readings(ledger, node))
                yield "unable", Unable()
            case Jump() | Judge() | Work():
                yield "", None

    def _grade(self, node: Node, label: str, way: Way) -> str | None:
        """The grade of a way; of an answer the sign's too, and not knowing is as bad as the worst of them."""
        if isinstance(node, Ask):
            answers = self.site.signs[node.sign].answers
            each = {choice.id: worse(choice.way.grade, answers.get(choice.id)) for choice in node.choices}
            if label != "unsure":
                return each[label]
            if way.grade is None:
                worst = None
                for grade in each.values():
                    worst = worse(worst, grade)
                return worst
        return worse(way.grade, None)

    def _went(self, before: Seen, label: str, after: Seen, grade: str | None) -> Went:
        node, good = before.node, grade in ("ok", "watch")
        key = before.key()
        if isinstance(node, Measure) and label != "spent":
            after.judged -= {key}
            if label == "read" and good and key in after.taken:
                after.judged |= {key}
        if isinstance(node, Judge) and label != "spent" and good and node.of:
            row = next((row for row in node.rows if row.way is after.way), None)
            names = {*node.of, *(one.node for one in row.when)} if row else set()
            after.judged |= frozenset({before.key(name) for name in names} & after.taken.keys())
        after.judged = frozenset(after.judged & after.taken.keys())
        return Went(before, label, after, worse(grade, None))

    def _readings(self, ledger: Seen, node: Measure) -> tuple[str, ...]:
        """What a meter may show: on every side of every limit, near and far; of those that nothing tells apart one."""
        key = (ledger.key(), bool(ledger.meter.tenths))
        if key not in self._texts:
            found: dict[object, str] = {}
            for text in _texts([limit.value for limit in self.site.limits.values()]):
                reading = read(text, node.what, None, ledger.meter, confirmed=True)
                amount = of_reading("", reading, ledger.meter, node.what)
                band = judge_bands(node.bands, amount, self.site.limits).index if node.bands else 0
                met = [
                    condition_met(one, amount, self.site.limits)
                    for each in ledger.tree.nodes.values()
                    if isinstance(each, Judge)
                    for row in each.rows
                    for one in row.when
                    if one.node == node.name and one.choice is None
                ]
                found.setdefault((band, tuple(met)), text)
            self._texts[key] = tuple(found.values())
        return self._texts[key]


def _copy(ledger: Seen) -> Seen:
    after = ledger.copy()
    assert isinstance(after, Seen)
    return after


def _texts(limits: list[float]) -> Iterator[str]:
    for limit in sorted(limits):
        yield from (f"{limit + by:.1f}" for by in (-30.0, -0.3, 0.0, 0.3, 30.0))
        yield from (f"{limit - under:.1f}-{limit + over:.1f}" for under, over in ((1.2, 0.4), (0.4, 1.2)))
