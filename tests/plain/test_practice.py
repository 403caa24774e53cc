"""Practice in plain text: the sites by number, the meter by numbers or by words, and the way on afterwards."""

from __future__ import annotations

import pytest

from shorewalk.exits import Exit
from shorewalk.journal import Journal
from shorewalk.journal.practised import keep_practised, practised
from shorewalk.pedestal.campground import campground
from shorewalk.plain.moving import Place
from shorewalk.plain.practice import practice_at
from shorewalk.plain.session import Session

from .conftest import Hear

SITES = [*campground().values()]


def at_creek(session: Session) -> Place:
    """Stand at an easy site, always with the same values."""
    return practice_at(session, "creek-1", 3).walk_through


def test_sites_are_said_by_level_with_their_numbers(hear: Hear) -> None:
    """Easy ones first, each Enter says the next level, a surprise comes last."""
    said = hear("practice", "", "", "").said
    for number, site in enumerate(SITES, 1):
        assert f"\n  {number}. {site.says}." in said
    assert f"\n  {len(SITES) + 1}. A surprise: a site that nobody knows.\n" in said
    assert said.index("Easy sites:") < said.index("Fair sites:") < said.index("Nasty sites:")
    assert "Fair sites:" not in hear("practice").said


def test_where_one_was_is_said(hear: Hear) -> None:
    """In words, and whether it ended as it should."""
    keep_practised("creek-1", right=True)
    keep_practised("creek-2", right=False)
    said = hear("practice").said
    assert said.count("You were there, and ended as you should.") == 1
    assert said.count("You were there, and did not end as you should.") == 1


@pytest.mark.parametrize("typed", ["1", "creek-1", "CREEK-1"])
def test_a_site_is_chosen_by_number_or_name(hear: Hear, typed: str, journal: Journal) -> None:
    """The scene is said, that nothing is live, how the meter is used; and no walk is kept."""
    said = hear("practice", typed, "1").said
    assert SITES[0].says in said
    assert "Practice. Nothing here is live." in said
    assert "Question 2," in said
    assert not journal.walks()


def test_a_surprise_is_a_site_too(hear: Hear) -> None:
    """By its number or by its name."""
    for typed in (str(len(SITES) + 1), "surprise"):
        assert "A site that nobody knows (seed " in hear("practice", typed).said


@pytest.mark.parametrize("typed", ["99", "0", "creek-99"])
def test_a_site_that_is_not_there_is_told(hear: Hear, typed: str) -> None:
    """And the list stands."""
    heard = hear("practice", typed, "q")
    assert f'There is no site "{typed}".' in heard.said
    assert heard.code == Exit.CLEAN


def test_the_meter_goes_by_numbers(hear: Hear) -> None:
    """`u`: dial, probes, both out; each time the display is said first; Enter goes back to the question."""
    said = hear("1", "u", "1", "2", "3", "3", "5", "0", at=at_creek).said
    assert "  1. Turn the dial.\n" in said
    assert "Dial: AC volts. Probes: black in the air, red in the air." in said
    assert "Probes: black at the hot slot, red in the air." in said
    assert "Probes: black at the hot slot, red at the neutral slot." in said
    assert "Question 2," in said[said.index("> 0\n") :]


def test_the_meter_goes_by_words_in_one_line(hear: Hear) -> None:
    """The same at the question itself; what cannot be done is told, and no word of it is an answer."""
    said = hear("dial ac black N red L", "dial steam", "black", "red 20:Q", "meter", at=at_creek).said
    assert "Probes: black at the neutral slot, red at the hot slot." in said
    assert "The dial has: off, ac" in said
    assert said.count("Say where, like black N or red 20:L.") == 2
    assert "Question 2," not in said


def test_an_answer_typed_at_the_meter_is_one_to_the_question(hear: Hear) -> None:
    """Nobody has to put the meter down first."""
    assert "Question 1," in hear("u", "help", at=at_creek).said
    assert "A number: the answer of that number." in hear("u", "help", at=at_creek).said


def test_looking_is_answered_where_a_look_is_asked_for(hear: Hear) -> None:
    """`l` and `look`; elsewhere it is said that nothing is to be seen."""
    assert "Nothing is asked for your eyes here." in hear("look", at=at_creek).said
    for typed in ("l", "look"):
        assert "You look: " in hear("1", "1", "1", "1", "1", typed, at=at_creek).said


def test_the_end_says_what_was_wrong_and_what_to_do_the_next_time(hear: Hear) -> None:
    """After the ending itself; it is kept that one was there, and the way on leads to another site."""
    heard = hear("0", "l", "sites", "q", at=at_creek)
    said = heard.said
    assert said.index("\nThis was practice: call nobody.") < said.index("\nThe end: ")
    assert said.index("\nThe end: ") < said.index("\nWhat was wrong: ") < said.index("\nNext time: ")
    assert practised() == {"creek-1": False}
    assert "A practice walk is not kept, and is in no log." in said
    assert "Easy sites:" in said
    assert "  - " not in said
    assert heard.code == Exit.CLEAN


def test_nothing_of_practice_is_said_to_be_kept(hear: Hear) -> None:
    """In the menu, the help, on leaving, and it is not handed over."""
    said = hear("1", "", "", "?", "", "", "", "o", "q", at=at_creek).said
    assert "Every answer is kept" not in said
    assert "every answer is kept" not in said
    assert "it is not handed over" in said
    assert "Nothing of this walk is kept." in said


def test_the_start_is_one_word_away(hear: Hear) -> None:
    """From the sites and from a walk."""
    assert "Act now:" in hear("start", at=at_creek).said
    assert hear("practice", "start").said.count("Act now:") == 2
