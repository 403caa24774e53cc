"""The message as codes for a camera: what is drawn is the code, and the pieces are the message."""

from __future__ import annotations

import pytest
import segno

from shorewalk.lines import as_text
from shorewalk.pages.code import HALVES, QUIET, code_lines, largest_version, pieces, side

MESSAGE = "Site 12: Low voltage at the 30 A outlet: 101.3 V. " * 6


def modules(text: str) -> list[list[bool]]:
    """Return the modules that were drawn, read back from the half blocks."""
    halves = {letter: pair for pair, letter in HALVES.items()}
    rows: list[list[bool]] = []
    for drawn in code_lines(text):
        pairs = [halves[letter] for letter in drawn[0].text]
        rows += [[top for top, _ in pairs], [bottom for _, bottom in pairs]]
    return rows


def test_the_drawing_is_the_code() -> None:
    """Read back, the half blocks are the modules of the standard's symbol, with a border of light ones."""
    symbol = segno.make_qr("Please check the supply.", error="l")
    wanted = [[bool(module) for module in row] for row in symbol.matrix_iter(border=QUIET)]
    found = modules("Please check the supply.")
    assert found[: len(wanted)] == wanted
    assert not any(any(row) for row in found[len(wanted) :])


@pytest.mark.parametrize(("room", "height"), [(80, 22), (40, 18), (120, 38)])
def test_pieces_fit_the_window_and_are_the_message(room: int, height: int) -> None:
    """In every window the codes fit, are numbered, and together say every word once."""
    version = largest_version(room, height)
    parts = pieces(MESSAGE, version)
    for part in parts:
        drawn = code_lines(part)
        assert len(drawn) <= height
        assert len(as_text(drawn).splitlines()[0]) <= room
    words = [word for part in parts for word in (part.split()[1:] if len(parts) > 1 else part.split())]
    assert words == MESSAGE.split()


def test_no_code_where_there_is_no_room() -> None:
    """A window smaller than the smallest symbol is told so, by version 0."""
    assert largest_version(20, 10) == 0
    assert side(1) == 21 + 2 * QUIET
