"""Kills of a walk: SIGKILL at random moments over a pseudo-terminal, and taking it up again by the real command.

`nice ../.venv/bin/python -m bench.kills --kills 500 --seed 1` (in `tests/`). Somebody walks recorded walks, in the
app or in plain text, and reads each question before they answer. At a moment that the seed chooses the program is
killed: while it starts, while it waits, or some milliseconds after an answer was typed. Then it must hold:

- every answer whose next question was painted is in the file, in order, none twice, none changed;
- nothing is there that was not typed; the file passes SQLite's integrity check;
- `walk --resume` asks the question that comes after the last answer that is there.
"""

from __future__ import annotations

import argparse
import json
import shutil
import sqlite3
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from random import Random
from typing import Any, NoReturn

from shorewalk.journal import meter_text
from shorewalk.journal.store import FILE
from shorewalk.walk.answers import Answer, to_json
from shorewalk.walk.walk import Walk

from .terminal import Terminal
from .walker import asked, beginning, give_in_app, keys_in_plain, painted, steps

WALKS = ("arrival-30-good", "arrival-50-good", "breaker-trips-too-much-running", "tingle-at-the-door")
FRONTS = ("app", "plain")
SIZES = ((80, 24), (40, 20))
MOST_ANSWERS = 7
"""Most answers between two kills."""
START, LATEST = 0.8, 0.25
"""Seconds within which a start, and an answer that was typed, is cut off."""

TAKEN_UP = "taken up where it stood"

Step = tuple[Walk, Answer | None]


class Killed:
    """One recorded walk, killed and taken up until it ends. `count` has what happened, by name."""

    def __init__(self, name: str, front: str, random: Random, home: Path, count: Counter[str]) -> None:
        self.name = name
        self.steps: list[Step] = list(steps(name))
        self.front, self.random, self.home, self.count = front, random, home, count
        self.columns, self.rows = random.choice(SIZES)
        self.number: int | None = None
        self.wrong: list[str] = []

    def go(self, wanted: int) -> bool:
        """Walk on until there is enough; return whether the walk came to its end, and nothing was wrong."""
        kept = 0
        while not enough(self.count, wanted):
            kept = self._until_killed(kept)
            if self.wrong or self.steps[kept][1] is None:
                break
        return not self.wrong and self.steps[kept][1] is None

    def _until_killed(self, kept: int) -> int:
        """Take the walk up where `kept` answers are there, kill it somewhere; return how many there are then."""
        # How many steps are left is counted from the question that a program comes to first; so it is here.
        self.steps = list(steps(self.name))
        window = self._window()
        try:
            if self.random.random() < 0.1:
                self.count["killed while it starts"] += 1
                window.kill(self.random.uniform(0, START))
                return self._kept(kept, kept)
            self._wait(window, kept, taken_up=True)
            self.count[TAKEN_UP if self.number else "begun"] += 1
            at = kept
            most = min(kept + self.random.randint(0, MOST_ANSWERS), len(self.steps) - 1)
            while at < most:
                self._give(window, at)
                at += 1
                if at < most:
                    self._wait(window, at)
            if at == kept:
                self.count["killed while it waits"] += 1
                window.kill()
                return self._kept(kept, kept)
            self.count["killed after an answer was typed"] += 1
            window.kill(self.random.choice((0, self.random.uniform(0, LATEST))))
            seen = self._seen(window, at)
            self.count["of them, next question painted"] += seen
            return self._kept(at if seen else at - 1, at)
        except AssertionError as error:
            self.wrong.append(f"{kept} kept: {error}")
            return kept
        finally:
            window.hang_up()

    def _window(self) -> Terminal:
        walk = self.steps[0][0]
        new = (walk.tree, "--meter", meter_text(walk.meter))
        words = ("walk", *(("--resume", str(self.number)) if self.number else new))
        plain = ("--plain",) if self.front == "plain" else ()
        return Terminal(
            *words, *plain, columns=self.columns, rows=self.rows, home=self.home, term="xterm-256color"
        )

    def _wait(self, window: Terminal, at: int, *, taken_up: bool = False) -> None:
        """Wait until the question is there that comes after `at` answers; in plain text it is told by its number."""
        walk = self.steps[at][0]
        if self.front == "app":
            window.wait_until(painted(walk, self.columns), walk.now.text)
            return
        if taken_up and "left unfinished" in window.wait_until(lambda text: text.endswith(">")):
            window.type("2\r")  # a walk of before, killed at its first question
        window.wait_until(asked(window, walk.now.step), walk.now.text)

    def _give(self, window: Terminal, at: int) -> None:
        walk, answer = self.steps[at]
        assert answer is not None
        if self.front == "app":
            give_in_app(window, walk, answer)
        else:
            window.type(f"{keys_in_plain(walk, answer)}\r")

    def _seen(self, window: Terminal, at: int) -> bool:
        """Tell whether anything of the question after `at` answers was on the screen when the program was killed."""
        before, walk = self.steps[at - 1][0], self.steps[at][0]
        if self.front == "plain":
            return window.said("The end:") if walk.ended else window.said(f"Question {walk.now.step},")
        words = beginning(walk.now.text, 4) if not walk.ended else ""
        text = window.text
        new = bool(words) and words in text and beginning(before.now.text, 4) not in text
        return new or painted(walk, self.columns)(text)

    def _kept(self, least: int, most: int) -> int:
        """Look at what is on the disk, in a copy, so that the program itself has to recover it."""
        self.count.update(("kills", f"kills, {self.front}"))
        self.count["answers that had to be there"] += least
        self.count["answers that were typed"] += most
        with tempfile.TemporaryDirectory() as elsewhere:
            for path in self.home.glob(f"{FILE}*"):
                if not path.name.endswith("-shm"):
                    shutil.copy(path, elsewhere)
            return self._looked_at(Path(elsewhere) / FILE, least, most)

    def _looked_at(self, path: Path, least: int, most: int) -> int:
        database = sqlite3.connect(path)
        try:
            checked = database.execute("pragma integrity_check").fetchall()
            self.count["failed integrity checks"] += checked != [("ok",)]
            if checked != [("ok",)]:
                self.wrong.append(f"integrity: {checked}")
            there = database.execute("select count(*) from sqlite_master where name = 'walks'").fetchone()[0]
            number = there and database.execute("select max(id) from walks").fetchone()[0]
            if self.number is None and number and number > self.count["walks before"]:
                self.number = number
            sql = "select at, answer from answers where walk = ? order by n"
            found = database.execute(sql, (self.number,)).fetchall() if self.number else []
            rows = [(at, json.loads(answer)) for at, answer in found]
        finally:
            database.close()
        self._compare(rows, least, most)
        return len(rows)

    def _compare(self, rows: list[tuple[str, Any]], least: int, most: int) -> None:
        want = [(walk.now.node.name, to_json(answer)) for walk, answer in self.steps[:most] if answer]
        self.count["answers that were there"] += len(rows)
        self.count["answers lost"] += max(0, least - len(rows))
        self.count["answers twice, changed or never typed"] += sum(
            row not in want[n : n + 1] for n, row in enumerate(rows)
        )
        if not least <= len(rows) <= most or rows != want[: len(rows)]:
            other = [(row, *want[n : n + 1]) for n, row in enumerate(rows) if row not in want[n : n + 1]]
            self.wrong.append(
                f"{least} to {most} answers wanted, there: {len(rows)}; other than typed: {other}"
            )


def enough(count: Counter[str], wanted: int) -> bool:
    """Tell whether there were so many kills, and walks taken up again."""
    return min(count["kills"], count[TAKEN_UP]) >= wanted


Begun = Callable[[str, str, Random, Path, Counter[str]], Killed]


def killed(
    wanted: int, fronts: tuple[str, ...], seed: int, home: Path, walked: Begun = Killed
) -> tuple[Counter[str], list[str]]:
    """Kill, and take up, so many times; return the counts and what was wrong."""
    random, wrong = Random(seed), list[str]()  # noqa: S311 (no secret hangs on it)
    count = Counter({"walks before": _walks(home)})
    while not enough(count, wanted) and len(wrong) < wanted:
        name, front = random.choice(WALKS), random.choice(fronts)
        walk = walked(name, front, random, home, count)
        ended = walk.go(wanted)
        for what in walk.wrong:
            sys.stderr.write(f"{name}, {front}: {what}\n")
        wrong += walk.wrong
        count["walks"] += 1
        count["walks to the end"] += ended
        count["walks before"] = _walks(home)
    return count, wrong


def _walks(home: Path) -> int:
    if not (home / FILE).exists():
        return 0
    with sqlite3.connect(home / FILE) as database:
        (number,) = database.execute("select coalesce(max(id), 0) from walks").fetchone()
    database.close()
    return int(number)


def tell(count: Counter[str], wrong: list[str], began: float) -> NoReturn:
    """Print what was counted, and how long it took; exit 1 where anything was wrong."""
    for name, number in sorted(count.items()):
        sys.stdout.write(f"{number:7}  {name}\n")
    sys.stdout.write(f"{time.monotonic() - began:7.0f}  seconds\n")
    sys.stdout.write(f"{len(wrong):7}  things wrong\n")
    sys.exit(bool(wrong))


def main() -> None:
    """Kill, count, and say what was wrong."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--kills", type=int, default=500)
    words.add_argument("--front", choices=(*FRONTS, "both"), default="both")
    words.add_argument("--seed", type=int, default=1)
    asked_for = words.parse_args()
    fronts = FRONTS if asked_for.front == "both" else (asked_for.front,)
    began = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        count, wrong = killed(asked_for.kills, fronts, asked_for.seed, Path(folder) / "home")
    tell(count, wrong, began)


if __name__ == "__main__":
    main()
