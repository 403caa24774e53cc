"""What is known, in lines."""

from __future__ import annotations

from dataclasses import replace

import pytest

from shorewalk.lines import as_text, width
from shorewalk.pages.knowns import known_lines
from shorewalk.pages.sums import beside, told_of
from shorewalk.plain.spoken import of_worked
from shorewalk.tree.library import shipped
from shorewalk.walk.known import Worked
from shorewalk.walk.sums import sum_of

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


@pytest.mark.parametrize(
    ("room", "sum_"),
    [
        (38, ["(121.8 - 112.4) V / 11.7 A = 0.80 ohm", "(0.77 to 0.84)"]),
        (76, ["(121.8 - 112.4) V / 11.7 A = 0.80 ohm (0.77 to 0.84)"]),
    ],
)
def test_a_result_stands_with_the_sum_it_came_from(room: int, sum_: list[str]) -> None:
    """Its name, its number with the grade, then the sum with its numbers and error; nothing is cut."""
    rows = known_lines(WORKED, room, ascii_only=True)
    assert as_text(rows).split("\n") == [
        "the loss up to the rig outlet",
        "0.80 ohm  # stop",
        *sum_,
    ]
    assert max(map(width, rows)) <= room


def test_plain_text_tells_what_came_out_before_the_sum() -> None:
    """Who listens hears first what it is, how far it could be off and its grade; last the sum, if it is not good."""
    assert of_worked(WORKED, shipped().site) == (
        "Worked out: the loss up to the rig outlet: 0.80 ohm (0.77 to 0.84), stop; good is under 0.4 ohm, "
        "a stop is from 0.55 ohm, a sound 25 ft 10 AWG cord has 0.06 ohm. The sum: (121.8 - 112.4) V / 11.7 A."
    )
    good = replace(WORKED, grade="ok")
    assert "sum" not in of_worked(good, shipped().site)
    assert of_worked(good, shipped().site, whole=True).endswith("good. The sum: (121.8 - 112.4) V / 11.7 A.")


def test_good_results_among_many_are_told_in_short() -> None:
    """Many at once would be a page of sums: a good one then has its number alone, others keep the sum."""
    good = replace(WORKED, grade="ok")
    assert told_of(good, among=4) == "the loss up to the rig outlet: 0.80 ohm (0.77 to 0.84)"
    assert told_of(good, among=3) == f"the loss up to the rig outlet: {sum_of(good)}"
    assert told_of(WORKED, among=4) == f"the loss up to the rig outlet: {sum_of(WORKED)}"


def test_an_angle_is_told_from_its_cosine() -> None:
    """121.2, 121.3, 243.0 gives -1.008: clipped, and the greater angle stands last."""
    angle = replace(
        WORKED,
        out="leg-cosine",
        unit="1",
        value=-1.008,
        shows="180 degrees",
        low=-1.01,
        high=-0.99,
        numbers="cos a = x",
    )
    assert sum_of(angle) == "cos a = x = -1.008, so a = 180 degrees (172 to 180)"
    assert beside(angle, shipped().site) == ""


@pytest.mark.parametrize(
    ("out", "said"),
    [
        ("sag-percent", "good is under 4 %, a stop is from 5 %"),
        ("triangle-excess", "good is up to 3 V, a stop is over 3 V"),
        ("rise-over-fall", ""),
    ],
)
def test_what_a_result_is_held_against(out: str, said: str) -> None:
    """The limits of its least grades, in the words that say whether the limit itself still counts as good."""
    assert beside(replace(WORKED, out=out, unit="V"), shipped().site) == said
