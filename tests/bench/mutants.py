"""Damage seeded in the shipped trees, and whether the linter finds it; a bench, not a test.

In `tests/`: `nice python -m bench.mutants --out FILE`. A run that was ended goes on where it stopped.
"""

from __future__ import annotations

import argparse
import gc
import json
import random
import sys
import time
from collections.abc import Iterator
from functools import cache
from multiprocessing import Pool
from pathlib import Path

from shorewalk import folders

from .damage.damaged import Sound
from .damage.edits import Damage
from .damage.looking import Looker, Result
from .damage.seeding import KINDS, seed
from .damage.table import table


@cache
def looker(folder: Path) -> Looker:
    """The sound library of one process, read once."""
    made = Looker(Sound(folder))
    gc.freeze()
    return made


def look(task: tuple[Path, Damage, bool, bool]) -> Result:
    """Look for one damage."""
    folder, damage, whole, prove = task
    return looker(folder).look(damage, whole=whole, prove=prove)


def chosen(damages: list[Damage], most: int | None, sample: int) -> list[Damage]:
    """Return all damages, or `most` of them: an even share of each kind, the order drawn by `sample`."""
    drawn = random.Random(sample)  # noqa: S311 - a sample, not a secret
    kinds: dict[str, list[Damage]] = {}
    for damage in damages:
        kinds.setdefault(damage.kind, []).append(damage)
    for of_kind in kinds.values():
        drawn.shuffle(of_kind)
    ranked = [(at, damage) for of_kind in kinds.values() for at, damage in enumerate(of_kind)]
    return [damage for _, damage in sorted(ranked, key=lambda each: each[0])][:most]


def known(out: Path) -> Iterator[Result]:
    """Yield what an earlier run has written."""
    if out.exists():
        for line in out.read_text(encoding="utf-8").splitlines():
            read = json.loads(line)
            yield Result(**{**read, "rules": tuple(read["rules"]), "looked_in": tuple(read["looked_in"])})


def done(result: Result | None, quick: bool) -> bool:  # noqa: FBT001 - it is what was asked
    """Tell whether nothing more is to be known of a damage in such a run."""
    return result is not None and (quick or result.proved)


def main() -> None:
    """Seed, look, write a line for each damage, and the table."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--out", type=Path, default=Path("mutants.jsonl"), help="results, one JSON line each")
    asked.add_argument(
        "--kind", action="append", choices=KINDS, help="only this kind; may stand more than once"
    )
    asked.add_argument("--file", help="only damage to this file, as in parts/skin.yaml")
    asked.add_argument("--sample", type=int, metavar="N", help="so many damages, an even share of each kind")
    asked.add_argument("--seed", type=int, default=1, help="which sample")
    asked.add_argument("--minutes", type=float, default=1e9, help="stop after so long")
    asked.add_argument("--jobs", type=int, default=2)
    asked.add_argument("--whole", action="store_true", help="what fewer walks do not show, look for in all")
    asked.add_argument("--quick", action="store_true", help="go through no walks; a later run does it")
    asked.add_argument("--trees", type=Path, default=folders.trees())
    asked.add_argument("--table", action="store_true", help="only make the table of what is known")
    given = asked.parse_args()
    every = seed(looker(given.trees).sound.library, given.kind or KINDS)
    damages = [damage for damage in every if given.file in (None, damage.file)]
    seeded = {name: sum(each.kind == name for each in damages) for name in KINDS}
    names = {each.id for each in damages}
    results = {result.id: result for result in known(given.out) if result.id in names}
    todo = [
        each
        for each in chosen(damages, given.sample, given.seed)
        if not done(results.get(each.id), given.quick)
    ]
    if not given.table:
        end = time.monotonic() + given.minutes * 60
        with Pool(given.jobs) as pool, given.out.open("a", encoding="utf-8") as out:
            tasks = ((given.trees, damage, given.whole, not given.quick) for damage in todo)
            for count, result in enumerate(pool.imap_unordered(look, tasks), 1):
                results[result.id] = result
                out.write(json.dumps(result._asdict()) + "\n")
                out.flush()
                if count % 20 == 0:
                    sys.stderr.write(f"{count} of {len(todo)}, {result.id}\n")
                if time.monotonic() > end:
                    pool.terminate()
                    break
    sys.stdout.write(table(seeded, results.values()))


if __name__ == "__main__":
    main()
