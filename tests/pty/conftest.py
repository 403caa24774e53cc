"""Real terminals to run the program in."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from ..bench.terminal import Terminal

__all__ = ["Open", "Terminal", "terminal"]

Open = Callable[..., Terminal]


@pytest.fixture
def terminal(tmp_path: Path) -> Iterator[Open]:
    """Open terminals; all are closed when the test is over."""
    opened: list[Terminal] = []

    def open_terminal(
        *words: str, columns: int = 80, rows: int = 24, term: str | None = "xterm-256color", **more: Any
    ) -> Terminal:
        home = tmp_path / "home"
        opened.append(Terminal(*words, columns=columns, rows=rows, home=home, term=term, **more))
        return opened[-1]

    yield open_terminal
    for one in opened:
        one.hang_up()
