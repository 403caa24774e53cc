"""What going through every walk shows: states that do not hold where they must, and endings that come too late.

All walks are gone through once for all rules that ask. Each fault is kept once for each place as written, by its
shortest walk.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from shorewalk.tree.facts import Site
from shorewalk.tree.model import ALLOW_USE, GRADES, End, Jump, Node, Pairs, Tree
from shorewalk.tree.source import Place

from .explore import Explorer, Visit
from .finding import Related
from .view import View

VERDICTS: dict[str, Pairs] = {
    "use-with-care": (("energised", "yes"), ("rig-main", "on")),
    "good-to-use": (("energised", "yes"), ("rig-main", "on")),
    "stay-unplugged": (("cord", "unplugged"), ("rig-main", "off")),
    "unplugged": (("cord", "unplugged"), ("rig-main", "off")),
}
"""What a verdict says of the rig and the pedestal."""

NOT_AFTER_STOP = (*ALLOW_USE, "leave-as-is")
STOP = GRADES.index("stop")


Want = tuple[str, str, str]
"""Why something must hold, the state, and the value."""


@dataclass(frozen=True, slots=True)
class Broken:
    """Something that must hold and may not. `why`: needs, starts, verdict or stop."""

    why: str
    place: Place
    tree: Tree
    node: Node
    state: str
    value: str
    may_be: tuple[str, ...]
    path: tuple[str, ...]
    changed: Related
    used: tuple[Related, ...]


def proof(view: View, site: Site) -> list[Broken]:
    """Return all that going through every walk shows; it is done once for each view."""
    if "proof" not in view.shown:
        view.shown["proof"] = _go_through(view, site)
    found: list[Broken] = view.shown["proof"]
    return found


def _go_through(view: View, site: Site) -> list[Broken]:
    found: dict[tuple[str, Place, str], Broken] = {}
    told: set[tuple[str, str, str]] = set()
    wanted = {
        (tree.name, name): wants
        for tree in view.trees
        for name, node in tree.nodes.items()
        if (wants := tuple(_wants(view, node)))
    }
    explorer = Explorer(
        view, site, {state for wants in wanted.values() for _, state, _ in wants}, keep_worst=True
    )
    for visit in explorer.walk(*view.trees):
        for why, state, value in wanted.get((visit.tree.name, visit.node.name), ()):
            key = (visit.tree.name, visit.node.name, why + state)
            if key in told or _holds(explorer, visit, why, state, value):
                continue
            told.add(key)
            one = _broken(view, explorer, visit, (why, state, value))
            key_ = (why, one.place, state)
            found[key_] = _joined(found[key_], one) if key_ in found else one
    return [found[key] for key in sorted(found)]


def _wants(view: View, node: Node) -> Iterator[Want]:
    yield from (("needs", state, value) for state, value in node.needs)
    if isinstance(node, Jump) and (other := view.tree(node.tree)):
        yield from (("starts", state, value) for state, value in other.starts)
    if isinstance(node, End):
        yield from (("verdict", state, value) for state, value in VERDICTS.get(node.verdict, ()))
        if node.verdict in NOT_AFTER_STOP:
            yield "stop", "", ""


def _holds(explorer: Explorer, visit: Visit, why: str, state: str, value: str) -> bool:
    if why == "stop":
        return visit.at.worst < STOP
    return explorer.standings.must(visit.at.standing, state, value)


def _joined(known: Broken, one: Broken) -> Broken:
    best = min(known, one, key=lambda broken: (len(broken.path), broken.path))
    used = tuple(sorted({*known.used, *one.used}, key=lambda related: (related.place, related.label)))
    return replace(best, used=used)


def _broken(view: View, explorer: Explorer, visit: Visit, want: Want) -> Broken:
    tree, node, at = visit
    why, state, value = want
    may_be: tuple[str, ...] = ()
    if why == "stop":
        changed = _since(view, explorer, visit, "was graded stop or worse")
    else:
        allowed = _allowed(explorer.site, state, value)
        may_be = tuple(v for v in explorer.standings.possible(at.standing, state) if v not in allowed)
        changed = _since(view, explorer, visit, f"{state} has been so", state)
    place = written_at(view, tree, node, why, state)
    return Broken(
        why,
        place,
        tree,
        node,
        state,
        value,
        may_be,
        explorer.words(at),
        changed,
        view.used_at(tree, node.name),
    )


def _allowed(site: Site, state: str, value: str) -> Iterable[str]:
    fact = site.states.get(state)
    return fact.groups.get(value, (value,)) if fact else (value,)


def _since(view: View, explorer: Explorer, visit: Visit, says: str, state: str = "") -> Related:
    """Return the step since which things are as they are: the state is known so, or the grade is a stop."""

    def same(standing: int, worst: int) -> bool:
        if not state:
            return worst >= STOP
        return explorer.standings.possible(standing, state) == explorer.standings.possible(
            visit.at.standing, state
        )

    steps = explorer.path(visit.at)
    for before, label in reversed(steps):
        tree = view.tree(before.tree)
        if tree and not same(before.standing, before.worst):
            node = tree.nodes[before.node]
            return Related(view.of(node), f"{says} since {node.name} ({label})")
    first = view.tree(steps[0][0].tree if steps else visit.at.tree) or visit.tree
    return Related(view.place(first.file, ("starts",), key=True), f"{says} since the tree begins")


def written_at(view: View, tree: Tree, node: Node, why: str, state: str) -> Place:
    """Return where it was written: a need in its node, or where the part it begins was put in."""
    if why != "needs":
        return view.of(node, "end" if isinstance(node, End) else "tree")
    prefix = node.name
    here: Node | None = node
    while here and not view.has(here, "needs", state) and "." in prefix:
        prefix = prefix.rpartition(".")[0]
        here = view.use(tree, prefix)
    return view.of(here, "needs", state, key=True) if here else view.of(node)
