"""How quick the log is where many walks are kept, beside one with few: `python -m bench.log` (in `tests/`).

Not a test: nothing here fails. A thousand walks, half of them at one site, against eight; each pair is measured in
turn, A B A B, and medians are compared.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

from shorewalk.journal import Journal
from shorewalk.journal.understood import understood_by
from shorewalk.tree.library import shipped

from .ratios import APP, SIGNS, Window, environment, keep_many

MANY, FEW = 1000, 8
"""Walks kept; every other one is at the site."""
STAYS = 10
RUNS, FIRST = 7, 3
"""How often is measured what is kept, and what is not yet."""
LISTED, DRAWN, READING, CARD = b"compared", "┌──".encode(), b"Past walks are read", b"911"
TIME = "strftime('%Y-%m-%dT%H:%M:%SZ', '2024-01-10', (5 * {walk}) || ' hours', (20 * {n}) || ' seconds')"
TIMES = (
    f"update answers set time = {TIME.format(walk='walk', n='n')}",  # noqa: S608 (words of ours)
    f"update walks set begun = {TIME.format(walk='id', n=0)}",  # noqa: S608 (the same)
)
"""Five hours from walk to walk, twenty seconds from answer to answer."""
UNSURE = "Program or trees were changed a moment ago, so that nothing would be kept. Wait a minute.\n"


def kept(home: Path, count: int) -> Path:
    """Keep walks, with times of their own, every other one at one site in one of its stays; return where."""
    keep_many(str(home), "arrival-30-good", count)
    journal = Journal.open(home)
    for number, entry in enumerate(journal.walks()):
        if number % 2:
            month = 1 + number * STAYS // count
            place = {"park": "Someday Flats", "site": "14", "outlet": "30 A outlet"}
            journal.label(entry.id, visited=f"2024-{month:02}-10", **place)
    for update in TIMES:
        journal._database.execute(update)
    journal.close()
    return home


class Looking:
    """Somebody who opens the log in the app."""

    def __init__(self, home: Path) -> None:
        self.window = Window(APP, str(home))
        self.window.until(SIGNS["app"])
        self.window.rest()

    def seconds(self, keys: str, sign: bytes) -> float:
        """Press keys; return the seconds until these bytes came, and read on until it is quiet."""
        pressed = time.perf_counter()
        self.window.child.send(keys)
        self.window.child.expect_exact([sign], timeout=60)
        seconds = time.perf_counter() - pressed
        self.window.rest()
        return seconds


def looked(home: Path) -> dict[str, float]:
    """Open list and site, type a number, turn pages; return the seconds of each."""
    looking = Looking(home)
    found = {"list": looking.seconds("l\r", LISTED)}
    found["number typed in the list"] = looking.window.key_to_paint("1")
    looking.window.rest()
    found["site"] = looking.seconds("\r", DRAWN)
    pages = [(looking.window.key_to_paint("\x1b[6~"), looking.window.rest()) for _ in range(5)]
    found["page of the site"] = median(seconds for seconds, _ in pages)
    looking.window.child.close(force=True)
    return found


def first_look(home: Path) -> dict[str, float]:
    """Open a site of which nothing is worked out; return the seconds until it says so, and of the emergency card."""
    looking = Looking(home)
    looking.seconds("l\r", LISTED)
    looking.window.child.send("1\r")
    pressed = time.perf_counter()
    looking.window.child.expect_exact([READING, DRAWN], timeout=60)
    shown = time.perf_counter() - pressed
    pressed = time.perf_counter()
    looking.window.child.send("!")
    looking.window.child.expect_exact([CARD], timeout=60)
    card = time.perf_counter() - pressed
    looking.window.child.close(force=True)
    return {"site, first time": shown, "emergency card meanwhile": card}


def command(home: Path) -> float:
    """Return the seconds that `shorewalk log 14` takes."""
    began = time.perf_counter()
    words = [sys.executable, *APP, "log", "14"]
    subprocess.run(words, check=True, capture_output=True, env=environment(str(home)))
    return time.perf_counter() - began


def medians(runs: list[dict[str, float]]) -> dict[str, float]:
    """Return the median of each."""
    return {name: median(run[name] for run in runs) for name in runs[0]}


def fresh(of: Path, measure: Callable[[Path], dict[str, float]]) -> dict[str, float]:
    """Measure on a copy of a journal."""
    with tempfile.TemporaryDirectory() as folder:
        return measure(Path(shutil.copytree(of, Path(folder) / "home")))


def commands(home: Path) -> dict[str, float]:
    """Return the seconds of the command, first and then."""
    return {"shorewalk log 14, first time": command(home), "shorewalk log 14": command(home)}


def main() -> None:
    """Measure and print."""
    if understood_by(shipped()) is None:
        sys.stdout.write(UNSURE)
        return
    with tempfile.TemporaryDirectory() as folder:
        homes = [kept(Path(folder) / str(count), count) for count in (MANY, FEW)]
        pairs = [[fresh(home, commands) | fresh(home, first_look) for home in homes] for _ in range(FIRST)]
        for home in homes:
            command(home)
        looks = [[looked(home) for home in homes] for _ in range(RUNS)]
        many, few = (
            medians([run[side] for run in pairs]) | medians([run[side] for run in looks]) for side in (0, 1)
        )
    sys.stdout.write(f"{'':32}{f'{MANY:,} walks':>14}{f'{FEW} walks':>12}{'ratio':>8}\n")
    for name, seconds in many.items():
        sys.stdout.write(f"{name:32}{seconds:12.3f} s{few[name]:10.3f} s{seconds / few[name]:8.2f}\n")


if __name__ == "__main__":
    main()
