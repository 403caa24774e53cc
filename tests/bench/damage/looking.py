"""Whether rules that go through no walks find a damage: in its file alone, then in the smallest tree that has it."""

from __future__ import annotations

import time
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

from shorewalk.lint.finding import Finding
from shorewalk.lint.look import look
from shorewalk.lint.rule import Rule
from shorewalk.lint.rules import RULES, grade_too_mild, hard_to_read, needs_hold, never_judged, safety
from shorewalk.lint.view import View
from shorewalk.tree.library import Library

from .damaged import DamagedLibrary, Sound
from .edits import Damage

PROVED: tuple[Rule, ...] = (needs_hold.RULE, *safety.SHARED.values(), safety.RULE)
FLOOR = (grade_too_mild.RULE, never_judged.RULE)
LEFT_OUT = (hard_to_read.RULE,)
"""How easy a text reads finds no damage, and takes long."""

QUICK = tuple(rule for rule in RULES if rule not in (*PROVED, *FLOOR, *LEFT_OUT))
WEAK = "unreachable"
STOPPED = "?"
NOTHING = "-"
"""No recorded walk goes otherwise."""
OF_WORDS = ("caution-dropped", "words-dropped", "not-dropped", "placeholder-mistyped", "brackets-dropped")
"""Kinds of damage that change no walk."""

Told = tuple[str, str]
"""A rule and its message."""


class Result(NamedTuple):
    """What found a damage (rules, in order), through what it was looked for, and how long it took.

    `walk`: the recorded walk that goes otherwise, where the quick rules find nothing. `stopped`: a rule that raised.
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

    @property
    def noticed(self) -> bool:
        """Tell whether a recorded walk goes otherwise."""
        return self.walk not in ("", NOTHING)


class Looker:
    """Looks for damage in a library; knows what is told of the sound one, which does not count."""

    def __init__(self, sound: Sound) -> None:
        self.sound = sound
        self._told: dict[tuple[str, ...], set[Told]] = {}
        self._known: dict[str, Any] = {"clean": set(), "met": {}}
        """What rules know of judges by their shape, however often such a one is seen again."""

    def look(self, damage: Damage) -> Result:
        """Return what finds a damage without going through walks."""
        began = time.perf_counter()
        rules: list[str] = []
        message = stopped = ""
        for rule, words in self._rules(DamagedLibrary(self.sound, damage), damage):
            if rule == STOPPED:
                stopped = words
            elif rule not in rules:
                rules.append(rule)
                message = message if message and rules[0] != WEAK else words
        seconds = round(time.perf_counter() - began, 2)
        result = Result(damage.id, damage.kind, tuple(rules), (), seconds, message, stopped)
        return result._replace(proved=result.found or damage.kind in OF_WORDS)

    def _rules(self, library: DamagedLibrary, damage: Damage) -> Iterator[Told]:
        for held in ((), tuple(self.sound.trees_with(damage.file)[:1])):
            view = self._view(library, damage.file, held)
            for rules in (QUICK, FLOOR):
                seen = list(self._new(view, (damage.file, *held), rules))
                yield from seen
                if any(rule not in (WEAK, STOPPED) for rule, _ in seen):
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
            view = self._view(self.sound.library, shown[0], shown[1:])
            self._told[shown] = set(_told(look(view, (*QUICK, *FLOOR)).findings))
        return self._told[shown]

    def _view(self, library: Library, file: str, trees: tuple[str, ...]) -> View:
        """Return a view of a file in some trees; with none, of the file alone: what is seen there is seen soonest."""
        stem = Path(file).stem
        part = "/" in file
        view = View(library, trees if part or trees else [stem], [stem] if part else [])
        view.shown |= self._known
        if not trees:
            view.__dict__["expansion"] = ([], [])
        view.__dict__["files"] = [written for written in view.written if written.name == stem]
        return view


def _told(findings: Iterable[Finding]) -> Iterator[Told]:
    return ((finding.rule, finding.message) for finding in findings)
