"""The log: sites and walks by number; a site's readings compared; one walk."""

from __future__ import annotations

import sqlite3
from asyncio import to_thread
from collections.abc import Callable, Generator
from time import monotonic

from shorewalk.journal.entry import SAID
from shorewalk.journal.where import Where, stay_at
from shorewalk.lines import Line
from shorewalk.log.as_csv import walks_csv
from shorewalk.log.as_json import walks_json
from shorewalk.log.deleting import TRACE, open_elsewhere
from shorewalk.log.kept import Kept, in_time, kept_walks
from shorewalk.log.stays import Site, site_at, sites_of
from shorewalk.log.table import Table
from shorewalk.log.working_out import left_words, working_out
from shorewalk.pages.log import Item, LogPage, items_of
from shorewalk.pages.question import READABLE
from shorewalk.reach import reach
from shorewalk.ruling import Ruling
from shorewalk.saving import save_page, save_record, write_beside

from .base import PageScreen
from .in_slices import AT_ONCE, at_once, go_on, in_slices
from .page_to_print import tell_of_page
from .program import EXPORT, Program

GONE = "Deleted. Files that you saved are not touched."
KEPT_THERE = "Nothing was deleted: what is in the file cannot be reached now."
BEING_MADE = "Nothing was deleted: an export is still being made. Delete when it is saved."


def show_log(app: Program, where: Where | None = None) -> None:
    """Show the log: the readings of one site, where one is meant and was kept, else all walks."""
    from .log_site import SiteScreen

    here = site_at(kept_walks(app.journal), where) if where else None
    app.push_screen(SiteScreen(here) if here else LogScreen())


class KeptScreen(PageScreen):
    """What the screens of the log have in common: they show walks, which can be exported and deleted."""

    @property
    def walks(self) -> list[Kept]:
        """The walks that are shown, the latest first."""
        raise NotImplementedError

    @property
    def of(self) -> str:
        """What they are, in words."""
        raise NotImplementedError

    def left(self) -> str:
        return "1 walk" if len(self.walks) == 1 else f"{len(self.walks)} walks"

    def escape(self) -> None:
        self.dismiss(None)

    def do_close(self) -> None:
        """Go back to where one was."""
        self.dismiss(None)

    def do_again(self) -> None:
        """Read again at the site that is shown, or where the last walk was."""
        self.app.read_volts_again(self.walks[0].where if self.walks and self.kind != "log" else None)

    def do_csv(self) -> None:
        """Save the readings to a new file, for a spreadsheet."""
        self._save(".csv", lambda walks, _: walks_csv(walks))

    def do_json(self) -> None:
        """Save all that is kept of the walks to a new file."""
        self._save(".json", walks_json)

    def do_delete(self) -> None:
        """Ask once, then delete what is shown."""
        from .choose import ChooseScreen

        if not self.walks:
            self.tell("There is nothing to delete.", "note")
            return
        if barred := self._barred():
            self.tell(barred)
            return
        text = ("Nobody can bring it back. Files that you saved or exported stay.",)
        items = ((1, f"Delete {self.of}"), (0, "Keep it"))
        self.app.push_screen(ChooseScreen(f"Delete {self.of}?", text, items), self._delete)

    def _barred(self) -> str | None:
        """Return why nothing can be deleted now: it is being exported, or is not in the file."""
        if self.app.exporting:
            return BEING_MADE
        journal = self.app.journal
        entries = [walk.entry for walk in self.walks]
        return f"{KEPT_THERE} {journal.problem}" if journal.problem else open_elsewhere(journal, entries)

    def _delete(self, number: object) -> None:
        if number != 1:
            return
        try:
            _, whole = self.app.journal.delete(*(walk.entry.id for walk in self.walks))
        except sqlite3.Error as error:
            self.tell(f"Nothing was deleted: {error}.")
            return
        self.deleted(GONE if whole else f"{GONE} {TRACE}")

    def deleted(self, told: str) -> None:
        """Go back, for what was shown is gone."""
        self.dismiss(told)

    def _save(self, ending: str, written: Callable[[list[Kept], str], str]) -> None:
        steps = self._saving(ending, written)
        if go_on(steps, at_once(len(self.walks))):
            # Of the app, for it is saved also where somebody goes back meanwhile.
            self.app.run_worker(in_slices(steps, lambda: None), group=EXPORT)

    def _saving(self, ending: str, written: Callable[[list[Kept], str], str]) -> Generator[None]:
        now, told = self.app.clock(), monotonic()
        in_order = in_time(self.walks)
        for left in working_out(in_order):
            if monotonic() - told >= AT_ONCE:
                self._tell_if_there(left_words(left), "note")
                told = monotonic()
            yield
        try:
            path = write_beside(self.app.folder, f"shorewalk-log-{now[:10]}", ending, written(in_order, now))
        except OSError as error:
            self._tell_if_there(f"It could not be saved: {error.strerror or error}.", "error")
        else:
            self._tell_if_there(reach().saved_words(path), "ok")

    def _tell_if_there(self, text: str, role: str) -> None:
        if self.is_attached:
            self.tell(text, role)


class LogScreen(KeptScreen):
    """All sites and walks; a number opens one."""

    kind = "log"
    heading = "Log"

    def __init__(self) -> None:
        super().__init__()
        self._picked: int | None = None
        self._read_again()

    def _read_again(self) -> None:
        """Read the journal when it is looked at next."""
        self._kept: list[Kept] | None = None
        self._items: list[Item] | None = None
        self._drawn: LogPage | None = None

    @property
    def walks(self) -> list[Kept]:
        """All walks."""
        if self._kept is None:
            self._kept = kept_walks(self.app.journal)
        return self._kept

    @property
    def of(self) -> str:
        """What is deleted."""
        return "every walk"

    @property
    def items(self) -> list[Item]:
        """What can be chosen by number."""
        if self._items is None:
            self._items = items_of(sites_of(self.walks))
        return self._items

    def page(self, room: int, _height: int) -> list[Line]:
        problem = self.app.journal.problem
        if self._drawn is None or self._drawn.made_for != (room, problem):
            self._drawn = LogPage(self.items, room, problem=problem, ascii_only=self.app.ascii_only)
        return self._drawn.lines(self._picked)

    def guide(self, _room: int) -> str:
        return "Type a number to open it, then Enter." if self.walks else "q goes back."

    def typed(self, text: str) -> None:
        self._picked = int(text) if text.isdecimal() else None
        self.reading.renew(top=None)

    def give(self, text: str) -> None:
        items = self.items
        number = int(text) if text.isdecimal() else 0
        if not 1 <= number <= len(items):
            self.tell(f'"{text}" is not one of the numbers here.')
            return
        from .log_site import SiteScreen

        item = items[number - 1]
        screen = SiteScreen(item) if isinstance(item, Site) else KeptWalkScreen(item)
        self.app.push_screen(screen, self._come_back)

    def deleted(self, told: str) -> None:
        self._come_back(told)

    def _come_back(self, told: object) -> None:
        """Read the journal once more where something in it changed."""
        if told:
            self._read_again()
            self.tell(str(told), "ok")
        self._picked = None
        self.show_all(top=None)


class KeptWalkScreen(KeptScreen):
    """One walk: where, how it ended, its readings."""

    kind = "log-walk"

    def __init__(self, walk: Kept) -> None:
        super().__init__()
        self._walk, self._moved = walk, False

    @property
    def heading(self) -> str:  # type: ignore[override]
        """What it was about."""
        return self._walk.symptom

    @property
    def walks(self) -> list[Kept]:
        """This one."""
        return [self._walk]

    @property
    def of(self) -> str:
        """What is deleted."""
        return f"walk {self._walk.entry.id}"

    def page(self, room: int, _height: int) -> list[Line]:
        return Table(min(room, READABLE + 8), ascii_only=self.app.ascii_only).walk(self._walk)

    def guide(self, _room: int) -> str:
        what = "shows its end and message" if self._walk.entry.ending else "goes on with it"
        return f"g {what}. t says where it was. q goes back."

    def do_open(self) -> None:
        """Go on with it, or show its end."""
        self.app.go_on(self._walk.entry.id)

    def do_site(self) -> None:
        """Ask where it was."""
        from .where import WhereScreen

        self.app.push_screen(WhereScreen(), self._place)

    def _place(self, where: object) -> None:
        if not isinstance(where, Where) or not where.site:
            return
        journal, entry = self.app.journal, self._walk.entry
        others = [other for other in journal.walks() if other.id != entry.id]
        stay = stay_at(others, where, entry.begun)
        journal.label(entry.id, park=stay.park, site=stay.site, visited=stay.visited, placed=SAID)
        self._walk, self._moved = Kept(journal, journal.entry(entry.id)), True
        self.show_all(top=None)

    def do_save(self) -> None:
        """Write its record to a new file."""
        walk, where, site = self._walk.walk, self._walk.where, self._walk.site
        if walk is None:
            self.tell("Its tree cannot be read any more, so there is no record of it.")
            return
        now, also = self.app.clock(), Ruling().also(walk)
        try:
            path = save_record(walk, site, self.app.folder, now, where.park, also=also)
        except OSError as error:
            self.tell(f"The record could not be saved: {error.strerror or error}.")
            return
        self.tell(reach().saved_words(path), "ok")
        page = to_thread(save_page, walk, site, path, now, where.park, also=also)
        self.run_worker(tell_of_page(self, path, page))

    def do_close(self) -> None:
        self.dismiss(f"Walk {self._walk.entry.id}: {self._walk.where.says}." if self._moved else None)

    def escape(self) -> None:
        self.do_close()
