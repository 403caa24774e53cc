"""One walk of the log in plain text."""

from __future__ import annotations

from collections.abc import Iterator

from shorewalk.counted import counted
from shorewalk.journal.entry import SAID
from shorewalk.journal.where import stay_at
from shorewalk.log.kept import Kept
from shorewalk.log.table import CHANGED
from shorewalk.log.times import day, moment
from shorewalk.marks import grade_mark

from .again import go_on
from .asides import save
from .log import ended
from .log_page import Page
from .prompt import sentence
from .session import Session
from .where import site_said

NO_TREE = "Its tree cannot be read any more, so there is no record of it."


class AtWalk(Page):
    """Where it was, how it ended, its readings."""

    screen = "log-walk"

    def __init__(self, session: Session, walk: Kept) -> None:
        super().__init__(session)
        self._walk = walk

    @property
    def hint(self) -> str:  # type: ignore[override]
        """What can be done first."""
        what = "hear its end and its message again" if self._walk.entry.ending else "go on with it"
        return f"g: {what}. t: say where it was. Enter: all you can do. q: close this."

    @property
    def walks(self) -> list[Kept]:
        """This one."""
        return [self._walk]

    @property
    def of(self) -> str:
        """What is deleted."""
        return f"walk {self._walk.entry.id}"

    def lines(self) -> Iterator[str]:
        kept, entry, where = self._walk, self._walk.entry, self._walk.where
        yield f"Walk {entry.id}: {sentence(kept.symptom)}"
        stay = f"stay from {day(where.visited)}" if where.visited else None
        if at := ", ".join(part for part in (where.says, where.outlet, stay) if part):
            yield f"Where: {at}."
        answers = counted(entry.answers, "answer")
        yield f"From {moment(entry.begun)} to {moment(entry.changed)}, {answers}, meter {entry.meter}."
        yield f"{ended(kept)}."
        if because := str((entry.ending or {}).get("because", "")):
            yield because
        if kept.readings:
            yield "Readings:"
        for reading in kept.readings:
            known = reading.known
            yield (
                f"  {moment(reading.time)[-5:]}: {known.says}: {known.shows}, {grade_mark(known.grade).word}."
            )
        if not kept.whole:
            yield CHANGED
            readings = (entry.ending or {}).get("readings")
            yield from (
                f"  {sentence(str(each))}" for each in (readings if isinstance(readings, list) else [])
            )

    def do_open(self) -> None:
        """Go on with it, or hear its end."""
        go_on(self.session, self._walk.entry.id)

    def do_site(self) -> None:
        """Ask where it was."""
        if where := site_said(self._voice, "Its"):
            journal, entry = self.session.journal, self._walk.entry
            others = [other for other in journal.walks() if other.id != entry.id]
            stay = stay_at(others, where, entry.begun)
            journal.label(entry.id, park=stay.park, site=stay.site, visited=stay.visited, placed=SAID)
            self._walk = Kept(journal, journal.entry(entry.id))
        self._voice.say(f"Walk {self._walk.entry.id}: {self._walk.where.says or 'no site'}.")

    def do_save(self) -> None:
        """Save its record."""
        if self._walk.walk is None:
            self._voice.say(NO_TREE)
        else:
            save(self.session, self._walk.walk, self._walk.site, self._walk.where.park)
