"""From a `Written` tree and the parts it uses to the one flat `Tree` that a walk runs on."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from .fill import fill
from .model import Node, Route, Tree, Use, Written
from .scope import Desk, Find, Scope
from .size import refuse_too_large
from .source import Place, not_collecting


def nowhere(file: str, route: Route, word: str | None) -> Place:
    """Stand in for a finder where the files' texts are not at hand."""
    del route, word
    return Place(file, 1, 1)


def expand(
    written: Written,
    parts: Callable[[str], Written],
    *,
    says: Callable[[str], str | None] = lambda _: None,
    find: Find = nowhere,
    whole: bool = True,
) -> Tree:
    """Return `written` with its parts put in: names `use.node`, parameters filled, exits joined to ways.

    `parts` returns a part by name and raises `KeyError` where there is none; `says` gives the words for a
    place, for `{parameter}` in texts. Raises `TreeError` with every name that means nothing. Without `whole`,
    nodes are made (and their faults told) only when they are first wanted.
    """
    desk = Desk(parts, says, find)
    if whole:
        refuse_too_large(written, parts, desk)
    top = Scope(written, desk)
    nodes = Nodes(top).all_made() if whole else Nodes(top)
    desk.settle()
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


class Nodes(Mapping[str, Node]):
    """The nodes of a tree by full name, in the order written; each is made when it is first wanted."""

    def __init__(self, top: Scope) -> None:
        self._top = top
        self._made: dict[str, Node] = {}

    def __getitem__(self, name: str) -> Node:
        if name not in self._made:
            scope, local = self._top, name
            while "." in local:
                head, _, local = local.partition(".")
                inner = scope.inner(head)
                if inner is None:
                    raise KeyError(name)
                scope = inner
            node = scope.written.nodes[local]
            if isinstance(node, Use):
                raise KeyError(name)
            self._made[name] = _make(scope, node)
            scope.desk.settle()
        return self._made[name]

    def __iter__(self) -> Iterator[str]:
        return (scope.prefix + node.name for scope, node in _written(self._top))

    def __len__(self) -> int:
        return sum(1 for _ in _written(self._top))

    def __repr__(self) -> str:
        return f"{type(self).__name__}({dict(self)!r})"

    def all_made(self) -> Mapping[str, Node]:
        """Return every node, made, so that the desk holds every problem."""
        with not_collecting():
            return {scope.prefix + node.name: _make(scope, node) for scope, node in _written(self._top)}


def _written(scope: Scope) -> Iterator[tuple[Scope, Node]]:
    for name, node in scope.written.nodes.items():
        if not isinstance(node, Use):
            yield scope, node
        elif inner := scope.inner(name):
            yield from _written(inner)


def _make(scope: Scope, node: Node) -> Node:
    made = fill(node, scope)
    first = node.name == scope.written.begin
    while scope.outer and scope.use:
        made = _hand_down(scope.use, made, scope.outer, first=first)
        first = first and scope.use.name == scope.outer.written.begin
        scope = scope.outer
    return made


def _hand_down(use: Use, node: Node, outer: Scope, *, first: bool) -> Node:
    """What a use says in common is said of the part's first node; its heading of all."""
    if first and use.at_most and node.at_most:
        outer.desk.tell(
            use, "The part's first node counts by its own `at_most`. Count at one of the two.", "at_most"
        )
    group = node.group or use.group
    if not first or not (use.why or use.hint or use.cautions or use.needs or use.at_most):
        return node if group == node.group else replace(node, group=group)
    given = fill(use, outer)
    return replace(
        node,
        group=group,
        why=node.why or given.why,
        hint=node.hint or given.hint,
        cautions=tuple(dict.fromkeys((*given.cautions, *node.cautions))),
        needs=tuple((dict(given.needs) | dict(node.needs)).items()),
        at_most=node.at_most or given.at_most,
        spent=node.spent or given.spent,
    )
