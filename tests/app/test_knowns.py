"""What is known, in lines."""

from __future__ import annotations

import pytest

from shorewalk.lines import as_text, width
from shorewalk.pages.knowns import known_lines
from shorewalk.plain.spoken import of_worked
from shorewalk.walk.known import Worked

WORKED = Worked(
    tree="arrival",
    at="sag",
    out="total-share",
    says="the loss up to the rig outlet",
    value=0.8034,
    unit="ohm",
    formula="(V unloaded - V loaded) / amps",
    numbers="(121.8 - 112.4) V / 11.7 A",
    shows="0.80 ohm",
    low=0.77,
    high=0.84,
    grade="stop",
)


@pytest.mark.parametrize("room", [38, 76])
def test_a_result_stands_with_the_sum_it_came_from(room: int) -> None:
    """Its name, its number with the grade, then the sum with its numbers; nothing is cut."""
    rows = known_lines(WORKED, room, ascii_only=True)
    assert as_text(rows).split("\n") == [
        "the loss up to the rig outlet",
        "0.80 ohm  # stop",
        "= (121.8 - 112.4) V / 11.7 A",
    ]
    assert max(map(width, rows)) <= room


def test_plain_text_tells_the_sum_where_all_that_is_known_is_asked_for() -> None:
    """Not with each answer, where a screen reader would have to go through it."""
    assert of_worked(WORKED) == "Worked out: the loss up to the rig outlet: 0.80 ohm, stop."
    assert of_worked(WORKED, numbers=True) == (
        "Worked out: the loss up to the rig outlet: 0.80 ohm, from (121.8 - 112.4) V / 11.7 A, stop."
    )
