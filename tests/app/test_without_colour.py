"""State is never told by colour alone: for each role that tells one, which words or marks carry it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

import pytest

from shorewalk.app import ShorewalkApp
from shorewalk.lines import Line, Span
from shorewalk.marks import AGAIN, GRADES, VERDICTS
from shorewalk.pages.ending import banner
from shorewalk.picture.gallery import PICTURES, Picture
from shorewalk.theme import ROLES
from shorewalk.walk.answers import Read
from shorewalk.walk.walk import Walk
from shorewalk.widgets.sheet import Sheet

from .conftest import Make, press, shown, type_line

NO_STATE = ("plain", "quiet", "strong", "group", "question", "number", "key", "code")
"""Roles that say how weighty a text is, or what kind; its words are the same in all of them."""
SENTENCE = r"[A-Z\"].+[.?!]$|Saved in "
CARRIERS: Mapping[str, str] = {
    "picked": r"^▸ ?\d+",
    "caution": r"Remember: |• .+|Somebody hurt, or something burning\?",
    "error": SENTENCE,
    "note": rf"\* .+|{SENTENCE}",
    "red": r"RED",
    "black": r"BLACK",
    "ok": r"✓ good|✓|^Saved in ",
    "watch": r"▲ watch|▲|○",
    "stop": r"■ stop|■|^\d+:\d+ .+\.$",
    "danger": r"✕ danger|✕|Do not touch",
    "again": r"↻ read again",
    "ok-banner": r"✓  [A-Z ]+",
    "watch-banner": r"[▲○]  [A-Z ,]+",
    "stop-banner": r"■  [A-Z ]+",
    "danger-banner": r"✕  [A-Z ]+",
}
"""What stands there without any colour: a mark, its word, or the sentence itself."""


def blocks(rows: Iterable[Line]) -> Iterator[tuple[str, str]]:
    """Yield each role with the lines it stands in: those that follow each other in one piece."""
    open_blocks: dict[str, str] = {}
    for row in (*rows, ()):
        text = "".join(span.text for span in row).strip()
        here = {span.role for span in row if span.role in CARRIERS and span.text.strip()}
        for role in [role for role in open_blocks if role not in here]:
            yield role, open_blocks.pop(role)
        for role in here:
            open_blocks[role] = f"{open_blocks.get(role, '')} {text}".strip()


def on(app: ShorewalkApp) -> Iterator[tuple[str, str]]:
    for sheet in app.screen.query(Sheet):
        if sheet.display and sheet.region:
            yield from blocks(sheet.lines)


def test_every_role_is_told_of() -> None:
    """Each role either tells no state, or has what carries it."""
    assert {*NO_STATE, *CARRIERS} == {*ROLES, "plain"}


@pytest.mark.parametrize(
    "picture", [p for p in PICTURES if p.look == "dusk"], ids=lambda picture: picture.name
)
async def test_on_every_screen_words_carry_it(picture: Picture) -> None:
    """On the screens of the gallery whatever is coloured for its state says so in words or marks."""
    with picture.scene("plain") as app:
        async with app.run_test(size=picture.size) as pilot:
            await pilot.pause()
            while not picture.begins(app):
                await pilot.pause(0.01)
            await press(pilot, picture.keys.replace("\r", ""))
            for role, text in on(app):
                assert re.search(CARRIERS[role], text), (role, text)


async def test_what_is_refused_and_what_is_picked_is_told_in_words(make: Make, at_reading: Walk) -> None:
    """A wrong answer, a reading close to the edge, one that is doubted, a choice: each in words too."""
    seen = set()
    for walk, typed in (
        (at_reading, "nonsense"),
        (at_reading, "113.2"),
        (at_reading.answer(Read("113.2"), time="2024-05-01T12:00:00Z"), "77"),
    ):
        app = make(walk)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            await press(pilot, "1" if typed == "77" else "")
            seen |= set(on(app))
            await type_line(pilot, typed)
            seen |= set(on(app))
    assert {"error", "watch", "red", "black"} <= {role for role, _ in seen}
    for role, text in seen:
        assert re.search(CARRIERS[role], text), (role, text)


@pytest.mark.parametrize(("ascii_only", "pointer"), [(False, "▸"), (True, ">")])
async def test_what_is_picked_in_the_menu_is_pointed_at(
    make: Make,
    at_reading: Walk,
    ascii_only: bool,  # noqa: FBT001 (a case)
    pointer: str,
) -> None:
    """The answer whose number is typed has a pointer before it, in letters that the terminal has."""
    app = make(at_reading, ascii_only=ascii_only)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("enter")
        await pilot.pause()
        await press(pilot, "7")
        assert f"{pointer} 7 Leave" in shown(app)
        assert f"{pointer} 8" not in shown(app)


@pytest.mark.parametrize("ascii_only", [False, True])
def test_each_grade_and_verdict_is_told_by_mark_and_word(ascii_only: bool) -> None:  # noqa: FBT001 (a case)
    """No two grades have the same mark or word, no two verdicts the same words, in either kind of letters."""
    grades = [mark.span(ascii_only=ascii_only).text for mark in (*GRADES.values(), AGAIN)]
    banners = [
        "".join(span.text for span in banner(mark, ascii_only=ascii_only)) for mark in VERDICTS.values()
    ]
    for told in (grades, banners):
        assert len(set(told)) == len(told)
        assert all(re.fullmatch(r"\s*\S\s+[\w ,']+", text) for text in told)
    if not ascii_only:
        for mark in (*GRADES.values(), AGAIN):
            assert re.search(CARRIERS[mark.role], mark.span().text)
        for mark, text in zip(VERDICTS.values(), banners, strict=True):
            assert re.search(CARRIERS[f"{mark.role}-banner"], text)


def test_a_colour_without_words_would_be_found() -> None:
    """A grade that is only a colour has nothing that carries it."""
    (found,) = blocks([(Span("121.8 V", "ok"),)])
    assert not re.search(CARRIERS[found[0]], found[1])
