"""A broken safety rule in words: what happens at a node, what may not hold then, what came before, what to do."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import groupby, pairwise

from shorewalk.tree.facts import Site
from shorewalk.tree.model import Ask, End, Measure, Step
from shorewalk.tree.safety import Clause, Event
from shorewalk.tree.words import listed, quoted

from ..finding import Finding, Related, Severity
from ..view import View
from .event_words import held, past
from .explore import Explorer
from .happen import acts_of
from .proof import Broken, since
from .unmet import Unmet, hint_of, unmet, unmet_words
from .watch import LATCH

AT = {"grade": "graded", "sign": "answered", "measure": "read", "set": "set", "state": "set"}
"""What was done where an event came about."""


class Telling:
    """Tells what is broken of one rule. `rule` is the name it is told by."""

    def __init__(self, rule: str, view: View, explorer: Explorer, site: Site) -> None:
        self.rule, self.view, self.explorer, self.site = rule, view, explorer, site

    def told(self, broken: Iterable[Broken]) -> Iterator[Finding]:
        """Yield the findings; clauses that break together, by one walk at one place, are told in one sentence."""

        def together(one: Broken) -> tuple[object, ...]:
            return (
                one.place,
                one.walked.words,
                self._does(one),
                bool(_clause(one).need),
                bool(_clause(one).after),
            )

        for _, several in groupby(sorted(broken, key=together), key=together):
            yield self._finding(list(several))

    def _finding(self, several: Sequence[Broken]) -> Finding:
        one = several[0]
        assert one.rule  # noqa: S101 - a clause was broken
        name = quoted(one.node.name.rpartition(".")[2])
        does = f"{name} {self._does(one)}"
        related: list[Related] = []
        if _clause(one).need:
            lacking = [each for broken in several for each in unmet(broken)]
            message, hint = f"{does} while {self._unmet(one, lacking)}.", hint_of(name, one.node, lacking)
            related += self._since(one, lacking)
        elif _clause(one).after:
            came = [(broken, *self._came(broken)) for broken in several]
            before = listed(dict.fromkeys(words for _, _, words in came), "and")
            message = f"{does}{self._while(one)} after {before}."
            hint = _before(name, several)
            related += dict.fromkeys(place for _, place, _ in came)
        else:
            message, hint = (
                f"{does}{self._while(one).rstrip(',')}.",
                "Take it out, or do it as the rule says.",
            )
        if self.rule != one.rule.id:
            place = self.view.fact("safety", (one.rule.id,), key=True)
            related.append(Related(place, f"the rule {one.rule.id}"))
        used = sorted(
            {each for broken in several for each in broken.used}, key=lambda each: (each.place, each.label)
        )
        return Finding(
            self.rule,
            Severity.ERROR,
            one.place,
            f"{message} {one.rule.says}",
            (*related, *used),
            hint,
            one.walked.words,
        )

    def _does(self, one: Broken) -> str:
        event, node = one.event, one.node
        assert event  # noqa: S101 - a clause was broken
        match event.kind, node:
            case "touch", _:
                what = f"takes a hand to the {listed(event.words)}"
            case "measure", Measure():
                mode = f" in {event.meter} mode" if event.meter else ""
                read = f" to read {event.what}" if event.what else ""
                what = f"puts probes to {node.from_} and {node.to} of {node.place}{mode}{read}"
            case "set", Step():
                names = event.words or [name for name, _ in event.sets]
                acts = [f"{name} to {quoted(value)}" for name, value in acts_of(node) if name in names]
                what = f"sets {listed(acts, 'and')}"
            case "energise", _:
                what = "brings power to the rig"
            case "ask", Ask():
                what = f"asks for {node.sign}"
            case _, End():
                call = f" and calls the {node.call}" if event.call else ""
                what = f"ends {quoted(node.verdict)}{call}"
            case _:
                what = "does this"
        return what

    def _while(self, one: Broken) -> str:
        assert one.event  # noqa: S101 - a clause was broken
        facts = one.event.while_
        return f" while {listed(held(facts), 'and')}," if facts else ""

    def _unmet(self, one: Broken, lacking: Sequence[Unmet]) -> str:
        assert one.event  # noqa: S101 - a clause was broken
        return listed([*held(one.event.while_), *unmet_words(lacking)], "and")

    def _since(self, one: Broken, lacking: Sequence[Unmet]) -> Iterator[Related]:
        """Yield since when the first of the states is so that should not be."""
        for name in [each.name for each in lacking if each.name in self.site.states][:1]:
            yield since(self.view, self.explorer, replace(one, state=name, watch=None))

    def _came(self, one: Broken) -> tuple[Related, str]:
        """Return where on the walk the latch was set, and in words by what."""
        events = _clause(one).after
        turned = [at for at, (was, is_) in enumerate(pairwise(one.walked.bits)) if is_ & ~was & LATCH]
        if not turned:
            event = next(event for event in events if event.kind == "state")
            tree = self.view.tree(one.walked.steps[0][0].tree if one.walked.steps else one.walked.at.tree)
            place = self.view.place((tree or one.tree).file, ("starts",), key=True)
            return Related(place, "so since the tree begins"), past(event)
        at, label = one.walked.steps[turned[-1]]
        event = self._opened(one, turned[-1])
        tree = self.view.tree(at.tree) or one.tree
        node = tree.nodes[at.node]
        asked = (node.sign, label.removeprefix("choose ")) if isinstance(node, Ask) else None
        place = self.view.of(node)
        return Related(place, f"{AT.get(event.kind, 'done')} so at {at.node} ({label})"), past(event, asked)

    def _opened(self, one: Broken, step: int) -> Event:
        """Return the first event of the clause that came about with a step of the walk."""
        assert one.watch  # noqa: S101 - a clause was broken
        at, label = one.walked.steps[step]
        tree = self.view.tree(at.tree) or one.tree
        number = self.explorer.states.index(at)
        ways = range(self.explorer.first[number], self.explorer.first[number + 1])
        moves = [self.explorer.moves[way] for way in ways if self.explorer.moves[way].label == label]
        happening = one.watch.happening
        for event in _clause(one).after:
            if any(
                happening.past(event, tree, tree.nodes[at.node], move, at.standing, surely=False)
                for move in moves
            ):
                return event
        return next(event for event in _clause(one).after if event.kind == "state")


def _clause(one: Broken) -> Clause:
    assert one.watch  # noqa: S101 - a clause was broken
    return one.watch.clause


def _before(name: str, several: Sequence[Broken]) -> str:
    """Return what to do where something came too early, or should not come at all."""
    ends = [past(event) for event in _clause(several[0]).until] if len(several) == 1 else []
    if ends:
        return f"Lead no walk to {name} after that, unless {listed(ends)} in between."
    return f"Lead no walk to {name} after that."
