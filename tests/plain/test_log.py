"""The log in plain text: sites and walks by number, readings compared in sentences, files, deleting."""

from __future__ import annotations

import csv
import json
import re
from pathlib import Path

import pytest

from shorewalk.exits import Exit
from shorewalk.journal import Journal
from shorewalk.log import working_out

from .conftest import EVENING, NIGHT, Hear, Keep

MORNING = "read-again-sags"
SITE = "14, Someday Flats"


@pytest.fixture
def two(keep: Keep) -> tuple[int, int]:
    """Two walks at one site within a day: the volts in the rig at noon and at supper."""
    return (
        keep(EVENING, "2024-05-02T12:00:00Z", SITE),
        keep(EVENING, "2024-05-02T18:00:00Z"),
    )


@pytest.mark.usefixtures("two")
def test_sites_come_before_their_walks(hear: Hear) -> None:
    """Each by a number, with the day, what it was about and how it ended, and no mark."""
    said = hear("l", "q").said
    assert "\n  1. Site 14, Someday Flats: 2 walks, compared.\n" in said
    assert re.search(r"\n  2\. 02 May 18:00: The voltage is too low\. [A-Z][a-z ,]+\.\n", said)
    assert re.search(r"\n  3\. 02 May 12:00: The voltage is too low\. [A-Z][a-z ,]+\.\n", said)
    assert said.index("The log is closed.") < said.rindex("> ")


@pytest.mark.usefixtures("two")
def test_readings_are_compared_in_sentences(hear: Hear) -> None:
    """When, how many volts at rest and loaded, each with its grade as a word, how far it moved, lowest and highest."""
    said = hear("l", "1", "", "").said
    assert re.search(
        r"\nHot to neutral, chosen rig outlet[a-z' ]*, cord in the 30 A outlet, 4 readings:\n", said
    )
    assert re.search(r"\n  02 May 12:00: 111\.8 V at rest, watch; 110\.2 V with a load on, [a-z]+\.\n", said)
    assert "\n  02 May 18:00: 111.8 V at rest, watch, as the first; 110.2 V with a load on, " in said
    assert "\nAt rest, lowest: 111.8 V, 02 May 12:00; highest: 111.8 V, 02 May 18:00.\n" in said


def test_a_walk_is_told_with_its_readings(hear: Hear, two: tuple[int, int]) -> None:
    """Where, when, how it ended and why, and each reading with its time."""
    said = hear("l", "3", "", "").said
    assert f"\nWalk {two[0]}: The voltage is too low.\n" in said
    assert "\nWhere: site 14, Someday Flats, 30 A outlet, stay from 02 May 2024.\n" in said
    assert re.search(r"\n  12:00: hot to neutral, chosen rig outlet[a-z' ]*: 111\.8 V, watch\.\n", said)


def test_a_walk_goes_on_or_its_end_is_heard_again(hear: Hear, keep: Keep) -> None:
    """`g`: the end with its message of one that ended, the open question of one that did not."""
    keep(NIGHT, "2024-05-02T08:00:00Z")
    keep(NIGHT, "2024-05-02T09:00:00Z", answers=2)
    assert "\nQuestion 3," in hear("l", "1", "g").said
    said = hear("l", "2", "g").said
    assert "\nThe end: Good to use.\n" in said
    assert "\nSay: " in said


def test_the_log_at_an_end_is_that_of_its_site(hear: Hear, two: tuple[int, int]) -> None:
    """`l` after the end compares the readings there; closed, one is at the end again."""
    assert two
    said = hear("l", "2", "g", "l", "", "", "q", "y").said
    assert "Site 14, Someday Flats. 2 walks." in said
    assert "The message:" in said[said.rindex("The log is closed.") :]


def test_where_a_walk_was_can_be_said_later(hear: Hear, keep: Keep, journal: Journal) -> None:
    """`t` on its page; what cannot be a site is told, and Enter leaves it."""
    keep(NIGHT, "2024-05-02T08:00:00Z")
    said = hear("l", "1", "t", f"{'9' * 61}", "", "t", SITE, "q", "q").said
    assert "That is 61 letters long" in said
    assert "Walk 1: no site." in said
    assert "Walk 1: site 14, Someday Flats." in said
    assert journal.walks()[0].site == "14"


@pytest.mark.usefixtures("two")
def test_readings_and_walks_are_saved_to_new_files(hear: Hear, tmp_path: Path) -> None:
    """`e` for a spreadsheet, `j` for programs; nothing is written over, and where it is is said."""
    said = hear("l", "e", "j", "e", "1", "", "", "j").said
    here = tmp_path / "here"
    assert {path.name for path in here.iterdir()} == {
        "shorewalk-log-2024-05-02.csv",
        "shorewalk-log-2024-05-02-2.csv",
        "shorewalk-log-2024-05-02.json",
        "shorewalk-log-2024-05-02-2.json",
    }
    rows = list(csv.reader((here / "shorewalk-log-2024-05-02.csv").read_text(encoding="utf-8").splitlines()))
    assert len(rows) > 4
    assert len(json.loads((here / "shorewalk-log-2024-05-02.json").read_text(encoding="utf-8"))["walks"]) == 2
    assert f"Saved in {here / 'shorewalk-log-2024-05-02.csv'}" in said


@pytest.mark.parametrize("no", ["", "0", "2", "no", "d", "yes", "!"])
def test_deleting_asks_once_and_takes_1_alone_for_yes(
    hear: Hear, two: tuple[int, int], journal: Journal, no: str
) -> None:
    """Anything else keeps it."""
    assert two
    assert "Nobody can bring that back." in hear("l", "2", "d", no).said
    assert len(journal.walks()) == 2


@pytest.mark.parametrize(("page", "left"), [(("2",), 1), (("1", "", ""), 0), ((), 0)])
def test_what_is_shown_is_deleted(
    hear: Hear, two: tuple[int, int], journal: Journal, page: tuple[str, ...], left: int
) -> None:
    """A walk, a site's walks, or all; the log is said again without them."""
    assert two
    said = hear("l", *page, "d", "1", "q").said
    assert "\nDeleted.\n" in said
    assert len(journal.walks()) == left
    assert ("No walk is kept yet." in said) is (left == 0)


def test_a_number_that_is_not_there_is_told_in_the_log(hear: Hear) -> None:
    """An empty log has none."""
    assert '"7" is none of the numbers here.' in hear("l", "7").said
    assert "There is nothing to delete." in hear("l", "d").said


@pytest.mark.usefixtures("two")
def test_a_long_log_is_said_some_at_a_time(hear: Hear, keep: Keep) -> None:
    """Eight lines, then Enter; a number counts before it was heard."""
    for hour in range(8, 18):
        keep(NIGHT, f"2024-05-01T{hour:02}:00:00Z", answers=1)
    said = hear("l").said
    assert "lines are left. Enter: go on." in said
    assert "13. 01 May 08:00" not in said
    assert "13. 01 May 08:00" in hear("l", "").said
    assert "Not finished, 1 answer so far." in hear("l", "13").said


@pytest.mark.usefixtures("two")
def test_the_same_readings_at_other_times_are_said_at_the_end_of_reading_again(
    hear: Hear, keep: Keep
) -> None:
    """Who read the volts again hears what they were before."""
    keep(MORNING, "2024-05-02T19:00:00Z")
    heard = hear("l", "2", "g")
    assert "\nAt other times here:\n" in heard.said
    assert heard.code == Exit.CLEAN


def test_two_walks_that_read_alike_are_told_apart_by_number(hear: Hear, keep: Keep) -> None:
    """As where one went on as a copy; no other walk has its number there."""
    for _ in range(2):
        keep(EVENING, "2024-05-02T12:00:00Z", answers=1)
    keep(NIGHT, "2024-05-02T12:00:00Z")
    said = hear("log").said
    assert "1 answer so far, walk 1.\n" in said
    assert "1 answer so far, walk 2.\n" in said
    assert "walk 3" not in said


def test_an_end_is_said_before_walks_of_the_past_are_read(
    hear: Hear, keep: Keep, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What to do now stands first; then how many walks are left to be read, and last the readings of other times."""
    monkeypatch.setattr(working_out, "A_WHILE", 0.0)
    for hour in ("07", "12", "18"):
        keep(MORNING, f"2024-05-02T{hour}:00:00Z", SITE)
    said = hear("l", "2", "g", "q").said
    order = (
        "Do this: ",
        "Past walks are read: 2 walks left.",
        "Past walks are read: 1 walk left.",
        "At other times here:",
    )
    places = [said.index(words, said.rindex("The end:")) for words in order]
    assert places == sorted(places)
