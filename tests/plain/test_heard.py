"""How plain text sounds: words, numbers and sentences, at any width; no drawing, no mark, no arrow."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from shorewalk.folders import demo_data
from shorewalk.plain import spoken
from shorewalk.plain.changing import known_lines
from shorewalk.recorded import read_recorded
from shorewalk.tree.library import shipped
from shorewalk.walk.ending import ending
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import begin

from .conftest import NIGHT, Hear, Keep

SPOKEN = re.compile(r"[A-Za-z0-9 .,;:'\"?()!/%+-]*")
"""What may stand in a line that is said; sums, which have signs of their own, stand in `known` and the record."""
WALKS = sorted(
    {path.stem.split("-")[0]: path for path in sorted((demo_data() / "walks").glob("*.yaml"))}.values()
)


@pytest.mark.parametrize("path", WALKS, ids=lambda path: path.stem)
def test_every_line_of_a_walk_is_words_and_numbers(path: Path) -> None:
    """Questions, what answers told, and endings: a recorded walk of each kind, line by line."""
    recorded = read_recorded(path)
    walk = begin(shipped(), recorded.walk, recorded.meter)
    lines: list[str] = []
    for _, _, answer, _ in recorded.answers:
        lines += [*spoken.question(walk), *spoken.aloud(walk, 80)]
        try:
            walk = walk.answer(answer)
        except Refused:  # the trees moved on; what was said up to here counts
            break
        lines += spoken.told(walk)
    lines += spoken.end_in_words(ending(walk), 1) if walk.ended else []
    assert lines
    for line in lines:
        said = line.partition(" The sum: ")[0]
        assert SPOKEN.fullmatch(said), line
        assert "->" not in said, line
        assert not re.search(r"(^|\s)[-+*/.](\s|$)", said.replace(" + ", " and ")), line
        assert line[:1] == " " or line.endswith((".", "?", ":", "!", '"', ")")), line


def test_the_answers_come_last_with_the_number_before_the_words() -> None:
    """Who hears the number first knows what to type for what follows."""
    lines = [*spoken.question(begin(shipped(), "arrival", parse_meter("basic")))]
    assert [line[:5] for line in lines[-2:]] == ["  1. ", "  0. "]
    assert lines[0].startswith("Question 1, about ")


def test_what_is_known_is_said_latest_first(hear: Hear, keep: Keep) -> None:
    """By its number, with the grade as a word; then how things stand."""
    keep(NIGHT, "2024-05-02T18:00:00Z", answers=8)
    said = hear("1", "k").said
    first, second = re.findall(r"\n  (\d+)\. .*, good\.", said)[:2]
    assert int(first) > int(second)
    assert "How things stand: " in said


def test_the_sum_is_told_where_one_asks() -> None:
    """A good result has its number alone when it is told; with all that is known its sum stands too."""
    recorded = read_recorded(demo_data() / "walks" / f"{NIGHT}.yaml")
    walk = begin(shipped(), recorded.walk, recorded.meter)
    for _, _, answer, _ in recorded.answers:
        walk = walk.answer(answer)
    known = "\n".join(known_lines(walk))
    assert "The sum: " in known
    assert "Sag " in known


@pytest.mark.parametrize("room", [20, 40, 80])
def test_nothing_is_wider_than_the_window(hear: Hear, keep: Keep, room: int) -> None:
    """The start, the log, the help, practice: all is folded between words."""
    keep(NIGHT, "2024-05-02T08:00:00Z", "14, Someday Flats")
    for typed in (["", "", "", "", "", ""], ["?", "", "", ""], ["l", "1", "", "", "", "q", "2", "", ""]):
        said = hear(*typed, room=room).said
        assert not [line for line in said.splitlines() if len(line) > room]
    said = hear("practice", "1", "?", "", "", "u", room=room).said
    assert not [line for line in said.splitlines() if len(line) > room]


def test_a_list_is_not_a_wall(hear: Hear, keep: Keep) -> None:
    """Between two lines that one types there are never more than some twenty lines of 80 letters, cautions aside."""
    for hour in range(10):
        keep(NIGHT, f"2024-05-01T{hour:02}:00:00Z", answers=2)
    typed = [*[""] * 6, "l", "", "1", "", "", "q", "q", "?", "", "", "", "practice", "", ""]
    parts = re.split(r"\n> .*\n", hear(*typed, room=80).said)
    assert len(parts) > 15
    assert max(len(part.splitlines()) for part in parts[1:]) <= 20
