"""Blocks as a PDF: the same bytes again, every word, nothing beyond the margins, nothing torn apart."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Literal

import numpy as np
import pytest

from shorewalk.paper.blocks import Block, Fields, Heading, Items, NewPage, Quote, Rows, Text
from shorewalk.paper.pdf import as_pdf
from shorewalk.paper.sheet import MARGIN

from .conftest import at, ink_of, pictures_of, reader_of, words_of

MADE = datetime(2026, 5, 1, 12, tzinfo=UTC)
LONG = "Look at every slot, and say what you see before you go on. " * 6
SAMPLE: tuple[Block, ...] = (
    Heading("Record: the lights are dim"),
    Text(LONG, lead="Do:"),
    Quote(LONG),
    Heading("Steps", 2),
    Items((LONG, "Short."), "box"),
    Items(("First.", LONG), "number", 8),
    Items(("Dot.", "W" * 300)),
    Rows(("what", "shows"), tuple((f"reading {at}", f"{at}.5 V") for at in range(60)), (3, 1)),
    Fields(("Site", "Read by")),
    NewPage(),
    Text("The last page."),
)


Paper = Literal["letter", "a4"]
PAPERS: tuple[Paper, ...] = ("letter", "a4")


def pdf_of(*blocks: Block, paper: Paper = "letter") -> bytes:
    return as_pdf(blocks, title="A title", made=MADE, paper=paper, foot="The foot")


def words_in(block: Block) -> list[str]:
    """Return the words of a block in the order in which they stand on paper."""
    match block:
        case Heading(text) | Quote(text):
            return text.split()
        case Text(text, lead):
            return [*lead.split(), *text.split()]
        case Items(items, kind, first):
            numbers = [[f"{at}."] if kind == "number" else [] for at in range(first, first + len(items))]
            return [
                word for number, item in zip(numbers, items, strict=True) for word in (*number, *item.split())
            ]
        case Rows(head, rows):
            return [word for row in (head, *rows) for cell in row for word in cell.split()]
        case Fields(names):
            return [word for name in names for word in f"{name}:".split()]
        case NewPage():
            return []


def test_the_same_blocks_and_date_give_the_same_bytes() -> None:
    """Nothing but what the caller gives is in the file, not even the time of day."""
    assert pdf_of(*SAMPLE) == pdf_of(*SAMPLE)
    other = as_pdf(SAMPLE, title="A title", made=datetime(2026, 5, 2, tzinfo=UTC), foot="The foot")
    assert pdf_of(*SAMPLE) != other


def test_it_says_what_it_is_and_when_it_was_made() -> None:
    """A reader shows the title and the date that were given."""
    about = reader_of(pdf_of(*SAMPLE)).metadata
    assert about is not None
    assert (about.title, about.creation_date) == ("A title", MADE)


@pytest.mark.parametrize("paper", PAPERS)
def test_every_word_is_there_in_order(paper: Paper) -> None:
    """Read back, the pages hold each word of each block in order, and besides only heads and feet."""
    found = "".join(words_of(pdf_of(*SAMPLE, paper=paper), "A title", "The foot", "what shows"))
    wanted = "".join(word for block in SAMPLE for word in words_in(block))
    assert found == wanted.replace("whatshows", "")


@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_is_beyond_the_margins(paper: Paper) -> None:
    """Every page has ink, all of it within the margins, head and foot included, and none of it in colour."""
    for picture in pictures_of(pdf_of(*SAMPLE, paper=paper)):
        ink = ink_of(picture)
        tall, wide = ink.shape
        assert ink.sum() > 200
        edge = at(MARGIN) - 1
        assert not ink[:, :edge].any()
        assert not ink[:, wide - edge :].any()
        assert not ink[: at(MARGIN - 8)].any()
        assert not ink[tall - at(MARGIN - 6) :].any()
        assert np.ptp(picture[:, :, :3].astype(int), axis=2).max() == 0


def test_paper_has_the_size_that_was_asked_for() -> None:
    """US letter is 8.5 by 11 inches; A4 is 210 by 297 mm (ISO 216)."""
    sizes = ((215.9, 279.4), (210.0, 297.0))
    for paper, (wide, tall) in zip(PAPERS, sizes, strict=True):
        box = reader_of(pdf_of(Text("x"), paper=paper)).pages[0].mediabox
        points = (float(box.width), float(box.height))
        assert points == pytest.approx((wide / 25.4 * 72, tall / 25.4 * 72), abs=0.1)


def test_boxes_are_drawn_empty() -> None:
    """Before each item to tick stands a square with nothing in it."""
    picture = pictures_of(pdf_of(Items(("Tick this.", "And this."), "box")))[0]
    ink = ink_of(picture)
    column = ink[: at(100), at(MARGIN + 1) : at(MARGIN + 5)]
    rows = np.flatnonzero(column.any(axis=1))
    squares = np.split(rows, np.flatnonzero(np.diff(rows) > 1) + 1)
    assert len(squares) == 2
    for square in squares:
        assert at(3) <= len(square) <= at(4.5)
        inside = ink[square[3] : square[-3], at(MARGIN + 1.5) : at(MARGIN + 3.5)]
        assert not inside.any()


@pytest.mark.parametrize("lines", range(32, 40))
def test_no_heading_is_left_alone_at_the_foot_of_a_page(lines: int) -> None:
    """A heading stands on the page of what it heads, wherever the page happens to be full."""
    blocks: list[Block] = [*(Text("Line.") for _ in range(lines)), Heading("Headed", 2), Text("Beneath.")]
    pages = [page.extract_text() for page in reader_of(pdf_of(*blocks)).pages]
    assert [page for page in pages if "Headed" in page] == [page for page in pages if "Beneath." in page]


def test_an_item_is_torn_only_where_no_page_holds_it() -> None:
    """An item of several lines stands on one page; one that is longer than a page goes on on the next."""
    items = tuple(f"{LONG} end{at}" for at in range(30))
    pages = [page.extract_text() for page in reader_of(pdf_of(Items(items, "box"))).pages]
    assert len(pages) > 1
    for page in pages:
        assert page.count("Look") == 6 * page.count("end")
    giant = reader_of(pdf_of(Items((LONG * 40 + "the-end",), "box"))).pages
    assert len(giant) > 1
    assert "the-end" in giant[-1].extract_text()


def test_every_page_of_a_table_has_its_head() -> None:
    """Whoever holds the second page alone still knows what the columns are."""
    table = Rows(("what", "shows"), tuple((f"reading {at}", "1 V") for at in range(150)))
    pages = reader_of(pdf_of(table)).pages
    assert len(pages) > 2
    assert all("what" in page.extract_text() for page in pages)


def test_every_page_says_which_it_is() -> None:
    """A page that is missing from a stack is noticed."""
    pages = [page.extract_text() for page in reader_of(pdf_of(*SAMPLE)).pages]
    assert [f"Page {at} of {len(pages)}" in page for at, page in enumerate(pages, 1)] == [True] * len(pages)
    assert all("A title" in page for page in pages[1:])


def test_headings_are_an_outline() -> None:
    """A reader lists the headings to jump to."""
    outline = reader_of(pdf_of(*SAMPLE)).outline
    assert "Record: the lights are dim" in str(outline)
    assert "Steps" in str(outline)
