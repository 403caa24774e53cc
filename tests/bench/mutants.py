"""Damage seeded in the shipped trees, and whether the linter finds it; a bench, not a test.

In `tests/`: `nice python -m bench.mutants --out FILE`. A run that was ended goes on where it stopped.
"""

from __future__ import annotations

import argparse
import gc
import json
import sys
import time
from collections.abc import Callable, Iterable, Iterator
from functools import cache, partial
from multiprocessing import Pool
from pathlib import Path
from typing import TypeVar

from shorewalk import folders

from .damage.damaged import Sound
from .damage.edits import Damage
from .damage.left import why_left
from .damage.looking import NOTHING, OF_WORDS, Looker, Result
from .damage.proving import ALONE, WHOLE, Prover, Task
from .damage.seeding import KINDS, seed
from .damage.table import table
from .damage.walks import Walks

T = TypeVar("T")
Proved = list[tuple[str, str, str]]
"""Damages by id, the rule that finds each (or none), and where."""


@cache
def sound(folder: Path) -> Sound:
    """The library of one process, read once."""
    made = Sound(folder)
    gc.freeze()
    return made


@cache
def looker(folder: Path) -> Looker:
    """What looks in one process."""
    return Looker(sound(folder))


@cache
def walks(folder: Path) -> Walks:
    """The recorded walks of one process."""
    return Walks(sound(folder))


def look(folder: Path, damage: Damage) -> Result:
    """Look for one damage without going through walks."""
    return looker(folder).look(damage)


def prove(folder: Path, task: Task) -> Proved:
    """Go through the walks with some damages."""
    return [(damage.id, rule, where) for damage, rule, where in Prover(sound(folder)).prove(task)]


def prove_alone(folder: Path, asked: tuple[Damage, str, bool]) -> Proved:
    """Go through the walks with one damage."""
    damage, tree, whole = asked
    return [(damage.id, *Prover(sound(folder)).alone(damage, tree, whole=whole))]


def notice(folder: Path, damage: Damage) -> tuple[str, str]:
    """Replay the recorded walks with one damage."""
    return damage.id, walks(folder).notice(damage)


class Run:
    """The results so far, and what is still to be known."""

    def __init__(self, folder: Path, damages: list[Damage], out: Path, end: float) -> None:
        self.folder, self.damages, self.out, self.end = folder, {each.id: each for each in damages}, out, end
        self.results = {result.id: result for result in known(out) if result.id in self.damages}

    def keep(self, result: Result) -> None:
        """Write a result; of one damage the last counts."""
        self.results[result.id] = result
        with self.out.open("a", encoding="utf-8") as out:
            out.write(json.dumps(result._asdict()) + "\n")

    def looked(self, jobs: int) -> None:
        """Look at every damage without walks."""
        todo = [each for name, each in self.damages.items() if name not in self.results]
        for result in self._all(jobs, partial(look, self.folder), todo):
            self.keep(result)

    def proved(self, jobs: int) -> None:
        """Go through the walks for what was neither found nor noticed: in one tree, then in another."""
        prover = Prover(sound(self.folder))
        left: list[tuple[Damage, str, bool]] = []
        while wanted := [each for each in self._wanted(prover) if not self._is_among(left, each)]:
            for told in self._all(jobs, partial(prove, self.folder), list(prover.tasks(wanted))):
                trees = {damage.id: tree for damage, tree in wanted}
                for name, rule, where in told:
                    if rule == ALONE:
                        left.append((self.damages[name], trees[name], where == WHOLE))
                    else:
                        self._tell(prover, name, trees[name], rule, where)
            if time.monotonic() > self.end:
                return
        left.sort(key=lambda each: each[2])
        for at, told in enumerate(self._all(jobs, partial(prove_alone, self.folder), left, ordered=True)):
            for name, rule, where in told:
                self._tell(prover, name, left[at][1], rule, where)

    def noticed(self, jobs: int) -> None:
        """Replay the recorded walks for what no rule found."""
        todo = [
            self.damages[each.id]
            for each in self.results.values()
            if not each.found and not each.walk and each.kind not in OF_WORDS
        ]
        for name, walk in self._all(jobs, partial(notice, self.folder), todo):
            self.keep(self.results[name]._replace(walk=walk or NOTHING))

    def _wanted(self, prover: Prover) -> Iterator[tuple[Damage, str]]:
        for result in self.results.values():
            trees = [] if result.proved or result.noticed else prover.trees(self.damages[result.id])
            yield from [(self.damages[result.id], tree) for tree in trees if tree not in result.looked_in][:1]

    def _is_among(self, left: list[tuple[Damage, str, bool]], one: tuple[Damage, str]) -> bool:
        return any((damage.id, tree) == (one[0].id, one[1]) for damage, tree, _ in left)

    def _tell(self, prover: Prover, name: str, tree: str, rule: str, where: str) -> None:
        result = self.results[name]
        looked_in = (*result.looked_in, tree)
        rules = (*result.rules, rule) if rule else result.rules
        proved = bool(rule) or set(prover.trees(self.damages[name])) <= set(looked_in)
        message = f"{where}" if rule else result.message
        self.keep(result._replace(rules=rules, looked_in=looked_in, message=message, proved=proved))

    def _all(
        self, jobs: int, does: Callable[..., T], tasks: Iterable[object], *, ordered: bool = False
    ) -> Iterator[T]:
        tasks = list(tasks)
        with Pool(jobs) as pool:
            done = pool.imap(does, tasks) if ordered else pool.imap_unordered(does, tasks)
            for count, result in enumerate(done, 1):
                yield result
                if count % 20 == 0 or count == len(tasks):
                    sys.stderr.write(f"{count} of {len(tasks)}\n")
                if time.monotonic() > self.end:
                    pool.terminate()
                    return


def known(out: Path) -> Iterator[Result]:
    """Yield what an earlier run has written."""
    if out.exists():
        for line in out.read_text(encoding="utf-8").splitlines():
            read = json.loads(line)
            yield Result(**{**read, "rules": tuple(read["rules"]), "looked_in": tuple(read["looked_in"])})


def main() -> None:
    """Seed, look, write a line for each damage, and the table."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--out", type=Path, default=Path("mutants.jsonl"), help="results, one JSON line each")
    asked.add_argument(
        "--kind", action="append", choices=KINDS, help="only this kind; may stand more than once"
    )
    asked.add_argument("--file", help="only damage to this file, as in parts/skin.yaml")
    asked.add_argument("--minutes", type=float, default=1e9, help="stop after so long")
    asked.add_argument("--jobs", type=int, default=1)
    asked.add_argument("--quick", action="store_true", help="go through no walks; a later run does it")
    asked.add_argument("--trees", type=Path, default=folders.trees())
    asked.add_argument("--table", action="store_true", help="only make the table of what is known")
    asked.add_argument("--left", type=Path, help="write what is left, a line each, and why")
    given = asked.parse_args()
    every = seed(sound(given.trees).library, given.kind or KINDS)
    damages = [damage for damage in every if given.file in (None, damage.file)]
    run = Run(given.trees, damages, given.out, time.monotonic() + given.minutes * 60)
    if not given.table:
        run.looked(given.jobs)
        if not given.quick:
            run.noticed(given.jobs)
            run.proved(given.jobs)
    if given.left:
        left = [each for each in run.results.values() if each.proved and not each.found and not each.noticed]
        told = sorted(f"{why_left(sound(given.trees), run.damages[each.id])}: {each.id}\n" for each in left)
        given.left.write_text("".join(told), encoding="utf-8")
    seeded = {name: sum(each.kind == name for each in damages) for name in KINDS}
    sys.stdout.write(table(seeded, run.results.values()))


if __name__ == "__main__":
    main()
