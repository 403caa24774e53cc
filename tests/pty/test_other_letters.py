"""A terminal that sends letters in another way than UTF-8."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .conftest import Open

RUB = b"\x7f"


def test_a_byte_that_is_no_letter_ends_nothing(terminal: Open) -> None:
    """It stands in the line as a mark, and can be rubbed out; the answer is the one that is left."""
    window = terminal("walk", "tingle")
    window.wait_for("Take your hands off", "q leave")
    window.type(b"\xe9\xff1\xc3")
    window.wait_for("Number > \N{REPLACEMENT CHARACTER}\N{REPLACEMENT CHARACTER}1")
    window.type(b"2" + RUB * 4 + RUB + b"1\r")
    window.wait_for("How is the person", "q leave")
