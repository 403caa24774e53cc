"""States that must hold at a node, tried on every walk: one fault for each place as written, by its shortest walk."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace

from shorewalk.tree.facts import Site
from shorewalk.tree.model import Node, Pairs, Tree
from shorewalk.tree.source import Place

from .explore import Explorer, Visit
from .finding import Related
from .view import View

Wants = Callable[[Tree, Node], Pairs]
"""What must hold at a node."""


@dataclass(frozen=True, slots=True)
class Broken:
    """A state that may be otherwise: what it may be, the shortest walk that shows it, where it last changed."""

    tree: Tree
    node: Node
    state: str
    value: str
    may_be: tuple[str, ...]
    path: tuple[str, ...]
    changed: Related
    used: tuple[Related, ...] = field(default=())


def broken(view: View, site: Site, wants: Wants, where: Callable[[Tree, Node, str], Place]) -> list[Broken]:
    """Return every state that does not hold where it must, once for each place that `where` gives for it."""
    kept = {name for tree in view.trees for node in tree.nodes.values() for name, _ in wants(tree, node)}
    if not kept:
        return []
    found: dict[tuple[Place, str], Broken] = {}
    told: set[tuple[str, str, str]] = set()
    explorer = Explorer(view, site, kept)
    for visit in explorer.walk(*view.trees):
        for name, value in wants(visit.tree, visit.node):
            key = (visit.tree.name, visit.node.name, name)
            if key in told or explorer.standings.must(visit.at.standing, name, value):
                continue
            told.add(key)
            one = _broken(view, explorer, visit, name, value)
            place = where(visit.tree, visit.node, name)
            found[place, name] = _joined(found.get((place, name)), one)
    return [found[key] for key in sorted(found)]


def _joined(known: Broken | None, one: Broken) -> Broken:
    if known is None:
        return one
    best = min(known, one, key=lambda broken: (len(broken.path), broken.path))
    used = tuple(sorted({*known.used, *one.used}, key=lambda related: (related.place, related.label)))
    return replace(best, used=used)


def _broken(view: View, explorer: Explorer, visit: Visit, name: str, value: str) -> Broken:
    at = visit.at
    allowed = _allowed(explorer.site, name, value)
    possible = tuple(
        other for other in explorer.standings.possible(at.standing, name) if other not in allowed
    )
    return Broken(
        visit.tree,
        visit.node,
        name,
        value,
        possible,
        explorer.words(at),
        _changed(view, explorer, visit, name),
        view.used_at(visit.tree, visit.node.name),
    )


def _allowed(site: Site, name: str, value: str) -> Iterable[str]:
    state = site.states.get(name)
    return state.groups.get(value, (value,)) if state else (value,)


def _changed(view: View, explorer: Explorer, visit: Visit, name: str) -> Related:
    """Return the step after which the state was first known as it is now."""
    now = explorer.standings.possible(visit.at.standing, name)
    steps = explorer.path(visit.at)
    for before, label in reversed(steps):
        if explorer.standings.possible(before.standing, name) != now:
            tree = view.tree(before.tree)
            node = tree.nodes[before.node] if tree else None
            if node:
                return Related(view.of(node), f"{name} has been so since {node.name} ({label})")
    first = view.tree(steps[0][0].tree if steps else visit.at.tree) or visit.tree
    return Related(view.place(first.file, ("starts",), key=True), f"{name} has been so since the tree begins")
