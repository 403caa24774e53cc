"""Walks that are killed at any moment."""

from __future__ import annotations

from pathlib import Path

import pytest

from ..bench.kills import FRONTS, TAKEN_UP, killed


@pytest.mark.parametrize("front", FRONTS)
def test_a_killed_walk_has_every_answer_whose_next_question_was_painted(tmp_path: Path, front: str) -> None:
    """Six kills and resumes each: no answer is lost, twice or changed, and the walk goes on where it stood.

    `python -m bench.kills` (in `tests/`) does the same by the hundred.
    """
    count, wrong = killed(6, (front,), seed=4, home=tmp_path / "home")
    assert wrong == []
    assert count["kills"] >= 6
    assert count[TAKEN_UP] >= 6
    assert count["answers that had to be there"] > 20
