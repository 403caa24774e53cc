"""Lines of text: wrapped to fit, cut to fit, in as few stretches as show the same."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from shorewalk.lines import SURE, Span, as_text, beside, cells, cut, line, merged, spread, width, wrap

WORDS = st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cs")), max_size=80)
ROLES = st.sampled_from(["plain", "quiet", "picked", "danger", "ok"])


@given(WORDS, st.integers(2, 40))
def test_wrapped_text_fits_and_loses_nothing(text: str, room: int) -> None:
    """However narrow the window, no line is wider than it and no letter is lost."""
    rows = wrap(text, room)
    assert all(width(row) <= room for row in rows)
    assert "".join(as_text(rows).split()) == "".join(text.split())


@given(WORDS, st.integers(0, 40))
def test_cut_text_fits(text: str, room: int) -> None:
    """A cut text is never wider than its room, and whole where it fits."""
    assert cells(cut(text, room)) <= room
    assert cells(text) > room or cut(text, room) == text


@given(st.lists(st.tuples(WORDS, ROLES), max_size=6))
def test_merging_changes_no_letter_and_no_colour(parts: list[tuple[str, str]]) -> None:
    """Fewer stretches show the same: each letter keeps its role, each coloured ground its blanks."""
    row = tuple(Span(text, role) for text, role in parts if text)
    before = [(letter, span.role) for span in row for letter in span.text]
    after = [(letter, span.role) for span in merged(row) for letter in span.text]
    assert [letter for letter, _ in before] == [letter for letter, _ in after]
    for (letter, role), (_, now) in zip(before, after, strict=True):
        if not letter.isspace() or role in ("picked", "danger"):
            assert role == now


def test_a_stretch_of_blanks_joins_its_neighbour() -> None:
    """Blanks between two stretches cost nothing of their own."""
    assert merged(line(Span("121.8 V"), Span("  "), Span("✓ good", "ok"))) == (
        Span("121.8 V  "),
        Span("✓ good", "ok"),
    )


def test_two_blocks_stand_side_by_side() -> None:
    """The right block begins at its column on every line, where the left has lines and where it has none."""
    rows = beside([line("a")], [line("b"), line("c")], 3)
    assert as_text(rows) == "a  b\n   c"


def test_the_right_end_gives_way() -> None:
    """Where both ends do not fit, the left one stays."""
    assert as_text([spread(line("left"), line("right"), 10)]) == "left right"
    assert as_text([spread(line("left"), line("right"), 9)]) == "left"


FOREIGN = [
    "กัน 119",
    "हिन्दी 119",
    "⚠\ufe0f 119",
    "\U0001f44d\U0001f3fd 119",
    "日本 119",
    "e\u0301 119",
    "Ä 119",
]


@pytest.mark.parametrize("text", [*FOREIGN, "119 V • │ ─ → ±3 °"])
def test_a_text_is_as_wide_as_the_library_draws_it(text: str) -> None:
    """Thai, Devanagari, marks, wide letters and our own signs: who draws and who counts agree."""
    assert cells(text) == cell_len(text)


@given(st.text(max_size=20))
def test_what_is_surely_one_cell_is_one_for_the_library(text: str) -> None:
    """No letter that is counted without asking is counted otherwise than it is drawn."""
    if SURE.fullmatch(text):
        assert len(text) == cell_len(text)
    assert not any(
        map(SURE.fullmatch, (letter for foreign in FOREIGN for letter in foreign if letter > "\xff"))
    )
