"""The author's preview as a program: one file, read again on every save, its outline and walks from any node.

Reading and linting go on in threads of their own, so that the screen never waits for them. They are daemons: whoever
leaves in the middle of a long proof does not wait for its end.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from textual.message import Message

from .app import ShorewalkApp
from .author.kept import Kept, taken_up
from .author.outline import Row
from .author.recording import record_walk
from .author.seen import Seen, check, library_of, see
from .author.watch import Watch
from .beside import work_beside
from .journal import Journal, Keeper
from .journal.store import connect_in_memory
from .lint import Report
from .pages.outline import counted
from .ruling import Also
from .screens.base import PageScreen
from .screens.preview import PreviewScreen
from .screens.walk import WalkScreen
from .tree.library import Library
from .walk.walk import Walk, begin, resume

LOOKS = 0.5
"""Seconds between two looks at whether a file was saved."""


class PreviewApp(ShorewalkApp):
    """Shows the outline; a walk lies over it. `every`: seconds between two looks at the disk."""

    @dataclass
    class Read(Message):
        """The file was read, for the `number`th time."""

        number: int
        seen: Seen

    @dataclass
    class Linted(Message):
        """The linter has spoken of the file as it was read for the `number`th time."""

        number: int
        report: Report

    @dataclass
    class Failed(Message):
        """Reading or linting stumbled over a fault of its own."""

        why: str

    def __init__(self, file: Path, node: str | None = None, *, every: float = LOOKS, **how: Any) -> None:
        folder = library_of(file)
        super().__init__(library=Library(folder), journal=Journal(connect_in_memory()), **how)
        self.file, self._node, self._every = file, node, every
        self.preview = PreviewScreen(self.walk_row)
        self.kept: Kept | None = None
        self._watch = Watch(folder)
        self.reads, self._linting = 0, False
        self.seen: Seen | None = None

    def get_default_screen(self) -> PageScreen:
        """Return the outline."""
        return self.preview

    def on_preview_screen_opened(self) -> None:
        """Read the file, and again whenever it is saved: from now on there is a screen to show it on."""
        self.read_again()
        self.set_interval(self._every, self._look)

    # Reading.

    def _look(self) -> None:
        if self._watch.changed():
            self.read_again()

    def read_again(self) -> None:
        """Read the file in a thread."""
        self.reads += 1
        self._in_thread(self._read, self.reads)

    def _read(self, number: int) -> Message:
        return self.Read(number, see(self.file))

    def _lint(self, number: int) -> Message:
        return self.Linted(number, check(self.file))

    def _in_thread(self, task: Callable[[int], Message], number: int) -> None:
        def run() -> None:
            try:
                message = task(number)
            except Exception as error:  # noqa: BLE001 (a fault of ours must not look like a file that never changed)
                message = self.Failed(repr(error))
            with suppress(RuntimeError):  # the app is gone meanwhile
                self.post_message(message)

        work_beside(run)

    def _begin_lint(self) -> None:
        """Lint what is newest; one at a time, however quickly somebody saves."""
        if not self._linting:
            self._linting = True
            self._in_thread(self._lint, self.reads)

    async def on_preview_app_read(self, message: PreviewApp.Read) -> None:
        """Show the file as it is now, and take up the walk again, with all that was typed before."""
        await self._settle()
        if message.number != self.reads:
            return
        self.seen = message.seen
        if message.seen.library:
            self.library = message.seen.library
        self.preview.show_seen(message.seen)
        self._begin_lint()
        if self._node:
            node, self._node = self._node, None
            self.walk_from(node)
        elif self.kept:
            self._take_up(self.kept)

    def on_preview_app_linted(self, message: PreviewApp.Linted) -> None:
        """Show what the linter says, or ask it again where the file was saved meanwhile."""
        self._linting = False
        if message.number == self.reads:
            # Of a file that is gone the linter has no finding.
            findings = message.report.findings or tuple(self.seen.findings if self.seen else ())
            self.preview.show_findings(findings, next((told.message for told in message.report.stopped), ""))
            if findings and isinstance(self.screen, WalkScreen):
                self.screen.tell(f"{counted(findings)} in the file; q shows it.", "note")
        else:
            self._begin_lint()

    def on_preview_app_failed(self, message: PreviewApp.Failed) -> None:
        """Say so, and go on: the next save may do better."""
        self._linting = False
        self.preview.tell(f"This could not be looked at: {message.why}")

    # Walking.

    def walk_row(self, row: Row) -> None:
        """Walk from a row of the outline."""
        seen = self.seen
        node = seen.begin(row) if seen else None
        if seen and seen.walked is None:
            self.preview.tell(
                NO_TREE if not seen.problems else "This file cannot be walked yet: see its findings."
            )
        elif node is None:
            self.preview.tell(f"No walk can begin at {row.name}.")
        else:
            self.walk_from(node)

    def walk_from(self, node: str) -> None:
        """Walk from a node, as if the states it needs held."""
        library = self.seen.walk_from(node) if self.seen else None
        if library is None or self.seen is None or self.seen.walked is None:
            return
        kept = Kept(self.journal, node)
        kept.walk = begin(library, self.seen.walked.name, self.meter)
        held = ", ".join(f"{name} {value}" for name, value in library.starts)
        kept.says = f"From {node}, as if: {held}." if held else None
        self._show(kept)

    def _take_up(self, kept: Kept) -> None:
        """Go on with a walk in the file as it was saved, as far as its answers fit."""
        walk, library = kept.walk, self.seen.walk_from(kept.node) if self.seen else None
        if self.seen is None or walk is None:
            return
        if library is None:
            broken = self.seen.walked is None
            self._uncover()
            self.preview.waiting = broken
            if not broken:
                self.kept = None
                self.preview.tell(f"{kept.node}, where your walk began, is gone.", "note")
            return
        again, lost = resume(
            library, self.seen.walked.name if self.seen.walked else "", walk.meter, walk.answers
        )
        typed = self.screen.reply.value if isinstance(self.screen, WalkScreen) and not lost else ""
        kept.says = taken_up(walk, lost)
        kept.walk = again
        self._show(kept)
        self._type(typed)

    def _type(self, text: str) -> None:
        """Put back what was being typed as the file was saved."""
        if text and isinstance(self.screen, WalkScreen):
            self.screen.reply.value = text
            self.screen.reply.cursor_position = len(text)

    def _show(self, kept: Kept) -> None:
        self._uncover()
        self.kept, self.preview.waiting = kept, False
        if kept.walk:
            self.show_walk(kept.walk, kept)

    def _uncover(self) -> None:
        """Let nothing lie over the outline."""
        while len(self.screen_stack) > 1:
            self.pop_screen()

    async def save_page(self, *_: object, **__: object) -> Path | None:
        """Nothing is printed: what is saved here is for replaying."""
        return None

    def save(self, walk: Walk, park: str | None = None, also: Also = None) -> Path:  # noqa: ARG002 (it may be replayed anywhere)
        """Write the walk down as a recorded one, which the tree is held to from now on."""
        if self.kept and self.seen and self.seen.walked and self.kept.node != self.seen.walked.begin:
            raise OSError(0, f"a recorded walk begins at the first node, {self.seen.walked.begin}")
        return record_walk(walk, library_of(self.file))

    def ask_to_leave(self, keeper: Keeper) -> None:
        """Go back to the outline: from a preview nothing is lost."""
        del keeper
        self.show_start()

    def show_start(self) -> None:
        """Show the outline."""
        self.kept = None
        self._uncover()


NO_TREE = "No tree here puts this part in, so there is no walk through it yet."
