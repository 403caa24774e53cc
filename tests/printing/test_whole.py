"""Everything a sheet says is in each format: every step, every line to take, the cautions ahead of them."""

from __future__ import annotations

import re
from datetime import UTC, datetime

import pytest
from markdown_it import MarkdownIt
from pypdfium2 import PdfDocument

from shorewalk.lines import cells
from shorewalk.paper.blocks import Items
from shorewalk.paper.letters import plain_letters
from shorewalk.printing.as_markdown import as_markdown
from shorewalk.printing.as_pdf import Paper, as_pdf
from shorewalk.printing.as_text import as_text, lead_words, left_of, right_of
from shorewalk.printing.step import Checklist, Step
from shorewalk.tree.library import shipped

from .conftest import all_steps, sheet_of, text_of

MADE = datetime(2026, 6, 1, tzinfo=UTC)
GOES_ON = re.compile(r"Step \d+ goes on\. The lines on the page before come first\.")
PRINTED = ("arrival", "tingle", "batteries-flat", "adapter")
"""Trees that between them have every kind of step; pages of all would take a minute."""


def _bare(text: str) -> str:
    """Return a text without what only sets it in lines: blanks, leaders, rules."""
    return re.sub(r"[\s._|+=-]+", "", text).casefold()


def _pieces(step: Step) -> list[str]:
    """Return all that one step has to say, in its order."""
    head = [str(step.number), step.does, step.text]
    lines = [lead_words(lead, text) for lead, text in step.lines]
    fields = [piece for field in step.fields for piece in field.split("|")]
    ahead = [piece for line in step.ahead for piece in (left_of(line), right_of(line))]
    return [_bare(plain_letters(piece)) for piece in (*head, *lines, *step.loads, *fields, *ahead)]


def _told(sheet: Checklist, text: str) -> None:
    """Hold that the text tells every piece of every step, one after the other, and the cautions before."""
    bare = _bare(plain_letters(text))
    at = bare.index(_bare("Read this first"))
    cautions = next(block for block in sheet.front if isinstance(block, Items))
    for piece in (*map(_bare, cautions.items), *(p for step in all_steps(sheet) for p in _pieces(step))):
        found = bare.find(piece, at)
        assert found >= 0, f"{piece!r} is not told, or not in its place"
        at = found + len(piece) - (piece == "")


def test_text_tells_all_of_it(name: str) -> None:
    """As text every step and every line is told in order, cautions first, and no line is wider than asked."""
    _told(sheet_of(name), text_of(name))
    assert max(cells(row) for row in text_of(name).splitlines()) <= 72


@pytest.mark.parametrize("width", [40, 80])
def test_text_keeps_to_its_width(width: int) -> None:
    """Narrow or wide, all of it is told and no line is wider."""
    text = as_text(sheet_of("lights-dim"), width)
    _told(sheet_of("lights-dim"), text)
    assert max(cells(row) for row in text.splitlines()) <= width


def test_markdown_shows_all_of_it(name: str) -> None:
    """Read as Markdown it shows the same words in order; nothing of it is a link, a picture, code or HTML."""
    tokens = MarkdownIt("gfm-like", {"linkify": False, "html": True}).parse(as_markdown(sheet_of(name)))
    inner = [child for token in tokens for child in token.children or ()]
    assert {token.type for token in inner} <= {
        "text",
        "text_special",
        "strong_open",
        "strong_close",
        "softbreak",
    }
    assert "html_block" not in {token.type for token in tokens}
    _told(sheet_of(name), " ".join(child.content for child in inner))


def _pages(name: str, paper: Paper) -> tuple[list[str], set[tuple[int, int]]]:
    """Return the text of each page without its edges, and the sizes of the pages in points."""
    document = PdfDocument(as_pdf(sheet_of(name), made=MADE, paper=paper))
    title = f"{sheet_of(name).title} ({name})"
    edges = re.compile(rf"{re.escape(title)}|Printed 2026-06-01|Page \d+ of \d+")
    texts = [edges.sub("", page.get_textpage().get_text_range()) for page in document]
    return texts, {(round(width), round(height)) for page in document for width, height in [page.get_size()]}


@pytest.mark.parametrize("name", PRINTED)
def test_pages_hold_all_of_it(name: str) -> None:
    """The text of the PDF is the whole sheet in order; each part begins on a page of its own; no step is torn."""
    sheet = sheet_of(name)
    pages, sizes = _pages(name, "letter")
    _told(sheet, GOES_ON.sub("", "\n".join(pages)))
    assert sizes == {(612, 792)}  # ANSI/ASME Y14.1, in points
    bare = list(map(_bare, pages))
    begun = [sum(page.startswith(_bare(section.title)) for page in bare) for section in sheet.sections]
    assert begun == [1] * len(sheet.sections)
    for step in all_steps(sheet):
        ends = [_bare(plain_letters(right_of(line))) for line in step.ahead]
        head, more = _bare(f"{step.number}{step.does}"), _bare(f"Step {step.number} goes on")
        one = [page for page in bare if (head in page or more in page) and any(end in page for end in ends)]
        assert not ends or any(all(end in page for end in ends) for page in one) or more in "".join(one)


def test_pages_come_on_a4_too() -> None:
    """On A4 all of it is told as well."""
    pages, sizes = _pages("adapter", "a4")
    _told(sheet_of("adapter"), "\n".join(pages))
    assert sizes == {(595, 842)}  # ISO 216, in points


def test_the_same_tree_on_the_same_day_is_the_same_file() -> None:
    """Printing twice gives the same bytes."""
    sheet = sheet_of("tingle")
    assert as_pdf(sheet, made=MADE, paper="a4") == as_pdf(sheet, made=MADE, paper="a4")


def test_every_caution_of_the_tree_stands_first(name: str) -> None:
    """Every caution that any node of the tree wants is told in full before step 1."""
    tree, site = shipped().tree(name), shipped().site
    wanted = {site.cautions[caution].text for node in tree.nodes.values() for caution in node.cautions}
    cautions = next(block for block in sheet_of(name).front if isinstance(block, Items))
    assert wanted <= set(cautions.items)


def test_what_a_step_refers_to_before_step_1_stands_there(name: str) -> None:
    """Where a line asks for a look, or an ending for all of them, the front says which readings make it whole."""
    before, _, steps = text_of(name).partition("THE STEPS")
    for look in re.findall(r"the (\S+ look|look [ab]) \(before step 1\)", " ".join(steps.split())):
        assert look in before
    assert ("Looks: readings that belong together" in before) is (
        "(before step 1)" in " ".join(steps.split())
    )
