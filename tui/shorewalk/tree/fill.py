"""A node as its author wrote it, made whole: full names, parameters filled in, texts with their words."""

from __future__ import annotations

import re
from typing import Any

from .model import (
    Ask,
    Band,
    Choice,
    Condition,
    End,
    Judge,
    Jump,
    Load,
    Measure,
    Node,
    Row,
    Step,
    Tally,
    Use,
    Way,
    Work,
)
from .scope import Scope

PLACEHOLDER = re.compile(r"\{([^{}]*)\}")


def fill(node: Node, scope: Scope) -> Node:
    """Return `node` as it stands in the whole tree; names that mean nothing are told to the scope's desk."""
    filler = _Filler(scope, node)
    common = {
        "name": scope.prefix + node.name,
        "file": node.file,
        "route": node.route,
        "at_most": node.at_most,
        "why": filler.maybe_text(node.why),
        "hint": filler.maybe_text(node.hint),
        "group": filler.maybe_text(node.group),
        "cautions": filler.words(node.cautions),
        "needs": filler.pairs(node.needs),
        "spent": filler.maybe_way(node.spent),
    }
    return type(node)(**common, **filler.own(node))


class _Filler:
    def __init__(self, scope: Scope, at: Node) -> None:
        self.scope, self.at = scope, at

    def own(self, node: Node) -> dict[str, Any]:
        """Return what a node of its kind has beside what all have."""
        match node:
            case Ask():
                choices = (Choice(c.id, self.text(c.says), self.way(c.way)) for c in node.choices)
                return {
                    "text": self.text(node.text),
                    "sign": self.word(node.sign),
                    "choices": tuple(choices),
                    "unsure": self.maybe_way(node.unsure),
                }
            case Step():
                return {
                    "text": self.text(node.text),
                    "leaves": self.pairs(node.leaves),
                    "done": self.way(node.done),
                    "cannot": self.maybe_way(node.cannot),
                }
            case Measure():
                return {
                    "what": self.word(node.what),
                    "place": self.word(node.place),
                    "from_": self.word(node.from_),
                    "to": self.word(node.to),
                    "load": Load(self.word(node.load.amount), node.load.at and self.word(node.load.at)),
                    "meter": self.word(node.meter),
                    "text": self.maybe_text(node.text),
                    "normal": self.maybe_text(node.normal),
                    "unable": self.maybe_way(node.unable),
                    **self.onward(node),
                }
            case Work():
                inputs = tuple((name, self.node(node)) for name, node in node.inputs)
                return {
                    "out": node.out,
                    "using": node.using,
                    "inputs": inputs,
                    "missing": self.maybe_way(node.missing),
                    **self.onward(node),
                }
            case Tally():
                return {
                    "text": self.text(node.text),
                    "loads": self.words(node.loads),
                    "at_voltage": node.at_voltage and self.node(node.at_voltage),
                    "out": node.out,
                    "nothing": node.nothing,
                    "unsure": self.maybe_way(node.unsure),
                    **self.onward(node),
                }
            case Judge():
                return {
                    "rows": tuple(self.row(row) for row in node.rows),
                    "of": tuple(self.node(name) for name in node.of),
                    "missing": self.maybe_way(node.missing),
                }
            case Jump():
                return {"tree": self.word(node.tree)}
            case End():
                return {
                    "verdict": self.word(node.verdict),
                    "because": self.text(node.because),
                    "safe_action": self.maybe_text(node.safe_action),
                    "call": node.call and self.word(node.call),
                    "call_when": self.maybe_text(node.call_when),
                    "first": node.first and self.word(node.first),
                    "say": self.maybe_text(node.say),
                    "not_ruled_out": self.words(node.not_ruled_out),
                }
            case Use():
                return {"part": node.part, "with_": node.with_, "exits": node.exits}
        raise TypeError(node)

    def onward(self, node: Measure | Work | Tally) -> dict[str, Any]:
        bands = (
            Band(self.way(b.way), b.below and self.word(b.below), b.upto and self.word(b.upto))
            for b in node.bands
        )
        return {"next": self.maybe_way(node.next), "bands": tuple(bands)}

    def row(self, row: Row) -> Row:
        when = tuple(self.condition(asked) for asked in row.when)
        worst, lacks = row.worst and self.word(row.worst), row.lacks and self.word(row.lacks)
        return Row(self.way(row.way), when, self.pairs(row.while_), worst, lacks)

    def condition(self, asked: Condition) -> Condition:
        cuts = (asked.choice, asked.from_, asked.above, asked.below, asked.upto)
        return Condition(self.node(asked.node), *(cut and self.word(cut) for cut in cuts))

    def word(self, word: str) -> str:
        return self.scope.word(word, self.at)

    def words(self, words: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(self.word(word) for word in words) if words else words

    def pairs(self, pairs: Any) -> Any:
        return self.scope.pairs(pairs, self.at)

    def node(self, name: str) -> str:
        return self.scope.node(name, self.at)

    def way(self, way: Way) -> Way:
        return self.scope.way(way, self.at)

    def maybe_way(self, way: Way | None) -> Way | None:
        return way and self.scope.way(way, self.at)

    def text(self, text: str) -> str:
        if text.startswith("$"):
            return self.word(text)
        return PLACEHOLDER.sub(lambda m: self.scope.placeholder(m[1], self.at), text) if "{" in text else text

    def maybe_text(self, text: str | None) -> str | None:
        return text and self.text(text)
