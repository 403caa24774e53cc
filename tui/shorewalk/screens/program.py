"""What the screens know of the program they are part of: what outlives a screen, and where one can go."""

from __future__ import annotations

from asyncio import get_running_loop
from collections.abc import Callable
from pathlib import Path
from typing import Any

from shorewalk.exits import Exit
from shorewalk.hangup import end_with_terminal
from shorewalk.journal import Journal, Keeper
from shorewalk.journal.where import Where
from shorewalk.pages.start import Left
from shorewalk.ruling import Also, Ruled, Ruling
from shorewalk.sections import Section
from shorewalk.tree.library import Library
from shorewalk.walk.meter import Meter
from shorewalk.walk.walk import Walk

from .in_order import InOrder

EXPORT = "export"
"""What work is called that writes a file of the log, which goes on where somebody goes back meanwhile."""


class Program(InOrder):
    """See the module. `site`: the number of the person's site, once told. `folder`: where files are saved.

    `aloud`: questions stand in few words, to be read to somebody else.
    """

    library: Library
    journal: Journal
    clock: Callable[[], str]
    meter: Meter
    meter_set: bool = False
    """Whether the person said how exact it is, in this run of the program."""
    folder: Path
    ascii_only: bool
    site: str | None = None
    asks_site: bool = True
    aloud: bool = False
    ruling: Ruling | None = None
    """What works out beside a walk what its readings rule out; None: only where somebody asks."""

    def next_look(self) -> str:
        """Look otherwise, and the next time too; return the name of the look."""
        raise NotImplementedError

    def sized(self, size: tuple[int, int]) -> None:
        """Take nothing for granted of what the terminal shows, where the window had another size."""
        raise NotImplementedError

    def new_page(self) -> None:
        """Send the page whole with what is drawn next: something else may have written over the last one."""
        raise NotImplementedError

    def action_help_quit(self) -> None:
        """Ctrl-C where no walk is left by it: a card is closed. The library would say to press another key."""
        for action in ("do_interrupt", "do_close", "do_leave"):
            if run := getattr(self.screen, action, None):
                run()
                return

    async def action_quit(self) -> None:
        """Ctrl-Q, which the library would quit with at once: whoever undoes a Ctrl-S with it loses no walk."""
        self.action_help_quit()

    def run(self, **how: Any) -> int | None:
        """Run the program, for as long as there is a terminal."""
        end_with_terminal()
        code = super().run(**how)
        return Exit.UNFINISHED if self.return_code else code

    @property
    def exporting(self) -> bool:
        """Whether an export is still being made."""
        return any(worker.group == EXPORT for worker in self.workers)

    @property
    def sections(self) -> list[Section]:
        """What can be begun, under its headings."""
        raise NotImplementedError

    def left_unfinished(self, most: int) -> list[Left]:
        """Return the walks that can go on, the one answered last first."""
        raise NotImplementedError

    def begin(self, name: str) -> None:
        """Begin a walk."""
        raise NotImplementedError

    def go_on(self, number: int) -> None:
        """Go on with a walk that was left."""
        raise NotImplementedError

    def show_walk(self, walk: Walk, keeper: Keeper) -> None:
        """Show where a walk stands: its question, or its ending."""
        raise NotImplementedError

    def show_revision(self, walk: Walk, earlier: Walk, index: int, keeper: Keeper) -> None:
        """Ask the question of answer `index` again; `earlier` is the walk as it stood then."""
        raise NotImplementedError

    def rule_out(self, walk: Walk, told: Callable[[Ruled], None], *, telling: bool = False) -> None:
        """Work out beside the app what the readings of a walk rule out; `told` is called in the app again."""
        self.ruling = self.ruling or Ruling()
        loop = get_running_loop()

        def pass_on(_: Walk, ruled: Ruled) -> None:
            loop.call_soon_threadsafe(self.call_later, told, ruled)

        self.ruling.ask(walk, pass_on, telling=telling)

    def read_volts_again(self, where: Where | None = None) -> None:
        """Read the volts again, where the last walk was or at another place that was kept."""
        raise NotImplementedError

    def show_start(self) -> None:
        """Show the start."""
        raise NotImplementedError

    def save(self, walk: Walk, park: str | None = None, also: Also = None) -> Path:
        """Write an ended walk to a new file and return its path; raise `OSError` where that cannot be done."""
        raise NotImplementedError

    async def save_page(
        self, walk: Walk, beside: Path, park: str | None = None, also: Also = None
    ) -> Path | None:
        """Write the same to print beside it; None where there is nothing to print."""
        raise NotImplementedError

    def leave(self) -> None:
        """Leave from where no walk is open; where one is on no disk, ask before."""
        raise NotImplementedError

    def ask_to_leave(self, keeper: Keeper) -> None:
        """Ask where to from a walk; it is kept whatever the answer."""
        raise NotImplementedError
