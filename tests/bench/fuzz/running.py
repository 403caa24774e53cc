"""Trying inputs within bounds of time and memory; an input that brings a new outcome is a seed from then on."""

from __future__ import annotations

import hashlib
import re
import resource
import signal
import time
import traceback
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

from .mutate import TOKENS, WORD, mutated
from .targets import Target

SECONDS = 20.0
"""CPU seconds that one input may take; a tree that is linted may go through tens of thousands of walks."""
MEMORY = 3_000_000_000
"""Bytes that the whole process may hold."""
MOST_SEEDS = 3_000
PATH = re.compile(r"/\S+|[0-9]+")
"""What differs from input to input where the same thing went wrong."""


class TooSlow(BaseException):
    """One input took longer than `SECONDS`; no `except Exception` of the program may keep it."""


@dataclass
class Tally:
    """What came of a target: inputs, outcomes, the slowest input in CPU seconds, and what should not be."""

    inputs: int = 0
    slowest: float = 0.0
    outcomes: Counter[str] = field(default_factory=Counter)
    wrong: dict[str, bytes] = field(default_factory=dict)  # the last line of a traceback, the first input


@contextmanager
def bounded() -> Iterator[None]:
    """Hold this process to `MEMORY`, and let an alarm end what takes too long."""

    def too_slow(*_: object) -> None:
        raise TooSlow

    before, handler = resource.getrlimit(resource.RLIMIT_AS), signal.signal(signal.SIGPROF, too_slow)
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, before[1]))
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, handler)
        resource.setrlimit(resource.RLIMIT_AS, before)


def try_inputs(
    target: Target, random: Random, *, most: int | None = None, until: float | None = None
) -> Tally:
    """Try a target on its seeds and then on what is made of them: so many inputs, or until a time (monotonic)."""
    tally, seeds = Tally(), [*target.seeds]
    tokens = (*TOKENS, *{word for seed in target.seeds for word in WORD.findall(seed)})
    with bounded():
        while (most is None or tally.inputs < most) and (until is None or time.monotonic() < until):
            first = tally.inputs < len(target.seeds) and most is None
            data = (
                seeds[tally.inputs]
                if first
                else mutated(random.choice(seeds), seeds, tokens, random, fine=target.fine)
            )
            outcome = try_one(target, data, tally)
            if tally.outcomes[outcome] == 1 and len(seeds) < MOST_SEEDS:
                seeds.append(data)
    return tally


def try_one(target: Target, data: bytes, tally: Tally) -> str:
    """Try one input, note what came of it and return that."""
    began = time.process_time()
    signal.setitimer(signal.ITIMER_PROF, SECONDS)
    try:
        outcome = target.run(data)
    except (Exception, TooSlow) as error:  # noqa: BLE001 (whatever it is, it should not be)
        where = traceback.extract_tb(error.__traceback__)[-1]
        said = PATH.sub("_", str(error))[:200]
        outcome = f"{type(error).__name__}: {said} ({Path(where.filename).name}:{where.lineno})"
        tally.wrong.setdefault(outcome, data)
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
    tally.inputs += 1
    tally.slowest = max(tally.slowest, time.process_time() - began)
    tally.outcomes[outcome] += 1
    return outcome


def keep(wrong: dict[str, bytes], name: str, folder: Path) -> None:
    """Write each input that something came of that should not be, with what it was beside it."""
    folder.mkdir(parents=True, exist_ok=True)
    for said, data in wrong.items():
        stem = f"{name}-{hashlib.sha256(data).hexdigest()[:12]}"
        (folder / f"{stem}.input").write_bytes(data)
        (folder / f"{stem}.txt").write_text(f"{said}\n", encoding="utf-8", errors="replace")
