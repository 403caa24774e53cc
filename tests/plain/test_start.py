"""The start in plain text: what was left, what can be begun, own words, and the way back to it."""

from __future__ import annotations

import pytest

from shorewalk.emergency import CARD
from shorewalk.exits import Exit
from shorewalk.journal import Journal
from shorewalk.pages.start import WELCOME
from shorewalk.sections import headers_in, sections_of
from shorewalk.tree.library import shipped

from .conftest import NIGHT, Hear, Keep

SYMPTOMS = [header.symptom for header in headers_in(sections_of(shipped()))]
NOT_NOW = ""


def test_all_that_can_be_begun_is_said_some_at_a_time(hear: Hear) -> None:
    """What may not wait comes first, each Enter says the next heading, and the numbers go on across all of them."""
    whole = hear("", "", "", "", "", "").said
    for number, symptom in enumerate(SYMPTOMS, 1):
        assert f"\n  {number}. {symptom}." in whole
    first = hear().said
    assert "\n  1. Somebody is hurt" in first
    assert len(first.splitlines()) < 20
    assert all(says in first for says in WELCOME)


def test_a_number_counts_before_it_was_heard(hear: Hear) -> None:
    """Who knows the number types it at once."""
    number = SYMPTOMS.index("The voltage is too low") + 1
    assert "The voltage is too low.\n" in hear(str(number), NOT_NOW).said


def test_a_walk_that_was_left_comes_first_and_goes_on(hear: Hear, keep: Keep) -> None:
    """The one answered last is number 1; its next question is asked, and the rest of the numbers move on."""
    keep("arrival-30-good", "2024-05-02T18:00:00Z", answers=3)
    keep("voltage-low-at-supper", "2024-05-02T18:20:00Z", answers=1)
    heard = hear("1")
    said = heard.said
    assert "\n  1. The voltage is too low. 1 answer, left 02 May 18:20.\n" in said
    assert "\n  2. We just arrived and want to plug in. 3 answers, left 02 May 18:00.\n" in said
    assert "\n  3. Somebody is hurt or cannot let go.\n" in said
    assert "Question 2," in said
    assert heard.code == Exit.UNFINISHED
    assert "shorewalk walk --resume 2 --plain" in said


def test_two_walks_that_read_alike_are_told_apart(hear: Hear, keep: Keep) -> None:
    """As where one went on as a copy: their numbers stand with them, and with no other."""
    for _ in range(2):
        keep("voltage-low-at-supper", "2024-05-02T18:20:00Z", answers=1)
    keep("arrival-30-good", "2024-05-02T18:00:00Z", answers=3)
    said = hear().said
    assert "\n  2. The voltage is too low. 1 answer, left 02 May 18:20, walk 2.\n" in said
    assert "\n  3. The voltage is too low. 1 answer, left 02 May 18:20, walk 1.\n" in said
    assert "3 answers, left 02 May 18:00.\n" in said


@pytest.mark.parametrize(
    ("words", "symptom"),
    [
        ("the breaker keeps tripping", "The breaker keeps tripping"),
        ("TINGLE", "Somebody felt a tingle or a shock"),
        ("arrived", "We just arrived and want to plug in"),
    ],
)
def test_own_words_that_mean_one_thing_begin_it(hear: Hear, words: str, symptom: str) -> None:
    """The same finder as in the app and in `walk WORDS`."""
    assert f"\n{symptom}.\nOne question at a time." in hear(words, NOT_NOW).said


def test_own_words_that_fit_several_are_asked_about(hear: Hear) -> None:
    """They come with numbers of their own, and Enter leads back to the whole list."""
    said = hear("voltage", "2", NOT_NOW).said
    assert '"voltage" may mean' in said
    assert "The voltage is too" in said[said.index("One question at a time.") - 60 :]
    back = hear("voltage", "").said
    assert back.count("\nAct now:\n") == 2


def test_what_fits_nothing_offers_the_nearest(hear: Hear) -> None:
    """A slip of the finger, or a whole sentence, gets what comes nearest; nobody is sent down a tree by a guess."""
    heard = hear("the protector won't let power through")
    assert 'Nothing fits "the protector won\'t let power through".' in heard.said
    assert "\n  1. The protector will not let the power through." in heard.said
    assert heard.code == Exit.CLEAN
    assert 'Nothing here is about "qqqq".' in hear("qqqq").said


@pytest.mark.parametrize("typed", ["0", "99", "1000"])
def test_a_number_that_is_not_there_is_told(hear: Hear, typed: str) -> None:
    """With the numbers that are."""
    assert f"{typed} is none of the numbers here: they go from 1 to {len(SYMPTOMS)}." in hear(typed).said


def test_enter_after_the_whole_list_says_all_else(hear: Hear) -> None:
    """The menu comes last; its numbers are commands, and Enter leads back to the list."""
    said = hear(*[""] * 5, "10", "q").said
    assert "  10. The log: past walks, and readings compared." in said
    assert "No walk is kept yet." in said


def test_the_meter_is_asked_for_as_in_the_app(hear: Hear) -> None:
    """A number, or what the maker states; it is the meter of the next walk."""
    assert hear("m", "2").session.meter.name == "good"
    heard = hear("meter", "cheap", "1%+3")
    assert heard.session.meter.name == "1 % + 3"
    assert heard.session.meter_set
    assert "'cheap' is no meter." in heard.words
    assert not hear("m", "").session.meter_set


def test_the_site_is_asked_for_once_in_a_stay(hear: Hear, journal: Journal) -> None:
    """Before a walk that can wait, not before one that cannot; it is in the log, and the next walk takes it over."""
    first = hear("the voltage is too low", "14, Someday Flats", "1").said
    assert "which site are you at?" in first
    assert (journal.walks()[0].site, journal.walks()[0].park) == ("14", "Someday Flats")
    assert "which site are you at?" not in hear("the voltage is too low", "1").said
    assert journal.walks()[0].site == "14"


def test_nobody_who_must_act_is_asked_for_a_site(hear: Hear) -> None:
    """Somebody hurt, a hot plug, a tingle: the first thing to do is said at once."""
    assert "which site" not in hear("1").said
    assert "which site" not in hear("tingle").said


def test_enter_passes_the_site_by_and_it_is_not_asked_again(hear: Hear) -> None:
    """Not within a day."""
    assert "Question 1," in hear("the voltage is too low", "", "1").said
    assert "which site" not in hear("the voltage is too low").said


def test_the_last_site_is_offered_to_those_who_arrive(hear: Hear, keep: Keep, journal: Journal) -> None:
    """`y` is that they are still there; no number is, for that may be a site's."""
    keep(NIGHT, "2024-04-25T18:30:00Z", "14, Someday Flats")
    said = hear("arrived", "y", "1").said
    assert "y: still at site 14, Someday Flats, since 25 Apr 2024." in said
    assert journal.walks()[0].site == "14"


@pytest.mark.parametrize("typed", ["q", "start", "back"])
def test_who_wants_to_leave_is_taken_for_no_site(hear: Hear, journal: Journal, typed: str) -> None:
    """The start comes again, and nothing is kept."""
    said = hear("the voltage is too low", typed).said
    assert said.count("Act now:") == 2
    assert not journal.walks()


def test_one_gets_back_to_the_start_from_a_walk_and_from_its_end(hear: Hear, keep: Keep) -> None:
    """From a question the walk is kept and stands first; the welcome is said once."""
    said = hear("1", "1", "start", "q").said
    assert "1. Somebody is hurt or cannot let go. 1 answer, left" in said
    assert said.count(WELCOME[0]) == 1
    keep(NIGHT, "2024-05-02T17:00:00Z")
    heard = hear("log", "2", "g", "start", "q")
    assert "The end: Good to use." in heard.said
    assert heard.code == Exit.CLEAN


def test_reading_again_begins_where_only_the_present_can_answer(hear: Hear, keep: Keep) -> None:
    """`r` takes over outlet, meter and site of this stay, and at the end the same readings at other times are said."""
    keep("voltage-low-at-supper", "2024-05-02T12:00:00Z", "14, Someday Flats")
    said = hear("r").said
    assert "Read the volts again, to compare.\n" in said
    assert "which site" not in said


def test_the_emergency_card_is_said_whatever_is_asked(hear: Hear) -> None:
    """At the start, at the site, at the meter, in the log, in practice, before something is deleted."""
    for before in ((), ("the voltage is too low",), ("m",), ("l",), ("practice",), ("o",), ("voltage",)):
        for typed in ("!", "EMERGENCY"):
            heard = hear(*before, typed)
            assert CARD[0] in heard.said[len(hear(*before).said) - 2 :], (before, typed)


def test_the_end_of_the_input_is_no_crash_anywhere(hear: Hear) -> None:
    """Whoever hangs up at the start leaves nothing behind, and it exits clean."""
    for lines in ((), ("m",), ("l",), ("o",), ("practice",), ("voltage",), ("the voltage is too low",)):
        assert hear(*lines).code == Exit.CLEAN
