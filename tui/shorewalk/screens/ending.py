"""The end of a walk: what to do, whom to call, what to say; to save, to show as a code, to copy."""

from __future__ import annotations

from collections.abc import Generator
from functools import cached_property
from typing import TYPE_CHECKING

from shorewalk.heard_words import goes_back, leaves
from shorewalk.lines import BLANK, Line, wrap
from shorewalk.log.placed import placed_words
from shorewalk.pages.ending import ending_page, what_next
from shorewalk.pages.knowns import state_lines
from shorewalk.pages.question import READABLE
from shorewalk.reach import reach
from shorewalk.ruling import Also, Ruled, also_possible, has_readings
from shorewalk.walk.ending import Ending, ending
from shorewalk.walk.message import message_text
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import Walk

from .base import NARROW, PageScreen
from .page_to_print import tell_of_page

if TYPE_CHECKING:
    from shorewalk.journal import Keeper

COPIED = "Asked the terminal to copy the message. Not every terminal does: try to paste it, or save it (s)."


class EndingScreen(PageScreen):
    """Shows the ending; numbers run the commands of the menu, which are listed on the page."""

    kind = "ending"

    def __init__(self, walk: Walk, keeper: Keeper) -> None:
        super().__init__()
        self.walk, self.keeper = walk, keeper
        self._asking_site = False
        self._compared: tuple[object, list[Line]] = (None, [])
        self._also: Also = None

    @cached_property
    def found(self) -> Ending:
        """The ending, with the number of the site where it was given."""
        return ending(self.walk, self.app.site)

    @property
    def prompt(self) -> str:  # type: ignore[override]
        """What stands before the line."""
        return "Site" if self._asking_site else "Number"

    @property
    def heading(self) -> str:  # type: ignore[override]
        """What the walk was about."""
        return self.walk.library.tree(self.found.tree).symptom

    def left(self) -> str:
        return "the end"

    def page(self, room: int, _height: int) -> list[Line]:
        narrow = self.size.width < NARROW
        return ending_page(
            self.found,
            room,
            narrow=narrow,
            ascii_only=self.app.ascii_only,
            worked=self.walk.now.worked_all,
            also=self._also or (),
            menu=self.menu(),
            before=self._before(room),
            placed=placed_words(self.keeper.placing, self.found.verdict),
        )

    def _before(self, room: int) -> list[Line]:
        """Return the same readings at other times, where the walk was for comparing them."""
        from shorewalk.log.again import TREE

        if self.walk.tree != TREE:
            return []
        asked = (room, self.keeper.placing.where)
        if self._compared[0] != asked:
            self._compared = (asked, [])
            self._compare(room)
        return self._compared[1]

    def _compare(self, room: int) -> None:
        """Have the lines to compare, at once or, where there are many walks here, in a while."""
        from shorewalk.log.kept import kept_walks
        from shorewalk.log.stays import Site, site_at
        from shorewalk.log.table import Table, before_lines
        from shorewalk.log.working_out import left_words, working_out

        from .in_slices import at_once, go_on, in_slices

        self.workers.cancel_group(self, "comparing")  # of another size, or for another site
        asked, _ = self._compared

        def comparing(site: Site) -> Generator[None]:
            for left in working_out([*reversed(site.walks)]):
                self._compared = (asked, wrap(left_words(left), room, "quiet"))
                yield
            table = Table(min(room, READABLE), ascii_only=self.app.ascii_only)
            self._compared = (asked, before_lines(site, table))

        if site := site_at(kept_walks(self.app.journal), self.keeper.placing.where):
            steps = comparing(site)
            if go_on(steps, at_once(len(site.walks))):
                show = in_slices(steps, lambda: self.reading.renew(top=None))
                self.run_worker(show, group="comparing")

    def side(self, room: int, height: int) -> list[Line]:
        rows = [
            *what_next(self.menu(), room),
            BLANK,
            *state_lines(self.walk.now, self.walk.library.site, room),
        ]
        return rows if len(rows) <= height else what_next(self.menu(), room)

    def guide(self, _room: int) -> str:
        if self._asking_site:
            return "Your site, and the park after a comma: 14, Someday Flats"
        return "Type a number, then Enter: 4 saves the record, 7 leaves."

    def on_mount(self) -> None:
        news = self.keeper.news()
        if say := self.keeper.reminder or news:  # the short one, that nothing stands above the verdict
            self.tell(say, "note")
        if self.app.ruling and has_readings(self.walk):
            self.app.rule_out(self.walk, self._told)

    def _told(self, ruled: Ruled) -> None:
        """Add what the readings leave possible."""
        if ruled.failed:
            return
        self._also = also_possible(self.found, ruled.left, self.walk.library.site)
        if self.is_attached:
            self.reading.renew(top=None)

    def give(self, text: str) -> None:
        if self._asking_site:
            if leaves(text) or goes_back(text):
                self.escape()
                return
            try:
                self.app.site = self.keeper.placing.typed(text).site
            except ValueError as error:
                self.tell(str(error))
                return
            self._asking_site = False
            self.__dict__.pop("found", None)
            self._allow_keys()
            self.show_all()
            return
        command = next((c for c in self.menu() if text.isdecimal() and c.number == int(text)), None)
        if command is None:
            self.tell(f'"{text}" is not one of the numbers here.')
        else:
            self.action_command(command.id)

    def escape(self) -> None:
        if self._asking_site:
            self._asking_site = False
            self.show_all(top=None)

    def do_site(self) -> None:
        """Ask for the number of the site, for the message."""
        self._asking_site = True
        self.reply.command_keys = frozenset()
        self.show_all(top=None)
        self.reply.command_keys = frozenset()

    def do_log(self) -> None:
        """Show the readings of this site compared; where no site is known, all walks."""
        from .log import show_log

        show_log(self.app, self.keeper.placing.where)

    def do_save(self) -> None:
        """Write the whole record to a new file and say where; then the same as a page to print."""
        also = self._also if self.app.ruling else ()
        try:
            path = self.app.save(self.walk, self.keeper.placing.where.park, also)
        except OSError as error:
            self.tell(f"The record could not be saved: {error.strerror or error}.")
            return
        self.tell(reach().saved_words(path), "ok")
        park = self.keeper.placing.where.park
        self.run_worker(tell_of_page(self, path, self.app.save_page(self.walk, path, park, also)))

    def do_code(self) -> None:
        """Show the message as a code for a phone."""
        from .code import CodeScreen

        self.app.push_screen(CodeScreen(message_text(self.found)))

    def do_copy(self) -> None:
        """Ask the terminal to copy the message; nobody tells whether it did."""
        self.app.copy_to_clipboard(message_text(self.found))
        self.tell(COPIED, "note")

    def do_back(self) -> None:
        """Take back the last answer."""
        try:
            walk = self.walk.back(self.app.clock())
        except Refused as refused:  # a walk from a node may be at its end before any answer
            self.tell(refused.reason, "note")
            return
        self.keeper.keep(walk)
        self.app.show_walk(walk, self.keeper)

    def do_possible(self) -> None:
        """Show what the readings leave possible."""
        from .possible import PossibleScreen

        self.app.push_screen(PossibleScreen(self.walk))

    def do_known(self) -> None:
        """Show all that is known."""
        from .known import KnownScreen

        self.app.push_screen(KnownScreen(self.walk, self.keeper))

    def do_leave(self) -> None:
        """Ask where to."""
        self.app.ask_to_leave(self.keeper)
