"""Thousands of damaged and forged files, taken over: refused or whole; a bench, not a test.

In `tests/`: `nice python -m bench.handing [COUNT]`. Ends with an error at the first that is neither.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator
from random import Random

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shorewalk.handing import text_of

from .handed.damage import damaged, forged, told, told_beside
from .handed.walks import handed_of, walked

SOUND = handed_of(walked(upto=34))
DATA = text_of(SOUND).encode()


def by_hypothesis(count: int) -> Iterator[str]:
    """Yield what comes of files in which stretches are other bytes; each that fails is made small and shown."""
    found: list[str] = []
    stretch = st.tuples(st.integers(0, len(DATA)), st.integers(0, 40), st.binary(max_size=40))

    @settings(max_examples=count, deadline=None, database=None, suppress_health_check=list(HealthCheck))
    @given(st.lists(stretch, min_size=1, max_size=4))
    def run(stretches: list[tuple[int, int, bytes]]) -> None:
        data = DATA
        for at, gone, come in stretches:
            data = data[:at] + come + data[at + gone :]
        found.append(told(data, SOUND, sealed=False))

    run()
    yield from found


def main() -> None:
    """Take them over and print what came of them."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 2_000
    seeds = [*map(Random, range(count))]
    ways: dict[str, Callable[[], Iterator[str]]] = {
        "stretches (hypothesis)": lambda: by_hypothesis(count),
        "bytes flipped, cut, doubled": lambda: (told(damaged(DATA, r), SOUND, sealed=False) for r in seeds),
        "forged, the sum made right": lambda: (told(forged(DATA, r), SOUND, sealed=True) for r in seeds),
        "the same, some of the walk here": lambda: (told_beside(forged(DATA, r), r) for r in seeds),
    }
    for name, way in ways.items():
        began = time.perf_counter()
        found = ", ".join(f"{number} {what}" for what, number in sorted(Counter(way()).items()))
        sys.stdout.write(f"{name:32} {found} ({time.perf_counter() - began:.0f} s)\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main()
