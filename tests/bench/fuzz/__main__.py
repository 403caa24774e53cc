"""Hostile input for everything that reads: nothing but a reason why not, within bounds of time and memory.

In `tests/`: `nice python -m bench.fuzz --minutes 10`; `--target NAME` for one, `--seed N` for other inputs, `--out
FOLDER` for those that something came of that should not be, `--again FILE` to try one. Ends with 1 where there are any.
"""

from __future__ import annotations

import argparse
import resource
import sys
import tempfile
import time
from pathlib import Path
from random import Random

from .running import Tally, bounded, keep, try_inputs, try_one
from .targets import TARGETS


def main() -> int:
    """Run the targets one after the other and print what came of them."""
    parser = argparse.ArgumentParser(
        prog="bench.fuzz", description="Hostile input for everything that reads."
    )
    parser.add_argument("--minutes", type=float, default=10.0)
    parser.add_argument("--target", action="append", choices=TARGETS)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--out", type=Path, default=Path(tempfile.gettempdir()) / "shorewalk-fuzz")
    parser.add_argument("--again", type=Path)
    asked = parser.parse_args()
    names = asked.target or list(TARGETS)
    if asked.again:
        with bounded():
            tally = Tally()
            sys.stdout.write(f"{try_one(TARGETS[names[0]], asked.again.read_bytes(), tally)}\n")
        return bool(tally.wrong)
    wrong = 0
    for name in names:
        target = TARGETS[name]
        until = time.monotonic() + asked.minutes * 60 * target.share / sum(TARGETS[n].share for n in names)
        tally = try_inputs(target, Random(asked.seed), until=until)  # noqa: S311 (not for secrets)
        keep(tally.wrong, name, asked.out)
        wrong += len(tally.wrong)
        memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        sys.stdout.write(
            f"{name:12}{tally.inputs:9,} inputs{len(tally.outcomes):7,} outcomes  slowest {tally.slowest:5.2f} s"
            f"  up to {memory:4.0f} MB  {len(tally.wrong)} wrong\n"
        )
        sys.stdout.writelines(f"    {said}\n" for said in tally.wrong)
        sys.stdout.flush()
    return wrong > 0


if __name__ == "__main__":
    sys.exit(main())
