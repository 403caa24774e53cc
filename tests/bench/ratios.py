"""How quick the program is, as ratios taken in one run on one machine: `python tests/bench/ratios.py`.

Not a test: nothing here fails. Each pair of commands is run in turn, A B A B, and medians are compared, so
that a machine which drifts slows both. Needs the packages of the `test` extra and Linux's /proc.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

import pexpect

from shorewalk.folders import demo_data
from shorewalk.journal import Journal, meter_text
from shorewalk.pages.options import options_of
from shorewalk.replay import Recorded, read_recorded
from shorewalk.tree.library import shipped
from shorewalk.walk.answers import Answer, Read, Running, Unable
from shorewalk.walk.walk import Walk, begin

RUNS = 9
MANY = 1000
"""Walks kept, for the start of somebody who has travelled for years."""
QUIET = 0.08  # seconds without a byte after which a screen counts as painted
APP = ["-m", "shorewalk"]
BARE = [str(Path(__file__).parent / "bare.py")]
SIGNS = {"app": b"What is going on?", "bare": b"A bare app is here."}


def environment(home: str) -> dict[str, str]:
    """The caller's, with a home of its own and compiled files allowed, as people have them."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return kept | {"SHOREWALK_HOME": home, "TERM": "xterm-256color", "LANG": "C.UTF-8"}


class Window:
    """A program in a terminal of 80 by 24."""

    def __init__(self, words: list[str], home: str) -> None:
        self.began = time.perf_counter()
        self.child = pexpect.spawn(sys.executable, words, dimensions=(24, 80), env=environment(home))
        self.child.delaybeforesend = None

    def until(self, sign: bytes) -> float:
        """Read until these bytes came; return the seconds since the start."""
        self.child.expect_exact([sign], timeout=20)
        return time.perf_counter() - self.began

    def rest(self) -> int:
        """Read what is written until it is quiet; return how many bytes."""
        count = 0
        while True:
            try:
                count += len(self.child.read_nonblocking(65_536, timeout=QUIET))
            except (pexpect.TIMEOUT, pexpect.EOF):
                return count

    def key_to_paint(self, key: str) -> float:
        """Press a key; return the seconds until the first byte of the answer."""
        pressed = time.perf_counter()
        self.child.send(key)
        self.child.read_nonblocking(65_536, timeout=5)
        return time.perf_counter() - pressed

    def memory(self) -> float:
        """Return the resident memory in MB."""
        status = Path(f"/proc/{self.child.pid}/status").read_text(encoding="ascii")
        return int(status.split("VmRSS:")[1].split()[0]) / 1024


def seen(which: str, home: str, keys: str = "123456789") -> tuple[float, float, float]:
    """Open one of the two; return seconds to its first screen, seconds from key to paint, memory in MB."""
    window = Window(APP if which == "app" else BARE, home)
    painted = window.until(SIGNS[which])
    window.rest()
    times = [0.0]
    for key in keys:
        times.append(window.key_to_paint(key))
        window.rest()
    memory = window.memory()
    window.child.close(force=True)
    return painted, median(times[1:] or times), memory


def first_line(home: str) -> float:
    """Return the seconds to the first JSON line."""
    began = time.perf_counter()
    with subprocess.Popen(
        [sys.executable, "-m", "shorewalk", "walk", "arrival", "--jsonl"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env=environment(home),
    ) as child:
        assert child.stdout
        child.stdout.readline()
        return time.perf_counter() - began


def import_yaml(home: str) -> float:
    """Return the seconds that Python takes to start, import yaml and stop."""
    began = time.perf_counter()
    subprocess.run([sys.executable, "-c", "import yaml"], check=True, env=environment(home))
    return time.perf_counter() - began


def lines_typed(walk: Walk, answer: Answer) -> list[str]:
    """Return what somebody types to give this answer."""
    options = options_of(walk.now.node, walk.library.site, {})
    match answer:
        case Read(text):
            return [f"{text}\r"]
        case Unable():
            return ["x"]
        case Running(loads):
            numbers = {option.load: str(option.number) for option in options if option.load}
            ticks = [f"{numbers[load]}\r" for load, count in loads for _ in range(count)]
            return [*ticks, f"{len(numbers) + 1}\r"]
    return [f"{next(option.number for option in options if option.answer == answer)}\r"]


def walked(home: str, name: str) -> tuple[list[int], float]:
    """Walk a recorded walk in the app, a key at a time; return the bytes sent for each answer, and MB at its end."""
    recorded: Recorded = read_recorded(demo_data() / "walks" / f"{name}.yaml")
    walk = begin(shipped(), recorded.walk, recorded.meter)
    window = Window([*APP, "walk", recorded.walk, "--meter", meter_text(recorded.meter)], home)
    window.until(b"Number")
    window.rest()
    counts = []
    for _, _, answer, _ in recorded.answers:
        sent = 0
        for line in lines_typed(walk, answer):
            for key in line:
                window.child.send(key)
                sent += window.rest()
        counts.append(sent)
        walk = walk.answer(answer)
    memory = window.memory()
    window.child.close(force=True)
    return counts, memory


def keep_many(home: str, name: str, count: int) -> None:
    """Keep a recorded walk this many times, each fifth one left after some twenty answers."""
    recorded = read_recorded(demo_data() / "walks" / f"{name}.yaml")
    stages = [begin(shipped(), recorded.walk, recorded.meter)]
    for _, _, answer, _ in recorded.answers:
        stages.append(stages[-1].answer(answer))
    journal = Journal.open(Path(home))
    for index in range(count):
        walk = stages[-1] if index % 5 else stages[20 + index % 30]
        number = journal.begin(walk)
        if walk.ended:
            journal.finish(number, walk)
    journal.close()


def paired(one: Callable[[str], float], other: Callable[[str], float], home: str) -> tuple[float, float]:
    """Return the medians of two measures taken in turn, after one uncounted run of each."""
    pairs = [(one(home), other(home)) for _ in range(RUNS + 1)][1:]
    return median(a for a, _ in pairs), median(b for _, b in pairs)


def main() -> None:
    """Measure and print."""
    with tempfile.TemporaryDirectory() as home:
        line, yaml = paired(first_line, import_yaml, home)
        windows = [(seen("app", home), seen("bare", home)) for _ in range(RUNS + 1)][1:]
        ours, bare = (
            [median(values) for values in zip(*side, strict=True)] for side in zip(*windows, strict=True)
        )
        counts, memory = walked(home, "arrival-30-good")
    with tempfile.TemporaryDirectory() as few, tempfile.TemporaryDirectory() as many:
        keep_many(many, "arrival-30-good", MANY)
        full, empty = paired(
            lambda _: seen("app", many, keys="")[0], lambda _: seen("app", few, keys="")[0], few
        )
    rows = [
        ("first painted screen / bare app's", ours[0] / bare[0], 1.5, f"{ours[0]:.3f} s / {bare[0]:.3f} s"),
        ("first JSON line / import yaml", line / yaml, 2.5, f"{line:.3f} s / {yaml:.3f} s"),
        (
            "key to repaint / bare app's",
            ours[1] / bare[1],
            1.5,
            f"{ours[1] * 1e3:.1f} ms / {bare[1] * 1e3:.1f} ms",
        ),
        ("memory / bare app's", ours[2] / bare[2], 1.5, f"{ours[2]:.0f} MB / {bare[2]:.0f} MB"),
        (
            "the same after a walk of 85 answers",
            memory / bare[2],
            None,
            f"{memory:.0f} MB, numpy and make-believe pedestals in it",
        ),
        ("first screen with 1,000 walks kept / none", full / empty, None, f"{full:.3f} s / {empty:.3f} s"),
        (
            "kB to the terminal per answer",
            median(counts) / 1000,
            2.0,
            f"median of {len(counts)}, echo included",
        ),
    ]
    sys.stdout.write(f"{'':42}{'here':>6}{'goal':>6}\n")
    for name, ratio, goal, how in rows:
        sys.stdout.write(f"{name:42}{ratio:6.2f}{goal or '':>6}   {how}\n")


if __name__ == "__main__":
    main()
