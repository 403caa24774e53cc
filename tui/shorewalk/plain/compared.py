"""The readings of a site in sentences: each as it was, how far it moved, the lowest and the highest."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from shorewalk.counted import counted
from shorewalk.log.compare import MAIN, Group, Part, Row, compared
from shorewalk.log.hours import FEWEST
from shorewalk.log.kept import Reading
from shorewalk.log.stays import Site
from shorewalk.log.table import digits, shown_before
from shorewalk.log.times import day, moment
from shorewalk.marks import grade_mark

NOTHING = "No readings were kept here."


def site_in_words(site: Site) -> list[str]:
    """Return all that is told of a site: its readings by pair, stay by stay."""
    groups = compared(site)
    return [line for group in groups for line in _group(group)] or [NOTHING]


def before_in_words(site: Site) -> list[str]:
    """Return the volts of this stay; with one reading alone, those of the stay before too; else nothing."""
    group = shown_before(site)
    return [*_group(group)] if group else []


def _group(group: Group) -> Iterator[str]:
    through = f", cord in the {group.outlet}" if group.outlet else ""
    about = group.about[:1].upper() + group.about[1:]
    yield f"{about}{through}, {counted(group.count, 'reading')}:"
    several = len(group.parts) > 1
    for part in reversed(group.parts):
        if part.began and several:
            yield f"  Stay from {day(part.began)}:"
        yield from (f"  {_row(part, row, group.unit)}" for row in part.rows)
    for loaded in (False, True):
        yield from _ends(group, loaded=loaded)


def _row(part: Part, row: Row, unit: str) -> str:
    rest = f"{_reading(row.rest, unit)}{_moved(part.change(row), unit)}" if row.rest else ""
    loaded = _reading(row.loaded, unit) if row.loaded else ""
    return f"{moment(row.time)}: {'; '.join(filter(None, (rest, loaded)))}."


def _moved(change: float | None, unit: str) -> str:
    """Return how far a reading is off the first one of its stay; nothing for that one."""
    if change is None:
        return ""
    if not round(change, 1):
        return ", as the first"
    return f", {abs(change):.1f} {unit} {'more' if change > 0 else 'less'} than the first"


def _reading(reading: Reading, unit: str) -> str:
    load = "with a load on" if reading.loaded else "at rest"
    return f"{digits(reading)} {unit} {load}, {grade_mark(reading.known.grade).word}"


def _ends(group: Group, *, loaded: bool) -> Iterator[str]:
    """Yield the lowest and the highest, with their times: what a drawing by the hour shows at a glance."""
    readings: Sequence[Reading] = group.readings(loaded=loaded)
    if len(readings) < FEWEST or group.quantity not in MAIN:
        return
    by_value = sorted(readings, key=lambda reading: reading.known.value or 0.0)
    low, high = by_value[0], by_value[-1]
    load = "With a load on" if loaded else "At rest"
    yield (
        f"{load}, lowest: {digits(low)} {group.unit}, {moment(low.time)}; "
        f"highest: {digits(high)} {group.unit}, {moment(high.time)}."
    )
