"""The log on a screen: what can be chosen by number, and the question where one is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from shorewalk.journal.where import EXAMPLE, Where
from shorewalk.lines import BLANK, Line, Span, line, wrap
from shorewalk.log.kept import Kept
from shorewalk.log.stays import Site
from shorewalk.log.times import day, moment
from shorewalk.marks import verdict_mark

from .question import READABLE

Item = Site | Kept
NOTHING = "No walk is kept yet. What you answer in a walk is found here afterwards."


def items_of(sites: Iterable[Site]) -> list[Item]:
    """Return what can be chosen, in the order of the numbers: each site, then its walks, the latest first."""
    items: list[Item] = []
    for site in sites:
        items += [site] if site.known else []
        items += reversed(site.walks)
    return items


def alike(items: Iterable[Item]) -> set[int]:
    """Return the numbers of the walks that read like another one, as a copy does: they are told with it."""
    walks = [item for item in items if isinstance(item, Kept)]
    said = {walk.entry.id: (moment(walk.entry.begun), walk.symptom, _verdict(walk)) for walk in walks}
    count = Counter(said.values())
    return {number for number, reads in said.items() if count[reads] > 1}


class LogPage:
    """The list of sites and walks, each drawn once; only what is picked is drawn otherwise."""

    def __init__(
        self, items: Sequence[Item], room: int, *, problem: str | None = None, ascii_only: bool
    ) -> None:
        self.made_for = (room, problem)
        self._items, self._text, self._ascii = items, min(room, READABLE + 8), ascii_only
        self._same = alike(items)
        self._above = wrap(problem, self._text, "error") if problem else []
        self._above += [] if items else wrap(NOTHING, self._text)
        self._drawn = [self._item(number, picked=False) for number in range(1, len(items) + 1)]

    def lines(self, picked: int | None) -> list[Line]:
        """Return all lines; `picked` is the number that is typed."""
        drawn = self._drawn
        if picked and picked <= len(drawn):
            drawn = [*drawn[: picked - 1], self._item(picked, picked=True), *drawn[picked:]]
        return [*self._above, *(row for rows in drawn for row in rows)]

    def _item(self, number: int, *, picked: bool) -> list[Line]:
        item = self._items[number - 1]
        ahead = Span(f"{number:>3}  ", "picked" if picked else "number")
        if isinstance(item, Site):
            count = "1 walk" if len(item.walks) == 1 else f"{len(item.walks)} walks"
            role = "picked" if picked else "group"
            rows = wrap(f"{item.says}: {count}, compared", self._text, role, first=(ahead,))
            return [BLANK, *rows] if number > 1 or self._above else rows
        which = f" (walk {item.entry.id})" if item.entry.id in self._same else ""
        role = "picked" if picked else "plain"
        said = f"{moment(item.entry.begun)} {item.symptom}{which}"
        rows = wrap(said, self._text, role, first=(ahead,))
        return [*rows, line(Span(" " * 5), _ended(item, ascii_only=self._ascii))]


def _ended(walk: Kept, *, ascii_only: bool) -> Span:
    if (verdict := _verdict(walk)) is None:
        return Span("not finished", "quiet")
    mark = verdict_mark(verdict)
    return Span(f"{mark.cell(ascii_only=ascii_only)} {mark.word}", mark.role)


def _verdict(walk: Kept) -> str | None:
    return None if walk.entry.ending is None else str(walk.entry.ending.get("verdict", ""))


def where_page(offered: Where | None, room: int) -> list[Line]:
    """Return the question where one is; `offered` may still be it."""
    text = min(room, READABLE)
    rows = wrap("Which site are you at?", text, "question")
    rows += [BLANK, *wrap(f"Its number, and the park after a comma, as in {EXAMPLE}", text)]
    if offered and offered.site:
        ahead = (Span(f" {STILL}  ", "number"),)
        since = f", since {day(offered.visited)}" if offered.visited else ""
        rows += [BLANK, *wrap(f"Still at {offered.says}{since}", text, first=ahead)]
    return [*rows, BLANK, *wrap(WHY, text, "quiet")]


STILL = "y"
"""What is typed for the site that is offered; no number, for that may be a site's."""
WHY = (
    "It goes into the message for the park, and the log compares the readings of one site. It stays on this computer. "
    "Asked once in a stay; it can be said later too."
)
