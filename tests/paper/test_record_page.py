"""The record of a whole walk as pages: pictured, they hold what a person needs, where a printer prints."""

from __future__ import annotations

from datetime import UTC, datetime
from functools import cache

import numpy as np

from shorewalk.folders import demo_data
from shorewalk.paper.sheet import MARGIN
from shorewalk.recorded import read_recorded
from shorewalk.tree.library import shipped
from shorewalk.walk.record import record_pdf
from shorewalk.walk.walk import begin

from .conftest import Dots, at, ink_of, pictures_of, reader_of


@cache
def page_of_a_walk() -> bytes:
    """Return the record of the walk with the most answers but one."""
    recorded = read_recorded(demo_data() / "walks" / "arrival-50-late-at-208.yaml")
    walk = begin(shipped(), recorded.walk, recorded.meter)
    for _, _, answer, time in recorded.answers:
        walk = walk.answer(answer, time)
    return record_pdf(walk, "12", "Someday Flats", made=datetime(2026, 5, 1, tzinfo=UTC))


def lines_of(ink: Dots) -> list[tuple[int, int]]:
    """Return the rows of dots, from and to, in which there is ink."""
    edges = np.diff(np.concatenate([[0], ink.any(axis=1).astype(int), [0]]))
    return list(zip(np.flatnonzero(edges == 1), np.flatnonzero(edges == -1), strict=True))


def test_every_page_has_its_ink_within_the_margins() -> None:
    """No page is blank, none is cut off at an edge, and nothing is so close that a printer would lose it."""
    pictures = pictures_of(page_of_a_walk())
    assert len(pictures) == len(reader_of(page_of_a_walk()).pages) > 3
    for picture in pictures:
        ink = ink_of(picture)
        assert 0.005 < ink.mean() < 0.2
        beyond = ink.copy()
        beyond[at(MARGIN - 8) : -at(MARGIN - 6), at(MARGIN) - 1 : -(at(MARGIN) - 1)] = False
        assert not beyond.any()


def test_lines_do_not_run_into_each_other() -> None:
    """Between the lines of the first page there is white: none is taller than the bar beside the message."""
    lines = lines_of(ink_of(pictures_of(page_of_a_walk())[0]))
    assert len(lines) > 25
    assert max(bottom - top for top, bottom in lines) <= at(12)  # the bar joins its lines


def test_the_first_page_says_what_matters() -> None:
    """Where it was, the meter, the verdict, the call and the message stand on the first page."""
    first = " ".join(reader_of(page_of_a_walk()).pages[0].extract_text().split())
    for words in (
        "Someday Flats",
        "Meter: basic, 1.2 %",
        "Use with care",
        "Call: the park",
        "Site 12: The 50 A outlet",
    ):
        assert words in first
