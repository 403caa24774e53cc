"""What comes in one write, as over a link that stalled, is what was typed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from shorewalk.journal import Journal
from shorewalk.tree.model import Measure
from shorewalk.walk.answers import Answer, Read

from ..bench.walker import give_in_app, painted, read_on, steps

if TYPE_CHECKING:
    from .conftest import Open, Terminal

LEFT, DELETE, RUB = "\x1b[D", "\x1b[3~", "\x7f"


@pytest.mark.parametrize(
    ("keys", "kept"),
    [
        (f"11{RUB}2.5\r", "12.5"),
        (f"12.9{LEFT}{RUB}.{DELETE}4\r", "12.4"),
        (f"9\x1512.15{LEFT}{LEFT}{DELETE}\r", "12.5"),
        (f"1\x1b[200~2.9\x1b[201~{RUB}5\r", "12.5"),
        (f"!1{RUB}q12.5\r", "12.5"),
    ],
)
def test_a_reading_in_one_write_is_the_one_typed(terminal: Open, keys: str, kept: str) -> None:
    """Edits between the digits, a paste, a card opened and closed: the reading kept is the one meant."""
    window = terminal("walk", "lights-dim")
    for walk, answer in steps("lights-dim-battery-empty"):
        window.wait_until(painted(walk, 80), walk.now.text)
        if isinstance(walk.now.node, Measure) or answer is None:
            break
        read_on(window)
        give_in_app(window, walk, answer)
    before = last_kept(window)
    window.type(keys)
    window.wait_until(lambda _: last_kept(window) != before, "the answer")
    assert last_kept(window) == Read(kept)


def last_kept(window: Terminal) -> Answer:
    """Return the answer that was kept last."""
    journal = Journal.open(window.home)
    (entry,) = journal.unfinished()
    kept = journal.load(entry.id).answers[-1].answer
    journal.close()
    return kept
