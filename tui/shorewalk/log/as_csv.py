"""Readings as CSV, a row a reading, for a spreadsheet."""

from __future__ import annotations

import csv
import io
import unicodedata
from collections.abc import Iterable

from .kept import Kept, Reading
from .working_out import work_out

VOLTS = ("volts [V]", "volts at least [V]", "volts at most [V]")
UNITS = {"Hz": "frequency [Hz]", "ohm": "resistance [ohm]", "A": "current [A]"}
HEADINGS = (
    "walk",
    "uuid",
    "tree",
    "park",
    "site",
    "cord in",
    "stay from",
    "time [UTC]",
    "reading of",
    "load on",
    "breaker off",
    *VOLTS,
    *UNITS.values(),
    "grade",
    "meter",
)
FORMULA = "=+-@\t\r"
"""How a cell begins that a spreadsheet would work out."""


def walks_csv(walks: Iterable[Kept]) -> str:
    """Return the readings of walks, in the order of the walks; volts with how far the meter may be off."""
    walks = [*walks]
    work_out(walks)
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")  # RFC 4180
    writer.writerow(HEADINGS)
    for walk in walks:
        writer.writerows(_row(walk, reading) for reading in walk.readings)
    return out.getvalue()


def _row(walk: Kept, reading: Reading) -> list[str]:
    entry, where, known = walk.entry, walk.where, reading.known
    words = (
        entry.uuid,
        entry.tree,
        where.park,
        where.site,
        where.outlet,
        where.visited,
        reading.time,
        reading.about,
    )
    yes_no = ("no", "yes")
    volts = (known.value, known.low, known.high) if known.unit == "V" else (None, None, None)
    others = (known.value if known.unit == unit else None for unit in UNITS)
    return [
        str(entry.id),
        *(as_text(word or "") for word in words),
        yes_no[reading.loaded],
        yes_no[reading.dead],
        *map(_number, (*volts, *others)),
        known.grade or "",
        as_text(entry.meter),
    ]


def as_text(word: str) -> str:
    """Return a word as a cell that no spreadsheet takes for a formula: a quote stands before what may be one."""
    begins = unicodedata.normalize("NFKC", word.lstrip(" "))[:1]
    return f"'{word}" if begins and begins in FORMULA else word


def _number(value: float | None) -> str:
    return "" if value is None else f"{round(value, 3)}"
