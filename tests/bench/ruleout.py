"""What readings rule out: whether the true fault is kept, how many are left, how long it takes.

In `tests/`: `nice ../.venv/bin/python -m bench.ruleout`. Fresh variants of every fault are walked through arrival, none
of them in the table. `--close N` compares N walks of each with the ambiguity groups of a table with ten times the
variants. No test: nothing fails. `pedestal/test_ruleout.py` holds a small part.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor, as_completed
from dataclasses import dataclass, field
from statistics import mean, median, quantiles

from shorewalk.pedestal.faults import NOTHING, shipped_faults
from shorewalk.pedestal.ruleout import RuleOut
from shorewalk.pedestal.ruleout.left import VARIANTS
from shorewalk.pedestal.trial import Trial
from shorewalk.tree.library import shipped
from shorewalk.walk.answers import Read
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import Walk, begin

METER = parse_meter("basic,tenths")
SEED = 11
"""Not that of the table."""


@dataclass
class Found:
    """Of one fault: walks, those that kept it, how many were left of each, and of the closer table; seconds."""

    fault: str
    walks: int = 0
    lost: list[str] = field(default_factory=list)
    left: list[int] = field(default_factory=list)
    pairs: list[tuple[int, int]] = field(default_factory=list)
    updates: list[float] = field(default_factory=list)


def look(fault: str, variants: int, close: int) -> Found:
    """Walk fresh variants of a fault and see what is left of each."""
    trial = Trial(shipped(), "arrival", METER, variants, SEED)
    found = Found(fault)
    for tried in trial.of(NOTHING if fault == NOTHING.id else shipped_faults()[fault]):
        engine = RuleOut(shipped_faults())
        left = engine.follow(tried.walk)
        names = {one.id for one in left.possible}
        found.walks += 1
        found.left.append(len(names))
        if fault not in names:
            found.lost.append(f"{tried.outlet} {tried.seed}")
        if found.walks <= close:
            closer = RuleOut(shipped_faults(), variants=10 * VARIANTS).follow(tried.walk)
            found.pairs.append((len(names), len(closer.possible)))
    return found


def updates(walk: Walk) -> Iterator[float]:
    """Yield the seconds each reading of a walk takes, the table made before."""
    engine = RuleOut(shipped_faults())
    now = begin(walk.library, walk.tree, METER)
    for answered in walk.answers:
        now = now.answer(answered.answer, answered.time)
        began = time.perf_counter()
        engine.follow(now)
        took = time.perf_counter() - began
        engine.look_ahead(now)
        if isinstance(answered.answer, Read):
            yield took


def timed() -> list[str]:
    """Return how long the table takes and its updates, in this process alone."""
    trial = Trial(shipped(), "arrival", METER, 2, SEED)
    walks = [one.walk for fault in (NOTHING, shipped_faults()["neutral-loose"]) for one in trial.of(fault)]
    made, each = [], []
    for walk in walks:
        first, *more = updates(walk)
        made.append(first)
        each += more
    last = quantiles(each, n=20)[-1]
    under = sum(one < 0.05 for one in each) / len(each)
    within = f"median {1000 * median(each):.0f} ms, 95 % within {1000 * last:.0f} ms"
    rest = f"{100 * under:.0f} % under 50 ms, at most {1000 * max(each):.0f} ms"
    return [
        f"Table with its first reading: {1000 * median(made):.0f} ms, at most {1000 * max(made):.0f} ms.",
        f"{len(each)} updates: {within}, {rest}.",
    ]


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--variants", type=int, default=10, help="of each fault at each outlet")
    parser.add_argument("--close", type=int, default=0, help="walks of each fault held to the closer table")
    parser.add_argument("--jobs", type=int, default=2, help="processes")
    wanted = parser.parse_args()
    sys.stdout.write("\n".join([*timed(), "", ""]))
    every = [NOTHING.id, *shipped_faults()]
    found: dict[str, Found] = {}
    with ProcessPoolExecutor(wanted.jobs) as pool:
        asked = [pool.submit(look, fault, wanted.variants, wanted.close) for fault in every]
        for done, future in enumerate(as_completed(asked), 1):
            one = future.result()
            found[one.fault] = one
            sys.stderr.write(f"\r{done} of {len(every)}: {one.fault}\033[K")
            sys.stderr.flush()
    sys.stderr.write("\n")
    walks, lost = (
        sum(counts) for counts in zip(*((f.walks, len(f.lost)) for f in found.values()), strict=True)
    )
    sys.stdout.write(f"Kept: {walks - lost} of {walks} ({100 * (1 - lost / walks):.2f} %).\n\n")
    sys.stdout.write("| fault | walks | kept | left | same walks, left | ten times the table |\n")
    sys.stdout.write("| --- | ---: | ---: | ---: | ---: | ---: |\n")
    for name in every:
        one = found[name]
        close = [f"{mean(of):.1f}" for of in zip(*one.pairs, strict=True)] if one.pairs else ["", ""]
        kept = one.walks - len(one.lost)
        sys.stdout.write(f"| {name} | {one.walks} | {kept} | {mean(one.left):.1f} | {' | '.join(close)} |\n")
    for one in found.values():
        sys.stdout.writelines(f"Lost: {one.fault} at the {seed}\n" for seed in one.lost)


if __name__ == "__main__":
    main()
