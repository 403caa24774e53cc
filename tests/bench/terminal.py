"""A real terminal to run the program in, and a person who reads its screen before typing."""

from __future__ import annotations

import contextlib
import os
import re
import signal
import sys
import termios
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import cast

import pexpect
import pyte

PATIENCE = 20.0
"""Seconds after which a screen that shows nothing new is taken for stuck. Never waited for in a good run."""


OF_A_TERMINAL = re.compile(
    r"COLUMNS|LINES|TERM|COLORTERM|COLORFGBG|NO_COLOR|LANG|LANGUAGE|LC_.*|SHOREWALK_LOOK"
)
"""What the environment tells of a terminal and of how to write on it."""
UTF_8 = {"LANG": "C.UTF-8"}

FRAMES_ASKED, FRAMES_KNOWN = b"\x1b[?2026$p", b"\x1b[?2026;2$y"
FRAME_BEGINS, FRAME_ENDS = b"\x1b[?2026h", b"\x1b[?2026l"
"""A program may ask whether a terminal can be told where a drawing begins and ends. This one can."""


def _hear_interrupts() -> None:
    """Let Ctrl-C reach the program, also where the tests run in the background of a shell that lets it be ignored."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


class Terminal:
    """The program in a pseudo-terminal, its output fed to an emulator. Reads; never sleeps.

    `through` is what starts it: here, or over a link. `beyond`: columns and lines that the emulator has more than the
    program is told of, so that what is written there is seen. `env`: what else the environment says.
    """

    def __init__(
        self,
        *words: str,
        columns: int,
        rows: int,
        home: Path,
        term: str | None,
        through: Sequence[str] = (sys.executable, "-m", "shorewalk"),
        beyond: tuple[int, int] = (0, 0),
        locale: Mapping[str, str] = UTF_8,
        **env: str,
    ) -> None:
        self._beyond = beyond
        self.screen = pyte.Screen(columns + beyond[0], rows + beyond[1])
        self._stream = pyte.ByteStream(self.screen)
        self._bytes = bytearray()
        self.home = home
        own = {"SHOREWALK_HOME": str(home), **({} if term is None else {"TERM": term}), **locale}
        # Whoever runs the tests may say what its own terminal is like; this one is as it is told here.
        outside = {name: value for name, value in os.environ.items() if not OF_A_TERMINAL.fullmatch(name)}
        self._child = pexpect.spawn(
            through[0],
            [*through[1:], *words],
            dimensions=(rows, columns),
            env=outside | own | env,
            cwd=str(home.parent),
            preexec_fn=_hear_interrupts,
        )
        self._child.delaybeforesend = None

    @property
    def wire(self) -> bytes:
        """All that was written so far."""
        return bytes(self._bytes)

    def resize(self, columns: int, rows: int) -> None:
        """Give the window another size, and tell the program, as a terminal does."""
        self.screen.resize(rows + self._beyond[1], columns + self._beyond[0])
        self._child.setwinsize(rows, columns)

    @property
    def lines(self) -> list[str]:
        return [line.rstrip() for line in self.screen.display]

    @property
    def trimmed(self) -> list[str]:
        """The lines without the space around and inside them."""
        return [" ".join(line.split()) for line in self.lines]

    @property
    def text(self) -> str:
        """What the screen says, as running text."""
        return " ".join(" ".join(self.lines).split())

    def said(self, words: str) -> bool:
        """Tell whether a program that writes plain lines has written these words since the start."""
        return words.encode() in self._bytes

    def wait_for(self, *wanted: str) -> str:
        """Read on until all of this is on the screen at once; return the screen's text."""
        return self.wait_until(lambda text: all(" ".join(part.split()) in text for part in wanted), wanted)

    def wait_for_line(self, wanted: str) -> str:
        """Read on until this is a whole line of the screen."""
        return self.wait_until(lambda _: wanted in self.trimmed, wanted)

    def wait_until(self, ready: Callable[[str], bool], what: object = "") -> str:
        """Read on until the screen's text is as wanted; return it."""
        end = time.monotonic() + PATIENCE
        while not (self._whole and ready(self.text)):
            try:
                self._read(max(0.0, end - time.monotonic()))
            except (pexpect.TIMEOUT, pexpect.EOF) as error:
                shown = "\n".join(self.lines)
                half = "" if self._whole else " A drawing is half done."
                raise AssertionError(
                    f"{type(error).__name__}: {what!r} never came.{half} The screen:\n{shown}"
                ) from None
        return self.text

    @property
    def _whole(self) -> bool:
        """Whether no drawing is half done: a screen is judged only when it is painted."""
        return self._bytes.count(FRAME_BEGINS) <= self._bytes.count(FRAME_ENDS)

    def _read(self, patience: float) -> None:
        new = cast("bytes", self._child.read_nonblocking(65_536, timeout=patience))
        known = self._bytes.count(FRAMES_ASKED)
        self._bytes += new
        for _ in range(self._bytes.count(FRAMES_ASKED) - known):
            self._child.send(FRAMES_KNOWN)
        self._stream.feed(new)

    def scribble(self, text: str) -> None:
        """What something else writes to the same terminal, as the system does for news to everybody."""
        self._stream.feed(text.replace("\n", "\r\n").encode())

    def type(self, keys: str | bytes) -> None:
        """Press keys; a carriage return is Enter. Bytes: what a terminal sends that writes letters in its own way."""
        self._child.send(keys)

    @property
    def process(self) -> int:
        """The number of what was started here."""
        return int(self._child.pid or 0)

    def signal(self, number: int) -> None:
        """Send the program a signal."""
        self._child.kill(number)

    @property
    def echoes(self) -> bool:
        """Whether the terminal shows by itself what is typed, as it does where no program took that over."""
        return bool(termios.tcgetattr(self._child.child_fd)[3] & termios.ECHO)

    def hang_up(self) -> None:
        """What a dropped link does to the program."""
        self._child.close(force=True)

    def kill(self, after: float = 0.0) -> None:
        """End the program at once, as the system does when it runs out of everything; read what it still said."""
        self.read_for(after)
        self._child.kill(signal.SIGKILL)
        with contextlib.suppress(pexpect.EOF, pexpect.TIMEOUT):
            while True:
                self._read(PATIENCE)
        self._child.close(force=True)

    def read_for(self, seconds: float) -> None:
        """Read what comes in this time."""
        end = time.monotonic() + seconds
        with contextlib.suppress(pexpect.TIMEOUT, pexpect.EOF):
            while (left := end - time.monotonic()) > 0:
                self._read(left)

    def wait_for_exit(self) -> int:
        """Read to the end; return what the program exited with."""
        while True:
            try:
                self._read(PATIENCE)
            except pexpect.EOF:
                break
        self._child.wait()
        return int(self._child.exitstatus if self._child.exitstatus is not None else -1)

    def wait_for_end(self) -> int:
        """Read to the end; return the number of the signal that ended the program, 0 where it ended by itself."""
        self.wait_for_exit()
        return int(self._child.signalstatus or 0)
