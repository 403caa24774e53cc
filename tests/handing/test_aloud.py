"""One reads, the other types: every question in two lines."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from shorewalk.author.from_node import From
from shorewalk.lines import BLANK, Line, as_text
from shorewalk.pages.aloud import aloud_page, aloud_words
from shorewalk.pages.question import view_of
from shorewalk.tree.library import shipped
from shorewalk.tree.model import Ask, Measure, Node, Step, Tally
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import Walk, begin

WIDE, NARROW = 77, 38
"""Cells of the page in a window of 80 and of 40 columns."""


def words(node: Node) -> object:
    """What a question is made of: two nodes alike in it read alike."""
    if isinstance(node, Measure):
        return node.what, node.place, node.from_, node.to, node.load, node.meter, node.text
    return (node.text, node.sign) if isinstance(node, Ask) else getattr(node, "text", None)


def every_question() -> Iterator[tuple[str, Walk]]:
    """Yield a walk at every question of every shipped tree; of those alike in all its words, at the first."""
    library, meter = shipped(), parse_meter("basic")
    seen: set[object] = set()
    for name in library.names():
        for node in library.tree(name).nodes.values():
            if isinstance(node, Ask | Step | Tally | Measure) and words(node) not in seen:
                seen.add(words(node))
                yield f"{name}, {node.name}", begin(From(library, name, node.name), name, meter)


@pytest.fixture(scope="module")
def questions() -> list[tuple[str, Walk]]:
    """Every question there is."""
    return list(every_question())


def asked(rows: list[Line]) -> list[Line]:
    """The lines of the question itself: those before the first blank one."""
    return rows[: rows.index(BLANK)] if BLANK in rows else rows


def test_every_question_stands_in_two_lines_at_80_columns(questions: list[tuple[str, Walk]]) -> None:
    """Every question of every shipped tree, drawn for 80 columns, takes at most two lines, and lacks no word."""
    assert len(questions) > 300
    for where, walk in questions:
        rows = asked(aloud_page(view_of(walk), WIDE, 16))
        assert len(rows) <= 2, where
        assert " ".join(as_text(rows).split()) == aloud_words(walk.now, walk.library.site, WIDE), where


def test_at_40_columns_no_question_takes_more_than_three(questions: list[tuple[str, Walk]]) -> None:
    """A phone holds nine of ten questions in two lines; none takes more than three."""
    lines = [len(asked(aloud_page(view_of(walk), NARROW, 15))) for _, walk in questions]
    assert max(lines) <= 3
    assert sum(count <= 2 for count in lines) >= 0.9 * len(lines)


@pytest.mark.parametrize("room", [WIDE, NARROW])
def test_no_two_readings_read_alike(questions: list[tuple[str, Walk]], room: int) -> None:
    """However short, a question says which slots, which outlet and which load: each in words of its own."""
    said: dict[str, object] = {}
    for where, walk in questions:
        node = walk.now.node
        if isinstance(node, Measure):
            pair = (node.what, node.place, frozenset((node.from_, node.to)), node.load.amount, node.text)
            text = aloud_words(walk.now, walk.library.site, room)
            assert said.setdefault(text, pair) == pair, where


@pytest.mark.parametrize("room", [WIDE, NARROW])
def test_the_black_probe_goes_first_and_to_nothing_live(questions: list[tuple[str, Walk]], room: int) -> None:
    """The probe for the reference is read first; a hot slot is for the red one, unless both are hot."""
    for where, walk in questions:
        if isinstance(walk.now.node, Measure):
            text = aloud_words(walk.now, walk.library.site, room).casefold()
            black, _, red = text[text.index("black") :].partition("red")
            assert red, where
            assert "hot" not in black or "hot" in red, where


def test_cautions_and_all_answers_are_read_aloud_too(questions: list[tuple[str, Walk]]) -> None:
    """What was not read yet stands whole, reminders stay, and no answer to choose is left out."""
    for where, walk in questions:
        view = view_of(walk)
        page = " ".join(as_text(aloud_page(view, WIDE, 16)).split())
        for caution in walk.now.cautions:
            assert (caution.text if walk.now.cautions_full else caution.short) in page, where
        assert all(option.says in page for option in view.options), where


def test_plain_text_is_read_aloud_in_few_words(tmp_path: Path) -> None:
    """`--aloud` says the question and its answers, no hints; what it was is said where one goes on."""
    ended = subprocess.run(
        [sys.executable, "-m", "shorewalk", "walk", "arrival", "--plain", "--aloud"],
        input="1\na\na\n",
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "SHOREWALK_HOME": str(tmp_path), "COLUMNS": "80"},
    )
    first, whole, again = ended.stdout.split("Question 2")[1:]
    assert first == ".\nSwitch the generator and the inverter off.\n  1. Done\n  0. I can't do that\n> a\n\n"
    assert "Hint: " in whole
    assert again.startswith(".\n")
    assert "--resume 1 --plain --aloud" in ended.stdout
