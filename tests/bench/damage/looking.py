"""Whether the linter finds a damage: the cheap rules first, then the proof over fewer walks, then over all."""

from __future__ import annotations

import time
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

from shorewalk.lint.finding import Finding
from shorewalk.lint.look import look
from shorewalk.lint.proof import proof
from shorewalk.lint.rule import Rule
from shorewalk.lint.rules import RULES, grade_too_mild, hard_to_read, needs_hold, never_judged, safety
from shorewalk.lint.view import View
from shorewalk.tree.library import Library
from shorewalk.tree.model import Tree

from .cone import cone
from .damaged import DamagedLibrary, Sound
from .edits import Damage
from .walks import Walks

PROVED: tuple[Rule, ...] = (needs_hold.RULE, *safety.SHARED.values(), safety.RULE)
FLOOR = (grade_too_mild.RULE, never_judged.RULE)
LEFT_OUT = (hard_to_read.RULE,)
"""How easy a text reads finds no damage, and takes long."""

QUICK = tuple(rule for rule in RULES if rule not in (*PROVED, *FLOOR, *LEFT_OUT))
WEAK = "unreachable"
STOPPED = "?"
PLUGS_IN = "arrival"
PROVED_IN = 2
"""So many trees that hold a part are gone through, each where the part is first used; `arrival` before others."""


Told = tuple[str, str]
"""A rule and its message."""


class Result(NamedTuple):
    """What found a damage (rules, in order), through what it was looked for, and how long it took.

    `walk`: the recorded walk that goes otherwise, where the linter finds nothing. `stopped`: a rule that raised.
    `proved`: all that could find it was asked, and not the quick rules alone.
    """

    id: str
    kind: str
    rules: tuple[str, ...]
    looked_in: tuple[str, ...]
    seconds: float
    message: str = ""
    stopped: str = ""
    walk: str = ""
    proved: bool = True

    @property
    def found(self) -> bool:
        """Tell whether something other than `unreachable` found it."""
        return any(rule != WEAK for rule in self.rules)


class Looker:
    """Looks for damage in a library; knows what is told of the sound one, which does not count."""

    def __init__(self, sound: Sound) -> None:
        self.sound, self.walks = sound, Walks(sound)
        self._told: dict[tuple[str, ...], set[Told]] = {}

    def look(self, damage: Damage, *, whole: bool = False, prove: bool = True) -> Result:
        """Return what finds a damage. `whole`: where fewer walks show nothing, go through all of them.

        Without `prove` no walks are gone through, and no recorded ones are replayed.
        """
        began = time.perf_counter()
        rules: list[str] = []
        looked: list[str] = []
        message = stopped = ""
        library = DamagedLibrary(self.sound, damage)
        for rule, words in self._rules(library, damage, looked, whole=whole, prove=prove):
            if rule == STOPPED:
                stopped = words
            elif rule not in rules:
                rules.append(rule)
                message = message if message and rules[0] != WEAK else words
        seconds = round(time.perf_counter() - began, 2)
        result = Result(damage.id, damage.kind, tuple(rules), tuple(looked), seconds, message, stopped)
        if result.found or not prove:
            return result._replace(proved=prove or result.found)
        whole_library = DamagedLibrary(self.sound, damage)
        return result._replace(walk=self.walks.notice(whole_library, self.sound.trees_with(damage.file)))

    def _rules(
        self, library: DamagedLibrary, damage: Damage, looked: list[str], *, whole: bool, prove: bool
    ) -> Iterator[Told]:
        trees = self.sound.trees_with(damage.file)
        for held in ((), tuple(trees[:1])):
            view = _view(library, damage.file, held)
            for rules in (QUICK, FLOOR):
                seen = list(self._new(view, (damage.file, *held), rules))
                yield from seen
                if any(rule not in (WEAK, STOPPED) for rule, _ in seen):
                    return
        for name in sorted(trees, key=lambda tree: tree != PLUGS_IN)[: PROVED_IN if prove else 0]:
            for label, tree in self._slices(library, name, whole=whole):
                looked.append(label)
                library.put(tree)
                for finding in _proved(View(library, [name])):
                    yield finding.rule, finding.message
                    return

    def _new(self, view: View, shown: tuple[str, ...], rules: Iterable[Rule]) -> Iterator[Told]:
        seen = look(view, rules)
        yield from ((STOPPED, stopped.message) for stopped in seen.stopped)
        for told in _told(seen.findings):
            if told not in self._told_of_sound(shown):
                yield told

    def _told_of_sound(self, shown: tuple[str, ...]) -> set[Told]:
        """Return what is told of the sound library where it is looked at in the same way."""
        if shown not in self._told:
            view = _view(self.sound.library, shown[0], shown[1:])
            self._told[shown] = set(_told(look(view, (*QUICK, *FLOOR)).findings))
        return self._told[shown]

    def _slices(self, library: DamagedLibrary, name: str, *, whole: bool) -> Iterator[tuple[str, Tree]]:
        tree = library.tree(name)
        at = damaged_nodes(tree, self.sound.trees[name])
        if not at:
            return
        use = at[0].rpartition(".")[0]
        yield (
            f"{name} through {use or at[0]}",
            cone(tree, [each for each in at if each.rpartition(".")[0] == use]),
        )
        if whole:
            yield name, tree


def _view(library: Library, file: str, trees: tuple[str, ...]) -> View:
    """Return a view of a file in some trees; with none, of the file alone, for what is seen there is seen soonest."""
    stem = Path(file).stem
    part = "/" in file
    view = View(library, trees if part or trees else [stem], [stem] if part else [])
    if not trees:
        view.__dict__["expansion"] = ([], [])
        view.__dict__["files"] = list(view.written)
    return view


def _told(findings: Iterable[Finding]) -> Iterator[Told]:
    return ((finding.rule, finding.message) for finding in findings)


def damaged_nodes(tree: Tree, sound: Tree) -> list[str]:
    """Return the nodes of a tree that are not as they were; its first where its head differs."""
    if (tree.begin, tree.starts) != (sound.begin, sound.starts):
        return [tree.begin]
    return [name for name, node in tree.nodes.items() if node != sound.nodes.get(name)]


def _proved(view: View) -> Iterable[Finding]:
    """Yield what going through every walk shows; words are made only where there is something to tell."""
    assert view.site
    shown = proof(view, view.site)
    if shown.needs or shown.starts or any(shown.rules.values()):
        for rule in PROVED:
            yield from rule.check(view)
