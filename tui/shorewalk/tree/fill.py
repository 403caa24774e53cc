"""A node as its author wrote it, made whole: full names, parameters filled in, texts with their words."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TypeVar

from .model import (
    Ask,
    Band,
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
    Way,
    Work,
)
from .scope import Scope, Tell

PLACEHOLDER = re.compile(r"\{([^{}]*)\}")

Any = TypeVar("Any", bound=Node)


def fill(node: Node, scope: Scope, tell: Tell) -> Node:
    """Return `node` as it stands in the whole tree; `tell` is called for every name that means nothing."""
    return _Filler(scope, tell).node(node)


class _Filler:
    def __init__(self, scope: Scope, tell: Tell) -> None:
        self.scope, self.tell = scope, tell

    def node(self, node: Node) -> Node:
        filled = self._common(node)
        match filled:
            case Ask():
                choices = tuple(
                    replace(c, says=self._text(c.says), way=self._way(c.way)) for c in filled.choices
                )
                return replace(
                    filled,
                    text=self._text(filled.text),
                    sign=self._word(filled.sign),
                    choices=choices,
                    unsure=self._maybe_way(filled.unsure),
                )
            case Step():
                return replace(
                    filled,
                    text=self._text(filled.text),
                    leaves=self.scope.pairs(filled.leaves, self.tell),
                    done=self._way(filled.done),
                    cannot=self._maybe_way(filled.cannot),
                )
            case Measure():
                return self._measure(filled)
            case Work():
                return replace(
                    filled,
                    inputs=tuple((name, self._node(node)) for name, node in filled.inputs),
                    next=self._maybe_way(filled.next),
                    bands=self._bands(filled.bands),
                    missing=self._maybe_way(filled.missing),
                )
            case Tally():
                return replace(
                    filled,
                    text=self._text(filled.text),
                    loads=self._words(filled.loads),
                    at_voltage=filled.at_voltage and self._node(filled.at_voltage),
                    next=self._maybe_way(filled.next),
                    bands=self._bands(filled.bands),
                    unsure=self._maybe_way(filled.unsure),
                )
            case Judge():
                return replace(
                    filled,
                    rows=tuple(self._row(row) for row in filled.rows),
                    of=tuple(self._node(name) for name in filled.of),
                    missing=self._maybe_way(filled.missing),
                )
            case End():
                return self._end(filled)
            case Jump():
                return replace(filled, tree=self._word(filled.tree))
        return filled

    def _common(self, node: Any) -> Any:
        return replace(
            node,
            name=self.scope.prefix + node.name,
            why=self._maybe_text(node.why),
            hint=self._maybe_text(node.hint),
            group=self._maybe_text(node.group),
            cautions=self._words(node.cautions),
            needs=self.scope.pairs(node.needs, self.tell),
            spent=self._maybe_way(node.spent),
        )

    def _measure(self, node: Measure) -> Node:
        load = Load(self._word(node.load.amount), node.load.at and self._word(node.load.at))
        return replace(
            node,
            what=self._word(node.what),
            place=self._word(node.place),
            from_=self._word(node.from_),
            to=self._word(node.to),
            load=load,
            meter=self._word(node.meter),
            text=self._maybe_text(node.text),
            normal=self._maybe_text(node.normal),
            next=self._maybe_way(node.next),
            bands=self._bands(node.bands),
            unable=self._maybe_way(node.unable),
        )

    def _end(self, node: End) -> Node:
        return replace(
            node,
            verdict=self._word(node.verdict),
            because=self._text(node.because),
            safe_action=self._maybe_text(node.safe_action),
            call=node.call and self._word(node.call),
            call_when=self._maybe_text(node.call_when),
            first=node.first and self._word(node.first),
            say=self._maybe_text(node.say),
            not_ruled_out=self._words(node.not_ruled_out),
        )

    def _row(self, row: Row) -> Row:
        return Row(
            self._way(row.way),
            tuple(self._condition(c) for c in row.when),
            self.scope.pairs(row.while_, self.tell),
            row.worst and self._word(row.worst),
            row.lacks and self._word(row.lacks),
        )

    def _condition(self, asked: Condition) -> Condition:
        cuts = (asked.choice, asked.from_, asked.above, asked.below, asked.upto)
        return Condition(self._node(asked.node), *(cut and self._word(cut) for cut in cuts))

    def _bands(self, bands: tuple[Band, ...]) -> tuple[Band, ...]:
        return tuple(
            Band(self._way(b.way), b.below and self._word(b.below), b.upto and self._word(b.upto))
            for b in bands
        )

    def _word(self, word: str) -> str:
        return self.scope.word(word, self.tell)

    def _words(self, words: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(self.scope.word(word, self.tell) for word in words) if words else words

    def _node(self, name: str) -> str:
        return self.scope.node(name, self.tell)

    def _way(self, way: Way) -> Way:
        return self.scope.way(way, self.tell)

    def _maybe_way(self, way: Way | None) -> Way | None:
        return way and self.scope.way(way, self.tell)

    def _text(self, text: str) -> str:
        if text.startswith("$"):
            return self._word(text)
        return (
            PLACEHOLDER.sub(lambda m: self.scope.placeholder(m[1], self.tell), text) if "{" in text else text
        )

    def _maybe_text(self, text: str | None) -> str | None:
        return text and self._text(text)
