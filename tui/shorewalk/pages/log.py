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


def log_page(
    items: Sequence[Item], picked: int | None, room: int, *, problem: str | None, ascii_only: bool
) -> list[Line]:
    """Return the list of sites and walks; `picked` is the number that is typed."""
    text = min(room, READABLE + 8)
    rows = wrap(problem, text, "error") if problem else []
    rows += [] if items else wrap(NOTHING, text)
    same = alike(items)
    for number, item in enumerate(items, 1):
        role = "picked" if number == picked else "plain"
        ahead = Span(f"{number:>3}  ", "picked" if number == picked else "number")
        if isinstance(item, Site):
            count = "1 walk" if len(item.walks) == 1 else f"{len(item.walks)} walks"
            rows += [BLANK] if rows else []
            rows += wrap(
                f"{item.says}: {count}, compared",
                text,
                "picked" if role == "picked" else "group",
                first=(ahead,),
            )
        else:
            which = f" (walk {item.entry.id})" if item.entry.id in same else ""
            rows += wrap(f"{moment(item.entry.begun)} {item.symptom}{which}", text, role, first=(ahead,))
            rows.append(line(Span(" " * 5), _ended(item, ascii_only=ascii_only)))
    return rows


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
