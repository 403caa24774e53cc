"""Which site one is at: asked before the first walk of a stay, passed by with Enter."""

from __future__ import annotations

from collections.abc import Callable

from shorewalk.heard_words import goes_back, leaves
from shorewalk.journal import Keeper
from shorewalk.journal.where import Where, day_of, read_where, stay_at
from shorewalk.lines import Line
from shorewalk.log.asking import asking
from shorewalk.pages.log import STILL, where_page
from shorewalk.walk.walk import Walk

from .base import SHORT, PageScreen
from .program import Program


class WhereScreen(PageScreen):
    """Returns where one is: a place without a site where it was passed by, None where one goes back."""

    kind = "card"
    prompt = "Site"
    letters = False
    heading = "Where"

    def __init__(self, offered: Where | None = None) -> None:
        super().__init__()
        self._offered = offered

    def page(self, room: int, _height: int) -> list[Line]:
        return where_page(self._offered, room)

    def guide(self, room: int) -> str:
        still = f" {STILL}: still there." if self._offered else ""
        return (
            f"Enter alone: not now.{still}"
            if room < SHORT
            else f"Type it, then Enter. Enter alone: not now.{still}"
        )

    def give(self, text: str) -> None:
        if self._offered and text.casefold() == STILL:
            self.dismiss(self._offered)
            return
        if leaves(text) or goes_back(text):
            self.dismiss(None)
            return
        try:
            self.dismiss(read_where(text))
        except ValueError as error:
            self.tell(str(error))
            self.reply.select_all()

    def rest(self) -> None:
        self.dismiss(Where())

    def escape(self) -> None:
        self.dismiss(None)


def placed_first(app: Program, walk: Walk, keeper: Keeper, then: Callable[[], None]) -> None:
    """Ask where a walk is, if it is to be asked, and go on; who goes back instead stays where they were."""
    journal = keeper.journal
    entries, now = journal.walks(), app.clock()
    asked = (
        asking(walk.tree, entries, walk.library.site, now) if app.asks_site and not journal.problem else None
    )
    if asked is None:
        then()
        return

    def decided(where: Where | None) -> None:
        if where is None:
            return
        stay = (
            where
            if where.visited
            else stay_at(entries, where, now)
            if where.site
            else Where(visited=day_of(now))
        )
        keeper.placing.say(stay)
        then()

    app.push_screen(WhereScreen(asked.offered), decided)
