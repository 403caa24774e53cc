"""Links that drop: walks over a real sshd, cut off at random moments, and taken up at the next login.

`nice ../.venv/bin/python -m bench.drops --drops 60 --seed 1` (in `tests/`). Somebody walks recorded walks over ssh, in
the app or in plain text, first with a key that may all, then in a shared login, as `bench.kills` does here. At a moment
that the seed chooses the link is cut: the client is killed, its terminal is closed, or the part of sshd that serves it
is killed. What `bench.kills` holds must hold; nothing of the login may be left; the next one offers the walk first.
"""

from __future__ import annotations

import argparse
import os
import signal
import tempfile
import time
from collections import Counter
from contextlib import suppress
from pathlib import Path

from .guide import key_options
from .kills import FRONTS, Killed, killed, tell
from .sshd import Sshd
from .terminal import Terminal

CUTS = ("client killed", "terminal closed", "session killed")
OWN, PERSON = "own", "ann"
"""The key that may all, and the one of a shared login."""
SLOW = 1.0
"""Seconds after which what is left of a login is counted as slow to go."""


class Link(Terminal):
    """A terminal at the other end of a link. `kill` cuts it, and waits until nothing is left of the login."""

    walk: Dropped

    def kill(self, after: float = 0.0) -> None:
        """Cut the link after so many seconds, in one of the ways it can be cut."""
        self.read_for(after)
        server, count = self.walk.server, self.walk.count
        how = self.walk.random.choice(CUTS)
        count[f"cut, {how}"] += 1
        if how == "session killed":
            for process in server.started()[-1:]:
                with suppress(OSError):  # it has only begun
                    os.kill(server.session_of(process), signal.SIGKILL)
        began = time.monotonic()
        if how == "terminal closed":
            self.hang_up()
        else:
            super().kill()
        count["processes left over"] += len(server.wait_until_alone())
        count["logins that took over a second to go"] += time.monotonic() - began > SLOW


class Dropped(Killed):
    """One recorded walk over ssh. The app goes on from the start, where a walk that was left stands first."""

    server: Sshd
    key: str

    def _window(self) -> Terminal:
        walk = self.steps[0][0]
        words = ["walk", walk.tree] if self.number is None else ["walk", "--resume", "last"]
        if self.front == "plain":
            words.append("--plain")
        elif self.number is not None:
            words = []
        if self.key == OWN:
            words = ["shorewalk", *words]
        window = Link(
            *words,
            columns=self.columns,
            rows=self.rows,
            home=self.home,
            term="xterm-256color",
            through=self.server.ssh(self.key, "-tt"),
        )
        window.walk = self
        return window

    def _wait(self, window: Terminal, at: int, *, taken_up: bool = False) -> None:
        if taken_up and self.number is not None and self.front == "app":
            walk = self.steps[0][0]
            first = "Go on with 1 " + " ".join(walk.library.tree(walk.tree).symptom.split()[:3])
            window.wait_for(first)
            window.type("1\r")
            self.count["offered first at the start"] += 1
        super()._wait(window, at, taken_up=taken_up)


def dropped(wanted: int, seed: int, folder: Path) -> tuple[Counter[str], list[str]]:
    """Cut, and take up, so many times with each key in each front end; return the counts and what was wrong."""
    server = Sshd(folder / "sshd", {OWN: "", PERSON: key_options(PERSON)})
    every, wrong = Counter[str](), list[str]()
    try:
        for key, home in ((OWN, server.walks), (PERSON, server.walks / "people" / PERSON)):
            home.mkdir(mode=0o700, parents=True, exist_ok=True)
            kind = type("DroppedHere", (Dropped,), {"server": server, "key": key})
            for front in FRONTS:
                count, found = killed(wanted, (front,), seed, home, kind)
                del count["walks before"]
                every.update(count)
                every[f"cut, key {key}, {front}"] += count["kills"]
                wrong += found
    finally:
        server.close()
    return every, wrong


def main() -> None:
    """Cut links, count, and say what was wrong."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--drops", type=int, default=60, help="with each of two keys, in each front end")
    words.add_argument("--seed", type=int, default=1)
    asked_for = words.parse_args()
    began = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        count, wrong = dropped(asked_for.drops, asked_for.seed, Path(folder))
    tell(count, wrong, began)


if __name__ == "__main__":
    main()
