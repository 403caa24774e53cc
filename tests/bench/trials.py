"""Every dangerous fault through arrival, many variants; sound loops; and whom each tree calls first.

In `tests/`: `nice ../.venv/bin/python -m bench.trials`. `--variants`, `--jobs`, `--tree` and `--fault` narrow or widen
it; how far it is goes to the standard error. No test: nothing fails. `pedestal/test_referrals.py` holds a small part.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor, as_completed
from dataclasses import dataclass

from shorewalk.pedestal.faults import NOTHING, shipped_faults
from shorewalk.pedestal.park import usual
from shorewalk.pedestal.trial import Trial, Tried
from shorewalk.tree.library import shipped
from shorewalk.walk.meter import parse_meter

from .sound import range_a

METER = "basic,tenths"
PARTS = 6
"""Into how many turns the variants of a fault are cut, so that what is known grows evenly."""
OWN = 60
"""Variants of a fault in each of its own trees, at most."""


@dataclass(frozen=True)
class Job:
    """So many variants of a fault through a tree."""

    tree: str
    fault: str
    seed: int
    variants: int
    felt: bool = False
    sound: bool = False


Ended = tuple[str, str, str, str, bool, bool]
"""Outlet, where it ended, verdict, first call, whether it named the fault, whether somebody was harmed."""


def walk(job: Job) -> list[Ended]:
    """Walk one job."""
    loop = range_a if job.sound else usual
    trial = Trial(shipped(), job.tree, parse_meter(METER), job.variants, job.seed, loop=loop)
    fault = NOTHING if job.fault == NOTHING.id else shipped_faults()[job.fault]
    return [_ended(one) for one in trial.of(fault, felt=job.felt)]


def _ended(one: Tried) -> Ended:
    at = one.end.at if one.walk.ended else "not ended"
    return one.outlet, at, one.end.verdict, one.end.call or "", one.named, one.harm


def jobs(wanted: argparse.Namespace) -> Iterator[Job]:
    """Yield what is to be walked: each fault's own trees first, then sound loops and each dangerous fault in turn."""
    faults = [fault for fault in shipped_faults().values() if wanted.fault in (None, fault.id)]
    for fault in faults:
        for tree in fault.trees:
            if wanted.tree in (None, tree):
                yield Job(tree, fault.id, 0, -(-min(OWN, wanted.variants) // len(fault.outlets)), felt=True)
    if wanted.tree not in (None, "arrival"):
        return
    dangerous = [fault for fault in faults if fault.danger != "none"]
    every = [*((NOTHING,) if wanted.fault in (None, NOTHING.id) else ()), *dangerous]
    for part in range(PARTS):
        for fault in every:
            size = -(-wanted.variants // (PARTS * len(fault.outlets)))
            yield Job("arrival", fault.id, part, size, sound=fault is NOTHING)


def walked(every: list[Job], processes: int) -> dict[tuple[str, str], list[Ended]]:
    """Walk all jobs, and tell on the standard error how far it is; Ctrl-C ends with what is known by then."""
    found: dict[tuple[str, str], list[Ended]] = {}
    with ProcessPoolExecutor(processes) as pool:
        asked = {pool.submit(walk, job): job for job in every}
        try:
            for done, future in enumerate(as_completed(asked), 1):
                job = asked[future]
                found.setdefault((job.tree, job.fault), []).extend(future.result())
                sys.stderr.write(f"\r{done} of {len(every)}: {job.fault} in {job.tree}\033[K")
                sys.stderr.flush()
        except KeyboardInterrupt:
            pool.shutdown(wait=False, cancel_futures=True)
    sys.stderr.write("\n")
    return found


def arrival_table(found: dict[tuple[str, str], list[Ended]]) -> Iterator[str]:
    """Yield a line a fault: walks, how many were stopped, and used with the fault named or not."""
    yield "| fault | whose | walks | no use | use, named | use, unnamed | calls |"
    yield "| --- | --- | ---: | ---: | ---: | ---: | --- |"
    for fault in shipped_faults().values():
        ended = found.get(("arrival", fault.id), [])
        if not ended:
            continue
        used = [one for one in ended if one[2] in ("good-to-use", "use-with-care")]
        harmed = sum(one[5] for one in ended)
        calls = Counter(one[3] for one in ended if one not in used)
        told = ", ".join(f"{call} {count}" for call, count in calls.most_common())
        counts = (len(ended), len(ended) - len(used), len(used) - harmed, harmed)
        yield f"| {fault.id} | {fault.side} | {' | '.join(map(str, counts))} | {told} |"


def harmed_lines(found: dict[tuple[str, str], list[Ended]]) -> Iterator[str]:
    """Yield where somebody was let into use under a danger that nobody named."""
    for (tree, fault), ended in sorted(found.items()):
        where = Counter((one[0], one[1]) for one in ended if one[5])
        yield from (
            f"{fault} in {tree}: {count} at the {outlet}, {at}" for (outlet, at), count in where.items()
        )


def sound_lines(ended: list[Ended]) -> Iterator[str]:
    """Yield how many sound loops ended in use, and where the others did."""
    if not ended:
        return
    used = sum(one[2] in ("good-to-use", "use-with-care") for one in ended)
    yield f"Sound loops within Range A: {used} of {len(ended)} in use ({100 * used / len(ended):.2f} %)."
    for verdict, count in Counter(one[2] for one in ended).most_common():
        yield f"  {verdict}: {count}"
    rest = Counter((one[0], one[1]) for one in ended if one[2] not in ("good-to-use", "use-with-care"))
    yield from (f"  {count} at the {outlet}: {at}" for (outlet, at), count in rest.most_common())


def referral_lines(found: dict[tuple[str, str], list[Ended]]) -> Iterator[str]:
    """Yield a line a fault and tree: whom the walks call, and where they end."""
    yield "| fault | whose | tree | calls | endings |"
    yield "| --- | --- | --- | --- | --- |"
    for fault in shipped_faults().values():
        for tree in fault.trees:
            ended = found.get((tree, fault.id), [])
            if tree == "arrival" or not ended:
                continue
            calls = _counted(one[3] for one in ended)
            yield f"| {fault.id} | {fault.side} | {tree} | {calls} | {_counted(one[1] for one in ended)} |"


def _counted(words: Iterable[str]) -> str:
    return ", ".join(f"{word} {count}" for word, count in Counter(words).most_common())


def main() -> None:
    """Walk what is asked for, and print the tables."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--variants", type=int, default=300, help="of each fault, over its outlets")
    parser.add_argument("--jobs", type=int, default=2, help="processes")
    parser.add_argument("--tree", help="this tree alone")
    parser.add_argument("--fault", help="this fault alone; nothing: sound loops")
    wanted = parser.parse_args()
    found = walked(list(jobs(wanted)), wanted.jobs)
    sound = sound_lines(found.get(("arrival", NOTHING.id), []))
    lines = [*sound, "", *arrival_table(found), "", *harmed_lines(found), "", *referral_lines(found)]
    sys.stdout.write("\n".join([*lines, ""]))


if __name__ == "__main__":
    main()
