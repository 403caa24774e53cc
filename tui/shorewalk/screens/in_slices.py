"""Something long, done a little at a time: keys are taken and the screen is painted in between."""

from __future__ import annotations

import math
from asyncio import sleep
from collections.abc import Callable, Generator, Iterator
from time import monotonic

FEW = 5
"""Walks that are read in one go: the screen is drawn once."""
AT_ONCE = 0.2
"""Seconds that are waited for the whole, before something is shown of it."""
SLICE, REST = 0.02, 0.005
"""Seconds of work between two looks at the keys, and for the keys."""
EVERY = 0.25
"""Seconds after which it is shown how far it is: each time costs a slow link some bytes."""


def go_on(steps: Iterator[object], seconds: float = SLICE) -> bool:
    """Take steps for so long, at least one; return whether there may be more."""
    end = monotonic() + seconds
    return any(monotonic() >= end for _ in steps)


def at_once(walks: int) -> float:
    """Return the seconds to wait for something about so many walks."""
    return AT_ONCE if walks > FEW else math.inf


async def in_slices(steps: Generator[object], show: Callable[[], object]) -> None:
    """Take all steps, and show now and then how far it is, and at the end; when it is called off, no more."""
    shown = monotonic()
    try:
        while go_on(steps):
            if monotonic() - shown >= EVERY:
                show()
                shown = monotonic()
            await sleep(REST)
        show()
    finally:
        steps.close()
