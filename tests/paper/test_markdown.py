"""Blocks as Markdown, read back by a Markdown reader: the same pieces, and every text as it was written."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from shorewalk.paper.blocks import Block, Fields, Heading, Items, NewPage, Quote, Rows, Text
from shorewalk.paper.markdown import as_markdown

READER = MarkdownIt("commonmark").enable(["table", "strikethrough"])

TRAPS = (
    "# no heading", "- no list", "* no list", "+ no list", "1. no number", "12) no number", "> no quote",
    "--- ", "===", "```", "~~~", "| a | b |", "a | b", "*no* _stress_ **at** __all__ ~~here~~", "`no code`",
    "<b>no tag</b>", "<!-- no comment -->", "&amp; no entity; &#35;", "[no](http://example.invalid)",
    "![no](picture)", "[no]: reference", "\\", "a\\", "\\*", "$x$", ":--", "    no code", "-", "+", "=", "0.", "|",
)  # fmt: skip
"""What a Markdown reader would take for markup."""

lines = st.text(st.characters(exclude_categories=["C", "Zl", "Zp"]), min_size=1, max_size=40).filter(
    lambda text: bool(text.split())
)
texts = st.one_of(st.sampled_from(TRAPS), lines)


def read(markdown: str) -> list[tuple[str, str]]:
    """Return what a reader finds: each text with the tags it stands in."""
    found: list[tuple[str, str]] = []
    within: list[str] = []
    for token in READER.parse(markdown):
        if token.nesting == 1:
            within.append(token.tag)
        elif token.nesting == -1:
            within.pop()
        elif token.type == "inline":
            kinds = {child.type for child in token.children or ()} - {"text", "text_special", "softbreak"}
            lead = kinds == {"strong_open", "strong_close"}
            assert not kinds or lead, (kinds, token.content)
            found.append((" ".join(within), "".join(child.content for child in token.children or ())))
        else:
            found.append((token.type, ""))
    return found


def flat(text: str) -> str:
    return " ".join(text.split())


@given(texts)
@example("12.")
@pytest.mark.parametrize(
    ("block", "tags"),
    [
        (lambda text: Heading(text, 2), ["h2"]),
        (Text, ["p"]),
        (Quote, ["blockquote p"]),
        (lambda text: Items((text, text)), ["ul li p", "ul li p"]),
        (lambda text: Items((text,), "number", 7), ["ol li p"]),
        (lambda text: Rows((text,), ((text,),)), ["table thead tr th", "table tbody tr td"]),
    ],
)
def test_text_shows_as_it_was_written(block: object, tags: list[str], text: str) -> None:
    """Whatever a tree or a person wrote stands in the piece it was put in, letter for letter, and is no markup."""
    assert callable(block)
    made: Block = block(text)
    assert read(as_markdown([made])) == [(tag, flat(text)) for tag in tags]


@given(texts, texts)
def test_a_lead_stands_before_its_paragraph(lead: str, text: str) -> None:
    """The lead is strong, the rest is not, and both read on in one line."""
    assert read(as_markdown([Text(text, lead=lead)])) == [("p", f"{flat(lead)} {flat(text)}")]


@given(st.lists(st.tuples(texts, texts), min_size=1, max_size=4))
def test_a_table_keeps_its_cells(rows: list[tuple[str, str]]) -> None:
    """Every row has as many cells as the head, whatever stands in them."""
    found = read(as_markdown([Rows(("a", "b"), tuple(rows))]))
    cells = [text for tags, text in found if tags.endswith("td")]
    assert cells == [flat(cell) for row in rows for cell in row]


def test_pieces_stand_apart() -> None:
    """Pieces that follow each other do not run into one another."""
    pieces: list[Block] = [
        Heading("Title"), Text("One."), Text("Two."), Items(("a", "b")), Items(("c",), "box"),
        Quote("Said."), Rows(("h",), (("x",),)), Fields(("Site",)), NewPage(), Heading("Next", 2),
    ]  # fmt: skip
    markdown = as_markdown(pieces)
    assert [text for _, text in read(markdown)] == [
        "Title", "One.", "Two.", "a", "b", "[ ] c", "Said.", "h", "x", "Site: ________", "", "Next",
    ]  # fmt: skip
    assert markdown.endswith("Next\n")
