"""From a `Written` tree and the parts it uses to the one flat `Tree` that a walk runs on.

Three passes over the files put in: scopes (who is used where, with which parameters), exits (from the
outside in, so that an inner exit finds the way its caller gave it), nodes (every name made full).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from .fill import fill
from .model import Node, Route, Tree, Use, Written
from .scope import Bound, Scope
from .source import Place, Problem, TreeError
from .words import choose_from, listed, quoted

Find = Callable[[str, Route, str | None], Place]
"""From a file, the route of a node in it and a word of that node to the place of the word."""

DEEPEST_USE = 10


def nowhere(file: str, route: Route, word: str | None) -> Place:
    """Stand in for a finder where the files' texts are not at hand."""
    del route, word
    return Place(file, 1, 1)


def expand(
    written: Written,
    parts: Callable[[str], Written],
    *,
    says: Mapping[str, str] | None = None,
    find: Find = nowhere,
) -> Tree:
    """Return `written` with its parts put in: names `use.node`, parameters filled, exits joined to ways.

    `parts` returns a part by name and raises `KeyError` where there is none; `says` are the words for
    places, for `{parameter}` in texts. Raises `TreeError` with every name that means nothing.
    """
    work = _Work(parts, find)
    top = work.scope(written, "", {}, says or {}, (written.name,))
    if work.problems:
        raise TreeError(work.problems)
    work.connect(top)
    nodes = dict(work.nodes(top))
    if work.problems:
        raise TreeError(work.problems)
    return Tree(
        name=written.name,
        file=written.file,
        symptom=written.symptom,
        begin=top.begin_of(written.begin),
        about=written.about,
        also=written.also,
        starts=written.starts,
        nodes=nodes,
    )


class _Work:
    def __init__(self, parts: Callable[[str], Written], find: Find) -> None:
        self.parts, self.find = parts, find
        self.problems: list[Problem] = []

    def tell(self, file: str, route: Route, message: str, word: str | None = None) -> None:
        self.problems.append(Problem(self.find(file, route, word), message))

    def scope(
        self,
        written: Written,
        prefix: str,
        bound: Mapping[str, Bound],
        says: Mapping[str, str],
        chain: tuple[str, ...],
    ) -> Scope:
        """Return the scope of a file put in at `prefix`, with the scopes of all parts it uses."""
        scope = Scope(written, prefix, bound, {}, {}, says)
        if written.begin not in written.nodes:
            what = f"The {written.kind} begins at {quoted(written.begin)}, and no node has that name."
            self.tell(
                written.file, ("begin",), what + choose_from(written.begin, written.nodes), written.begin
            )
        for name, use in written.nodes.items():
            if not isinstance(use, Use):
                continue
            part = self._part(use, chain)
            if part is not None:
                given = self._given(scope, use, part)
                scope.inner[name] = self.scope(
                    part, f"{prefix}{name}.", given, says, (*chain, f"part {part.name}")
                )
        return scope

    def _part(self, use: Use, chain: tuple[str, ...]) -> Written | None:
        if f"part {use.part}" in chain:
            round_ = [*chain[chain.index(f"part {use.part}") :], f"part {use.part}"]
            self.tell(
                use.file, use.route, f"Parts use each other in a circle: {' > '.join(round_)}.", use.part
            )
            return None
        if len(chain) > DEEPEST_USE:
            self.tell(
                use.file, use.route, f"Parts are put into parts more than {DEEPEST_USE} deep.", use.part
            )
            return None
        try:
            return self.parts(use.part)
        except KeyError as error:
            hint = error.args[1] if len(error.args) > 1 else ""
            self.tell(use.file, use.route, f"There is no part {quoted(use.part)}.{hint}", use.part)
            return None

    def _given(self, scope: Scope, use: Use, part: Written) -> dict[str, Bound]:
        def tell(message: str, word: str | None = None) -> None:
            self.tell(use.file, use.route, message, word)

        given: dict[str, Bound] = {}
        for name, value in use.with_:
            if name not in part.takes:
                tell(f"The part {part.name} takes no {quoted(name)}.{choose_from(name, part.takes)}", name)
            passed = scope.bound.get(value[1:]) if value.startswith("$") else Bound(value, scope)
            if passed is None:
                scope.word(value, tell)
            given[name] = passed or Bound(value[1:], scope)
        if without := [name for name in part.takes if name not in given]:
            tell(f"The part {part.name} also takes {listed(without, 'and')}. Name it under `with`.", use.part)
        exits = [name for name, _ in use.exits]
        for name in exits:
            if name not in part.exits:
                tell(f"The part {part.name} has no exit {quoted(name)}.{choose_from(name, part.exits)}", name)
        if open_ := [name for name in part.exits if name not in exits]:
            what = (
                f"The part {part.name} also has {listed(open_, 'and')}. Say under `exits` where that leads."
            )
            tell(what, use.part)
        return given

    def connect(self, scope: Scope) -> None:
        """Give every part the ways its caller wrote for its exits, outermost first."""
        for name, inner in scope.inner.items():
            use = scope.written.nodes[name]
            assert isinstance(use, Use)  # noqa: S101 - only uses have an inner scope
            inner.exits.update((label, scope.way(way, self._teller(use))) for label, way in use.exits)
            self.connect(inner)

    def nodes(self, scope: Scope) -> Iterator[tuple[str, Node]]:
        """Yield every node of the tree with its full name, in the order written."""
        for name, node in scope.written.nodes.items():
            tell = self._teller(node)
            if isinstance(node, Use):
                inner = dict(self.nodes(scope.inner[name]))
                given = fill(node, scope, tell)
                begin = scope.begin_of(name)
                for full, there in inner.items():
                    yield full, self._hand_down(given, there, first=full == begin)
            else:
                yield scope.prefix + name, fill(node, scope, tell)

    def _hand_down(self, use: Node, node: Node, *, first: bool) -> Node:
        """What a use says in common is said of the part's first node; its heading of all."""
        if first and (use.at_most or use.spent) and node.at_most:
            self.tell(
                use.file, use.route, "The part's first node has its own `at_most`. Count at one of the two."
            )
        group = node.group or use.group
        if not first:
            return node if group == node.group else replace(node, group=group)
        return replace(
            node,
            group=group,
            why=node.why or use.why,
            hint=node.hint or use.hint,
            cautions=tuple(dict.fromkeys((*use.cautions, *node.cautions))),
            needs=tuple((dict(use.needs) | dict(node.needs)).items()),
            at_most=node.at_most or use.at_most,
            spent=node.spent or use.spent,
        )

    def _teller(self, node: Node) -> Callable[[str, str | None], None]:
        return lambda message, word: self.tell(node.file, node.route, message, word)
