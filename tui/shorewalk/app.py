"""The app: which screen is shown, what all screens share, and how it looks at dusk."""

from __future__ import annotations

import os
from asyncio import to_thread
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rich.text import Text
from textual.binding import Binding

from .journal import Journal, Keeper, at_risk, take_up
from .link import ASCII_ONLY, NO_COLOURS, Thrifty, depth_here, thrifty
from .looks import PLAIN, keep_look, look_after, look_of
from .marks import cannot_show_blocks
from .reach import WENT_WRONG, reach
from .ruling import Also, Ruling
from .screens.base import PageScreen
from .screens.program import Program
from .sections import Section, sections_of
from .starting import Usage
from .theme import theme_of
from .tree.library import Library, shipped
from .tree.source import TreeError
from .turns import Place
from .walk.meter import Meter, parse_meter
from .walk.walk import Walk, begin

if TYPE_CHECKING:
    from textual.driver import Driver
    from textual.filter import LineFilter

    from .journal.where import Where
    from .pages.start import Left
    from .walk.answers import Answer

STILL_MADE = "An export of the log is still being made. To leave without it, do that once more."


class ShorewalkApp(Program):
    """Shows one screen after another. The walk is the screens' own; here is what outlives it."""

    CSS_PATH = "app.tcss"
    TITLE = "shorewalk"
    ENABLE_COMMAND_PALETTE = False
    ALLOW_SELECT = False
    BINDINGS = [Binding("ctrl+l", "draw_anew", show=False)]  # noqa: RUF012 (as the library writes it)

    def __init__(
        self,
        walk: Walk | None = None,
        keeper: Keeper | None = None,
        *,
        library: Library | None = None,
        journal: Journal | None = None,
        meter: Meter | None = None,
        folder: Path | None = None,
        ascii_only: bool | None = None,
        look: str | None = None,
    ) -> None:
        if not os.environ.get("NO_COLOR"):
            os.environ.pop("NO_COLOR", None)  # an empty one asks for nothing, but the library obeys it
        try:
            look = look or look_of()
        except ValueError as error:
            raise Usage(str(error)) from None
        super().__init__()
        self.console._color_system = depth_here()  # noqa: SLF001 (by itself it knows fewer terminals)
        self.show_look(look)
        self.animation_level = "none"
        self.library = library or shipped()
        self.journal = keeper.journal if keeper else journal or Journal.open()
        self.clock = self.journal.clock
        self.meter_set = meter is not None
        self.meter = meter or (walk.meter if walk else parse_meter("basic"))
        self.folder = folder or next(iter(reach().folders()))
        self.ascii_only = cannot_show_blocks() if ascii_only is None else ascii_only
        self._first, self._keeper = walk, keeper
        self._told_of_export = False

    def get_driver_class(self) -> type[Driver]:
        """Return what writes to the terminal: as little as shows it."""
        return thrifty(super().get_driver_class())

    def read_first(self) -> Place | None:
        """Return where on the screen the page is, which is sent before all else."""
        screen = self.screen_stack[-1] if self.screen_stack else None
        if not isinstance(screen, PageScreen) or not screen.is_mounted or not screen.reading.region:
            return None
        page = screen.reading.region
        return Place(page.y, page.bottom, page.right, screen.reply.region.y)

    def sized(self, size: tuple[int, int]) -> None:
        """Take nothing for granted of what the terminal shows, where the window had another size."""
        if isinstance(self._driver, Thrifty):
            self._driver.glass.fit(size)

    def new_page(self) -> None:
        """Send the page whole with what is drawn next: something else may have written over the last one."""
        if isinstance(self._driver, Thrifty):
            self._driver.glass.doubt()

    def action_draw_anew(self) -> None:
        """Draw all of it anew, where something else wrote over it."""
        if isinstance(self._driver, Thrifty):
            self._driver.glass.forget()
            self.screen.refresh()

    def show_look(self, look: str) -> None:
        """Look otherwise from now on."""
        if look not in self.available_themes:
            self.register_theme(theme_of(look))
        self.theme = look

    def next_look(self) -> str:
        """Look otherwise, and the next time too; return the name of the look."""
        look = look_after(self.theme)
        if look != self.theme:
            self.show_look(look)
            keep_look(look)
        return look

    def get_line_filters(self) -> Sequence[LineFilter]:
        """Return what every line goes through before it is sent."""
        return [
            *([ASCII_ONLY] if self.ascii_only else []),
            *([NO_COLOURS] if self.theme == PLAIN else []),
        ]

    def get_default_screen(self) -> PageScreen:
        """Return the first screen: the walk that was asked for, else the start."""
        if self._first is not None:
            keeper = self._keeper or Keeper(self.journal)
            self.site = _site_of(self._first, keeper)
            return self._screen_of(self._first, keeper)
        from .screens.start import StartScreen

        return StartScreen()

    @property
    def sections(self) -> list[Section]:
        """What can be begun, under its headings."""
        return sections_of(self.library)

    def left_unfinished(self, most: int) -> list[Left]:
        """Return the walks that can go on, the one answered last first."""
        from .pages.left import walks_left

        return walks_left(self.journal, self.library, most)

    def begin(self, name: str) -> None:
        """Begin a walk."""
        try:
            walk = begin(self.library, name, self.meter)
        except TreeError as error:
            self._say(str(error))
            return
        from .screens.where import placed_first

        keeper = Keeper(self.journal)
        placed_first(self, walk, keeper, lambda: self.show_walk(walk, keeper))

    def read_volts_again(self, where: Where | None = None) -> None:
        """Read the volts again, where the last walk was or at another place that was kept."""
        from .log.again import read_again

        try:
            again = read_again(self.journal, self.library, self.meter, where, own=self.meter_set)
        except (KeyError, TreeError) as error:
            self._say(str(error.args[-1] if isinstance(error, KeyError) else error))
            return
        self.show_walk(
            again.walk, Keeper(self.journal, labels=where and again.where and again.where._asdict())
        )

    def go_on(self, number: int) -> None:
        """Go on with a walk that was left."""
        from .pages.left import library_for

        try:
            library = library_for(self.journal.entry(number), self.library)
            walk, keeper = take_up(self.journal, number, library)
        except (KeyError, TreeError) as error:
            self._say(str(error.args[-1] if isinstance(error, KeyError) else error))
            return
        self.show_walk(walk, keeper)

    def show_walk(self, walk: Walk, keeper: Keeper) -> None:
        """Show where a walk stands: its question, or its ending."""
        self.site = _site_of(walk, keeper)
        self.show_instead(self._screen_of(walk, keeper))

    def show_instead(self, screen: PageScreen) -> None:
        """Show another screen in the place of this one.

        The library cannot switch the screen it began with; that one stays, unseen, under the rest.
        """
        if len(self.screen_stack) > 1:
            self.switch_screen(screen)
        else:
            self.push_screen(screen)

    def show_revision(self, walk: Walk, earlier: Walk, index: int, keeper: Keeper) -> None:
        """Ask the question of answer `index` again; `earlier` is the walk as it stood then."""

        def revise(answer: Answer) -> Walk:
            return walk.revise(index, answer, time=self.clock())

        again = self._question(earlier, keeper, revise=revise, number=index + 1, instead_of=walk)
        self.show_instead(again)

    def show_start(self) -> None:
        """Show the start."""
        from .screens.start import StartScreen

        self.journal.let_go()
        self.show_instead(StartScreen())

    def save(self, walk: Walk, park: str | None = None, also: Also = None) -> Path:
        """Write the record of an ended walk to a new file."""
        from .saving import save_record

        return save_record(walk, self.site, self.folder, self.clock(), park, also=also)

    async def save_page(
        self, walk: Walk, beside: Path, park: str | None = None, also: Also = None
    ) -> Path | None:
        """Write the record to print, in a thread: what draws it takes a while to load."""
        from .saving import save_page

        return await to_thread(save_page, walk, self.site, beside, self.clock(), park, also=also)

    def leave(self) -> None:
        """Leave from the start; where a walk is on no disk, ask before; say once what would not be saved."""
        if self.exporting and not self._told_of_export:
            self._told_of_export = True
            self._say(STILL_MADE)
        elif keeper := at_risk(self.journal):
            from .screens.leaving import ask_to_leave

            ask_to_leave(self, keeper, at_start=True)
        else:
            self.exit(0)

    def ask_to_leave(self, keeper: Keeper) -> None:
        """Ask where to from a walk; it is kept whatever the answer."""
        from .screens.leaving import ask_to_leave

        ask_to_leave(self, keeper)

    def _screen_of(self, walk: Walk, keeper: Keeper) -> PageScreen:
        if walk.ended:
            from .screens.ending import EndingScreen

            return EndingScreen(walk, keeper)
        return self._question(walk, keeper)

    def _question(self, walk: Walk, keeper: Keeper, **more: Any) -> PageScreen:
        from .screens.walk import WalkScreen

        return WalkScreen(walk, keeper, **more)

    def _fatal_error(self) -> None:
        """Say in a line or two that something went wrong; the library would show all that its functions hold."""
        if reach().guarded:
            self.panic(WENT_WRONG)
            return
        from .went_wrong import went_wrong

        said = [went_wrong(self._exception or RuntimeError())]
        keepers = [screen.keeper for screen in self.screen_stack if hasattr(screen, "keeper")]
        said += [keepers[-1].how_to_go_on() or keepers[-1].goodbye] if keepers else []
        self.panic(Text("\n".join(said)))  # in one: of several the library shows the first

    def _say(self, text: str) -> None:
        screen = self.screen
        if isinstance(screen, PageScreen):
            screen.tell(text)


def _site_of(walk: Walk, keeper: Keeper) -> str | None:
    """Return the site for the message of a walk."""
    from .walk.ending import ending

    return keeper.placing.site_for(ending(walk).verdict if walk.ended else None)


def run(
    walk: Walk | None = None, keeper: Keeper | None = None, *, meter: str | None = None, aloud: bool = False
) -> int:
    """Run the app: the start, or straight into a walk. Returns what the program exits with."""
    app = ShorewalkApp(walk, keeper, meter=parse_meter(meter) if meter else None)
    app.aloud, app.ruling = aloud, Ruling()
    code = app.run() or 0
    app.journal.close()
    return code
