"""Proving damages: many of one tree together where only ways out differ, else each alone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import islice
from typing import NamedTuple

from shorewalk.lint.view import View
from shorewalk.lint.walks.proof import proof
from shorewalk.tree.expand import expand
from shorewalk.tree.model import Jump, Node, Tree
from shorewalk.tree.source import TreeError

from .cone import cone
from .damaged import DamagedLibrary, Sound
from .edits import Damage
from .lacking import Lacking
from .together import SOUND, Damaged, Together
from .versions import alike

MANY, FEW = 80, 28
"""So many damages go through the walks together; of those that lead elsewhere fewer, for they make more matter."""

LEAD_ELSEWHERE = ("goto", "led", "skipped", "steps")

STATES = 2_500_000
"""Where damages have led to so many states, each half of them is gone through for itself."""

PLUGS_IN = "arrival"
PROVED_IN = 1
"""So many trees that hold a part are gone through, each where the part is first used; `arrival` before others."""

CLEAN = ""
ALONE, WHOLE = "?", "jumps"


class Task(NamedTuple):
    """Damages to be proved in one tree, each where its file is used first."""

    tree: str
    damages: tuple[Damage, ...]


class Prover:
    """Proves damages to a sound library."""

    def __init__(self, sound: Sound) -> None:
        self.sound = sound

    def trees(self, damage: Damage) -> list[str]:
        """Return the trees in which a damage is to be proved."""
        held = self.sound.trees_with(damage.file)
        return sorted(held, key=lambda tree: tree != PLUGS_IN)[:PROVED_IN]

    def tasks(self, damages: Iterable[tuple[Damage, str]]) -> Iterator[Task]:
        """Yield what is to be proved together, of damages with a tree for each."""
        found: dict[tuple[str, int], list[tuple[int, Damage]]] = {}
        for damage, tree in damages:
            names = _first_use(touched(self.sound, self.sound.trees[tree], damage))
            first = list(self.sound.trees[tree].nodes).index(names[0]) if names else 0
            most = FEW if any(word in damage.kind for word in LEAD_ELSEWHERE) else MANY
            found.setdefault((tree, most), []).append((first, damage))
        for (tree, most), some in found.items():
            ordered = iter([damage for _, damage in sorted(some, key=lambda each: each[0])])
            while chunk := tuple(islice(ordered, most)):
                yield Task(tree, chunk)

    def prove(self, task: Task) -> Iterator[tuple[Damage, str, str]]:
        """Yield each damage with the rule that finds it (or none) and where; `ALONE`: it is to be looked at alone."""
        sound = self.sound.trees[task.tree]
        some: list[tuple[Damage, Damaged]] = []
        alone: list[Damage] = []
        at: set[str] = set()
        for damage in task.damages:
            names = touched(self.sound, sound, damage)
            try:
                tree = self._damaged(damage, task.tree)
                changed = {name: tree.nodes[name] for name in names if tree.nodes[name] != sound.nodes[name]}
            except (TreeError, KeyError):
                alone.append(damage)
                continue
            if any(_jumps_elsewhere(sound.nodes[name], node) for name, node in changed.items()):
                yield damage, ALONE, WHOLE
                continue
            head = (tree.begin, tree.starts) != (sound.begin, sound.starts)
            if not changed and not head:
                yield damage, CLEAN, "nothing is otherwise"
            elif all(alike(sound.nodes[name], node) for name, node in changed.items()):
                at |= {sound.begin} if head else set(_first_use(changed))
                some.append((damage, Damaged(changed, tree.begin, tree.starts)))
            else:
                alone.append(damage)
        yield from self._some(sound, some, at) if some else ()
        for damage in alone:
            yield damage, ALONE, ""

    def _some(
        self, sound: Tree, some: list[tuple[Damage, Damaged]], at: set[str]
    ) -> Iterator[tuple[Damage, str, str]]:
        library = self.sound.library
        together = Together(View(library, [sound.name]), library.site, sound, [each for _, each in some], at)
        whole = together.run(STATES)
        if not whole and len(some) > 1:
            half = len(some) // 2
            for part in (some[:half], some[half:]):
                yield from self._some(
                    sound, part, {name for _, each in part for name in each.nodes} & at or at
                )
            return
        lacking = Lacking(together)
        lacking.run()
        sure = whole and together.alive & SOUND
        open_ = (lacking.open | together.elsewhere()) & together.alive if sure else together.alive
        for bit, (damage, _) in enumerate(some, 1):
            if open_ >> bit & 1 or not together.alive & SOUND:
                yield damage, ALONE, WHOLE
            else:
                yield (damage, *together.found.get(bit, (CLEAN, sound.name)))

    def alone(self, damage: Damage, name: str, *, whole: bool = False) -> tuple[str, str]:
        library = DamagedLibrary(self.sound, damage)
        tree, sound = library.tree(name), self.sound.trees[name]
        at = damaged_nodes(tree, sound)
        if not at:
            return CLEAN, "nothing is otherwise"
        if not whole:
            library.put(cone(tree, _first_use(at)))
        view = View(library, [name])
        assert view.site
        shown = proof(view, view.site)
        rules = [rule for rule, broken in shown.rules.items() if broken]
        rules += ["needs-hold"] if shown.needs or shown.starts else []
        return (rules[0], f"{name}, alone") if rules else (CLEAN, f"{name}, alone")

    def _damaged(self, damage: Damage, name: str) -> Tree:
        library = DamagedLibrary(self.sound, damage)
        says, find = library._says, library.find
        return expand(library.written(name), library.part, says=says, find=find, whole=False)


def touched(sound: Sound, tree: Tree, damage: Damage) -> list[str]:
    """Return the nodes of a tree that a damage may have changed."""
    if any(route[0] != "nodes" for route, _ in damage.edits):
        return list(tree.nodes)
    path = sound.files[damage.file]
    written = {str(route[1]) for route, _ in damage.edits}
    mine = {name: str(node.route[1]) for name, node in tree.nodes.items() if node.file == path}
    uses = {name.removesuffix(local) for name, local in mine.items()}
    heads = tuple(f"{use}{local}." for use in uses for local in written)
    return [name for name in tree.nodes if mine.get(name) in written or (heads and name.startswith(heads))]


def _jumps_elsewhere(sound: Node, other: Node) -> bool:
    return isinstance(sound, Jump) and isinstance(other, Jump) and sound.tree != other.tree


def _first_use(names: Iterable[str]) -> list[str]:
    """Return those of some nodes where their part is first put in by the tree itself, else by another part."""
    names = list(names)
    uses = list(dict.fromkeys(name.rpartition(".")[0] for name in names))
    first = min(uses, key=lambda use: use.count("."), default="")
    return [name for name in names if name.rpartition(".")[0] == first]


def damaged_nodes(tree: Tree, sound: Tree) -> list[str]:
    """Return the nodes of a tree that are not as they were; its first where its head differs."""
    if (tree.begin, tree.starts) != (sound.begin, sound.starts):
        return [tree.begin]
    return [name for name, node in tree.nodes.items() if node != sound.nodes.get(name)]
