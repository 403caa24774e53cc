"""The log in plain text: sites and walks by number, and the readings of a site."""

from __future__ import annotations

from collections.abc import Container, Iterator

from shorewalk.counted import counted
from shorewalk.journal.where import Where
from shorewalk.log.kept import Kept, kept_walks
from shorewalk.log.stays import Site, site_at, sites_of
from shorewalk.log.times import moment
from shorewalk.log.working_out import work_out
from shorewalk.marks import verdict_mark
from shorewalk.pages.log import NOTHING, Item, alike, items_of

from .compared import site_in_words
from .log_page import Page
from .prompt import listed, sentence
from .session import Session
from .voice import number_in


def tell_log(session: Session, where: Where | None = None) -> None:
    """Say the log until it is closed: the readings of one site, where one is meant and was kept, else all walks."""
    here = site_at(kept_walks(session.journal), where) if where else None
    (AtSite(session, here) if here else Log(session)).run()
    session.voice.say("The log is closed.")


class Log(Page):
    """All sites and walks; a number opens one."""

    screen = "log"

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._items: list[Item] | None = None

    @property
    def hint(self) -> str:  # type: ignore[override]
        """What can be done first."""
        first = "Type a number to open it. Enter: all you can do. " if self.items else ""
        return f"{first}q: close the log."

    @property
    def items(self) -> list[Item]:
        """What can be chosen by number."""
        if self._items is None:
            self._items = items_of(sites_of(kept_walks(self.session.journal)))
        return self._items

    @property
    def walks(self) -> list[Kept]:
        """All walks."""
        return kept_walks(self.session.journal)

    @property
    def of(self) -> str:
        """What is deleted."""
        return f"the whole log, {counted(len(self.walks), 'walk')}"

    def lines(self) -> Iterator[str]:
        yield "The log."
        same = alike(self.items)
        yield from listed(_item(item, same) for item in self.items) if self.items else [NOTHING]

    def chosen(self, typed: str) -> None:
        number = number_in(typed)
        if number is None or not 1 <= number <= len(self.items):
            self._voice.say(f'"{typed}" is none of the numbers here. {self.hint}')
            return
        item = self.items[number - 1]
        if isinstance(item, Site):
            AtSite(self.session, item).run()
        else:
            from .log_walk import AtWalk

            AtWalk(self.session, item).run()
        self.deleted()

    def deleted(self) -> None:
        """Read the journal once more, for something in it may have changed."""
        self._items = None
        self._say()


class AtSite(Page):
    """The readings of a site, compared."""

    screen = "log-site"
    hint = "r: read the volts here again. Enter: all you can do. q: close this."

    def __init__(self, session: Session, site: Site) -> None:
        super().__init__(session)
        self._site = site

    @property
    def walks(self) -> list[Kept]:
        """The walks there."""
        return [*reversed(self._site.walks)]

    @property
    def of(self) -> str:
        """What is deleted."""
        return f"{counted(len(self._site.walks), 'walk')} at {self._site.where.says or 'no site'}"

    def lines(self) -> Iterator[str]:
        work_out(self.walks, self._voice.say)
        yield f"{sentence(self._site.says)} {counted(len(self._site.walks), 'walk')}."
        yield from site_in_words(self._site)


def _item(item: Item, same: Container[int]) -> str:
    if isinstance(item, Site):
        return f"{item.says}: {counted(len(item.walks), 'walk')}, compared"
    which = f", walk {item.entry.id}" if item.entry.id in same else ""
    return f"{moment(item.entry.begun)}: {sentence(item.symptom)} {ended(item)}{which}"


def ended(walk: Kept) -> str:
    """Return how a walk ended."""
    if walk.entry.ending is None:
        return f"Not finished, {counted(walk.entry.answers, 'answer')} so far"
    return verdict_mark(str(walk.entry.ending.get("verdict", ""))).word
