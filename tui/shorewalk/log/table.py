"""The log as lines: the walks by site, the readings of a site compared, one walk."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from shorewalk.counted import counted
from shorewalk.lines import BLANK, Line, Span, cut, line, wrap
from shorewalk.marks import GRADES, NOTED, grade_mark, verdict_mark
from shorewalk.plots import Plot, draw

from .compare import MAIN, Group, Part, Row, compared
from .hours import FEWEST, hours_of
from .kept import Kept, Reading
from .stays import Site, Stay
from .times import day, moment

COLUMN, LAST = 9, 8
"""Cells of a column of readings, and of how far they moved. With the time it makes 38, for a phone."""

WIDEST, HEIGHT = 72, 16
"""Cells and lines of a drawing."""


class Table:
    """Draws for `room` cells."""

    def __init__(self, room: int, *, ascii_only: bool) -> None:
        self.room, self.ascii_only = room, ascii_only

    def listing(self, sites: Iterable[Site]) -> list[Line]:
        """Return all walks, under their sites and stays, the latest first."""
        rows: list[Line] = []
        for site in sites:
            rows += [*([BLANK] if rows else []), *wrap(site.says, self.room, "strong")]
            for stay in reversed(site.stays):
                rows += self._stay(stay) if stay.began else []
                for walk in reversed(stay.walks):
                    rows += self._listed(walk)
        return rows

    def comparison(
        self, site: Site, groups: Sequence[Group], plot: Plot | None = None
    ) -> Iterator[list[Line]]:
        """Yield the readings of a site, in pieces: drawn, then by pair, stay by stay; last what the marks mean."""
        yield [line(Span(cut(site.says, self.room, "..."), "strong"))]
        if not groups:
            yield wrap("No readings were kept here.", self.room)
            return
        yield self._drawn(plot) if plot else []
        once = [group for group in groups if group.rows == 1]
        for group in groups:
            yield [BLANK, *self.group(group)] if group.rows > 1 else []
        yield [BLANK, line(Span("Read once", "group"))] if once else []
        for group in once:
            yield self._once(group)
        yield [BLANK, *self._legend(groups)]

    def walk(self, kept: Kept) -> list[Line]:
        """Return one walk: where, when, how it ended, its readings."""
        entry = kept.entry
        rows = [*wrap(f"Walk {entry.id}: {kept.symptom}", self.room, "strong")]
        stay = f"stay from {day(kept.where.visited)}" if kept.where.visited else None
        where = [kept.where.says, kept.where.outlet, stay]
        rows += wrap("; ".join(part for part in where if part), self.room, "quiet")
        answers = counted(entry.answers, "answer")
        rows += wrap(
            f"{moment(entry.begun)} to {moment(entry.changed)}, {answers}, meter {entry.meter}", self.room
        )
        rows += [BLANK, *self._ended(kept, indent=0)]
        if entry.ending:
            rows += wrap(str(entry.ending.get("because", "")), self.room)
        if kept.readings:
            rows += [BLANK, line(Span("Readings", "group"))]
        for reading in kept.readings:
            rows += self._reading(reading)
        if not kept.whole:
            rows += [BLANK, *wrap(CHANGED, self.room, "note"), *self._told_then(kept)]
        return rows

    def _drawn(self, plot: Plot) -> list[Line]:
        drawn = draw(plot, min(self.room, WIDEST), ascii_only=self.ascii_only, height=HEIGHT)
        return [BLANK, *(line(row) for row in drawn.rstrip("\n").split("\n"))]

    def _stay(self, stay: Stay) -> list[Line]:
        return wrap(f"Stay from {day(stay.began)}", self.room, "group", first=(Span(" "),))

    def _listed(self, walk: Kept) -> list[Line]:
        ahead = (Span(f"{walk.entry.id:>4}  ", "number"),)
        says = f"{moment(walk.entry.begun)}  {walk.symptom}"
        return [*wrap(says, self.room, first=ahead), *self._ended(walk, indent=6)]

    def _ended(self, walk: Kept, indent: int) -> list[Line]:
        ahead = (Span(" " * indent),)
        if walk.entry.ending is None:
            said = f"Not finished: {counted(walk.entry.answers, 'answer')} so far"
            return wrap(said, self.room, "quiet", first=ahead)
        mark = verdict_mark(str(walk.entry.ending.get("verdict", "")))
        return wrap(f"{mark.cell(ascii_only=self.ascii_only)} {mark.word}", self.room, mark.role, first=ahead)

    def group(self, group: Group) -> list[Line]:
        """Return the readings of one pair, stay by stay."""
        rows = wrap(_about(group), self.room, "group")
        unit = group.unit
        heads = f"{'when':12}{f'{unit} at rest':>{COLUMN}}{f'{unit} loaded':>{COLUMN}}{'change':>{LAST}}"
        rows.append(line(Span(heads, "quiet")))
        for part in reversed(group.parts):
            if group.rows == len(group.parts):  # one a stay: its day says enough
                rows.append(self._row(part, part.rows[0], day(part.began)))
                continue
            rows += wrap(f"Stay from {day(part.began)}", self.room, "quiet") if part.began else []
            rows += [self._row(part, row, moment(row.time)) for row in part.rows]
            rows += self._span(part, unit) if len(part.rows) > 1 else []
        return rows

    def _once(self, group: Group) -> list[Line]:
        row = group.parts[0].rows[0]
        rows = wrap(_about(group), self.room, "quiet", first=(Span(f"{moment(row.time)}  "),), indent=2)
        for reading in filter(None, (row.rest, row.loaded)):
            mark = grade_mark(reading.known.grade)
            load = ", loaded" if reading.loaded else ""
            span = mark.span(ascii_only=self.ascii_only)
            rows.append(line(Span(f"  {reading.known.shows}{load}  "), span))
        return rows

    def _row(self, part: Part, row: Row, when: str) -> Line:
        change = part.change(row)
        return line(
            Span(f"{when:12}"),
            *self._cell(row.rest),
            *self._cell(row.loaded),
            Span(f"{change:>+{LAST}.1f}" if change is not None else ""),
        )

    def _cell(self, reading: Reading | None) -> tuple[Span, ...]:
        if reading is None:
            return (Span(" " * COLUMN),)
        mark = grade_mark(reading.known.grade)
        number = Span(f"{digits(reading):>{COLUMN - 2}} ")
        return (number, Span(mark.cell(ascii_only=self.ascii_only), mark.role))

    def _span(self, part: Part, unit: str) -> list[Line]:
        """Say from where to where the readings of a stay went."""
        said = []
        for of, words in (
            ([row.rest for row in part.rows if row.rest], "at rest"),
            ([row.loaded for row in part.rows if row.loaded], "loaded"),
        ):
            if len(of) > 1:
                low, high = (
                    digits(pick(of, key=lambda each: each.known.value or 0.0)) for pick in (min, max)
                )
                said.append(f"{low} {unit} {words}" if low == high else f"{low} to {high} {unit} {words}")
        return wrap("; ".join(said), self.room, "quiet", first=(Span("  "),)) if said else []

    def _legend(self, groups: Iterable[Group]) -> list[Line]:
        rows = [row for group in groups for part in group.parts for row in part.rows]
        grades = {reading.known.grade for row in rows for reading in (row.rest, row.loaded) if reading}
        marks = [mark for grade, mark in GRADES.items() if grade in grades]
        marks += [NOTED] if grades - GRADES.keys() else []
        said = ", ".join(f"{mark.cell(ascii_only=self.ascii_only)} {mark.word}" for mark in marks)
        return wrap(f"{said}. Change: against the first at rest of that stay.", self.room, "quiet")

    def _reading(self, reading: Reading) -> list[Line]:
        known, mark = reading.known, grade_mark(reading.known.grade)
        rows = wrap(known.says, self.room, "quiet", first=(Span(f"{moment(reading.time)[-5:]}  "),))
        shows = (Span(" " * 7), Span(known.shows), Span("  "), mark.span(ascii_only=self.ascii_only))
        return [*rows, line(*shows)]

    def _told_then(self, kept: Kept) -> list[Line]:
        told = (kept.entry.ending or {}).get("readings")
        told = told if isinstance(told, list) else []
        return [row for each in told for row in wrap(str(each), self.room, "quiet", indent=2)]


def site_lines(site: Site, table: Table) -> list[Line]:
    """Return all that is told of a site: its readings drawn by the hour and compared."""
    return [row for piece in site_pieces(site, table) for row in piece]


def site_pieces(site: Site, table: Table) -> Iterator[list[Line]]:
    """Yield the same a piece at a time, in its order: what is seen first need not wait for the rest."""
    groups = compared(site)
    limits = next((walk.facts.limits for walk in site.walks if walk.facts), {})
    yield from table.comparison(site, groups, hours_of(groups, limits))


def before_lines(site: Site, table: Table) -> list[Line]:
    """Return the volts of this stay, the newest last; with one alone, those of the stay before; else nothing."""
    group = shown_before(site)
    return table.group(group) if group else []


def shown_before(site: Site) -> Group | None:
    """Return the volts of this stay; with one reading alone, those of the stay before too; None with no other."""
    group = next((each for each in compared(site) if each.quantity in MAIN), None)
    if group is None or group.rows < FEWEST:
        return None
    parts = group.parts[-1:] if len(group.parts[-1].rows) >= FEWEST else group.parts[-2:]
    return replace(group, parts=parts)


def _about(group: Group) -> str:
    return (
        group.about[:1].upper() + group.about[1:] + (f", cord in the {group.outlet}" if group.outlet else "")
    )


def digits(reading: Reading) -> str:
    """Return the number as the meter showed it, without its unit; of a wander its middle."""
    return f"{reading.known.value:.1f}" if "." in reading.known.shows else f"{reading.known.value:.0f}"


CHANGED = "The trees have changed since, so that not every answer is understood any more. Told then:"
