"""Over a slow link the question comes first. Bytes are counted, nothing is waited for."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from ..bench.slow import SECOND, SIZES, TERMS, arrivals

if TYPE_CHECKING:
    from .conftest import Open


@pytest.mark.parametrize(("columns", "rows"), SIZES)
@pytest.mark.parametrize("term", TERMS)
def test_the_question_comes_first(tmp_path: Path, term: str, columns: int, rows: int) -> None:
    """The first question is whole within 3 seconds at 1,200 baud, each later one within 2; then its answers."""
    first, *later = arrivals(term, columns, rows, tmp_path / "home")
    assert 0 < first.question < 3 * SECOND
    assert first.question < first.answers < 8 * SECOND
    assert first.all < 26 * SECOND
    assert len(later) > 5
    for each in later:
        assert 0 < each.question < 2 * SECOND
        assert each.question < each.answers or each.answers == 0
        assert each.answers < each.all


@pytest.mark.parametrize(("columns", "rows"), SIZES)
def test_what_is_around_the_page_comes_after_it(terminal: Open, columns: int, rows: int) -> None:
    """Head, line and footer of the first screen are sent once, after the last answer."""
    window = terminal("walk", "tingle", columns=columns, rows=rows)
    window.wait_for("! emergency", "left")
    last = window.wire.index(b"I can't do that")
    for around in (b"Somebody felt a tingle", b"Number ", b"emergency"):
        assert window.wire.count(around) == 1
        assert window.wire.index(around) > last
