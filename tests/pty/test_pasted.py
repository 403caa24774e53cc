"""What is pasted into the app cannot reach the terminal as anything but text."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .conftest import Open

OVERRIDE = "\u202e"
"""Turns what comes after it about."""


def test_what_is_pasted_is_shown_as_text(terminal: Open) -> None:
    """A paste with a direction mark stands there with a question mark; the mark itself is never written."""
    window = terminal("walk", "tingle")
    window.wait_for("Somebody felt a tingle")
    window.type(f"\x1b[200~zz{OVERRIDE}abc\x1b[201~")
    window.wait_for("zz?abc")
    assert not window.said(OVERRIDE)
