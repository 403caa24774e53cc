"""Plain sentences: one numbered question at a time, for ears as much as for eyes."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import pytest

from shorewalk.emergency import CARD
from shorewalk.exits import Exit
from shorewalk.journal import Journal, Keeper
from shorewalk.plain import Talk
from shorewalk.plain.spoken import of_known
from shorewalk.tree.library import Library, shipped
from shorewalk.walk.answers import Choose, Read, Running, Unable, Unsure
from shorewalk.walk.known import Known
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import Walk, begin

Say = Callable[..., tuple[str, Talk]]
TO_VOLTS = ("1", "1")
TO_TALLY = (*TO_VOLTS, "121.8")


@pytest.fixture
def journal(home: Path) -> Journal:
    return Journal.open(home, clock=lambda: "2024-05-01T18:30:00Z")


@pytest.fixture
def say(tree: Path, journal: Journal) -> Say:
    """Type lines into a walk of the small tree; return what it said, and the talk."""

    def talk(*lines: str, walk: Walk | None = None, room: int = 80, offer: bool = False) -> tuple[str, Talk]:
        walk = walk or begin(Library(tree.parent), "small", parse_meter("basic,tenths"))
        out = io.StringIO()
        talk = Talk(walk, Keeper(journal), io.StringIO("".join(f"{line}\n" for line in lines)), out, room)
        talk.code = talk.run(offer=offer)  # type: ignore[attr-defined]
        return out.getvalue(), talk

    return talk


def test_a_walk_ends_with_action_call_and_words(say: Say) -> None:
    """The verdict, the action, the call and the words to say, each a line that begins with what it is."""
    said, talk = say(*TO_VOLTS, "x")
    end = said[said.index("The end:") :]
    assert end.startswith("The end: Stay unplugged.\nDo this: Keep the cord out.\n")
    assert "\nCall: The park." in end
    assert "\nSay: Something small." in end
    assert talk.code == Exit.CLEAN  # type: ignore[attr-defined]


def test_a_step_gives_caution_and_two_numbers(say: Say) -> None:
    """The caution comes before the step, and not being able to is always 0."""
    said, _ = say()
    assert said.index("Caution: ") < said.index("Read this.") < said.index("  1. Done") < said.index("  0. ")


@pytest.mark.parametrize(
    ("typed", "answer"),
    [
        ("1", Choose("enough")),
        ("2.", Choose("too-dark")),
        (" 2 ", Choose("too-dark")),
        ("２", Choose("too-dark")),
        ("enough", Choose("enough")),
        ("ENOUGH OF IT", Choose("enough")),
        ("too d", Choose("too-dark")),
        ("0", Unsure()),
        ("u", Unsure()),
        ("not sure", Unsure()),
    ],
)
def test_a_choice_may_be_its_number_or_its_words(say: Say, typed: str, answer: object) -> None:
    """Numbers first, then ids and words; 0 is not sure."""
    _, talk = say("1", typed)
    assert talk.walk.answers[-1].answer == answer


@pytest.mark.parametrize("typed", ["3", "99", "-1", "1 2", "maybe", "1.5", "٣x"])
def test_what_is_no_choice_is_told_and_changes_nothing(say: Say, typed: str) -> None:
    """The sentence says what may be typed; the question stands."""
    said, talk = say("1", typed)
    assert "Type a number from 1 to 2, or 0 if you are not sure." in said
    assert len(talk.walk.answers) == 1


@pytest.mark.parametrize(
    ("typed", "answer"),
    [
        ("121.8", Read("121.8")),
        ("121,8 V", Read("121,8 V")),
        ("0.0", Read("0.0")),
        ("0 V", Read("0 V")),
        ("x", Unable()),
        ("can't", Unable()),
        ("can’t", Unable()),
    ],
)
def test_a_reading_is_typed_as_the_meter_shows_it(say: Say, typed: str, answer: object) -> None:
    """A number is a reading, 0.0 included; x is that it cannot be measured."""
    _, talk = say(*TO_VOLTS, typed)
    assert talk.walk.answers[2].answer == answer


def test_a_bare_zero_is_no_reading(say: Say) -> None:
    """Whoever has learnt that 0 is "not sure" gives no dead outlet with it, however often; the question stands."""
    said, talk = say(*TO_VOLTS, "0", "0", "0")
    assert said.count("a 0 alone is no reading") == 3
    assert len(talk.walk.answers) == 2


def test_the_help_ends_with_what_the_words_mean(say: Say) -> None:
    """Who has never done it can ask what a hot or a leg is, without a screen."""
    said, _ = say(*TO_VOLTS, "?", *[""] * 12)
    text = " ".join(said.split())
    assert "Hot: the wire that brings the power: 120 volts to ground." in text
    assert "Leg: one of the two hots of a 50 A outlet." in text


def test_the_help_tells_how_zero_volts_are_typed(say: Say) -> None:
    """Nobody who cannot measure is led to type 0, which would be a dead outlet."""
    said, _ = say(*TO_VOLTS, "?")
    assert "At a reading type 0.0 for 0 volts; x: can't measure." in " ".join(said.split())


def test_a_doubtful_reading_is_asked_once_more(say: Say) -> None:
    """A likely slipped point counts when the same is typed again."""
    said, talk = say(*TO_VOLTS, "12.18", "12.18")
    assert talk.walk.answers[2].answer == Read("12.18", confirmed=True)
    assert said.count("12.18") >= 2


@pytest.mark.parametrize(
    ("typed", "answer"),
    [
        ("1", Running((("kettle", 1),))),
        ("2 1, 1", Running((("microwave", 1), ("kettle", 2)))),
        ("1#2", Running((("kettle", 1), ("microwave", 1)))),
        ("3", Running(())),
        ("none", Running(())),
        ("0", Unsure()),
        ("11.7", Read("11.7")),
        ("12 A", Read("12 a")),
        ("12 amps", Read("12 amps")),
    ],
)
def test_loads_are_ticked_by_numbers(say: Say, typed: str, answer: object) -> None:
    """Several numbers at once, a number twice for two of a kind, one for none of them, or a display's amps."""
    _, talk = say(*TO_TALLY, typed)
    assert talk.walk.answers[-1].answer == answer


@pytest.mark.parametrize("typed", ["4", "1 9", "kettle", "0 1", "1 3"])
def test_what_ticks_nothing_is_told(say: Say, typed: str) -> None:
    """A number that is not there, or none together with some, is refused whole."""
    said, talk = say(*TO_TALLY, typed)
    assert "Type numbers from 1 to 2" in said
    assert len(talk.walk.answers) == 3


def test_readings_are_told_with_their_grade(say: Say) -> None:
    """After a reading its grade comes as a word, before the next question."""
    said, _ = say(*TO_TALLY)
    assert "hot to neutral, 30 A outlet: 121.8 V, good." in said
    assert said.index("121.8 V, good.") < said.index("Question 4")


@pytest.mark.parametrize("typed", ["!", "emergency"])
@pytest.mark.parametrize("before", [(), ("1",), TO_VOLTS, TO_TALLY, (*TO_VOLTS, "x")])
def test_the_emergency_card_is_one_key_from_anywhere(say: Say, before: tuple[str, ...], typed: str) -> None:
    """Its first line comes first, and the walk stands where it stood."""
    without, _ = say(*before, room=200)
    said, _ = say(*before, typed, room=200)
    assert CARD[0] not in without
    assert said[len(without) - 2 :].lstrip("> \n").startswith(CARD[0]) or CARD[0] in said


def test_back_takes_back_and_asks_again(say: Say) -> None:
    """B goes back one question; at the first there is a sentence."""
    said, talk = say("1", "b", "b")
    assert talk.walk.answers == ()
    assert "This is the first question" in said


def test_known_answers_can_be_changed(say: Say) -> None:
    """K lists what is known by number; a number asks that question again, and later answers that fit stay."""
    said, talk = say(*TO_TALLY, "k", "2", "118.2")
    assert [answered.answer for answered in talk.walk.answers][1:] == [Choose("enough"), Read("118.2")]
    assert "Changed." in said


def test_enter_leaves_an_answer_as_it_was(say: Say) -> None:
    """Looking at an earlier answer changes nothing."""
    _, talk = say(*TO_TALLY, "k", "2", "")
    assert talk.walk.answers[2].answer == Read("121.8")


def test_enter_alone_lists_all_there_is_to_do(say: Say) -> None:
    """A number pad is enough: the menu's numbers are commands, 1 is that it can't be measured."""
    said, talk = say(*TO_VOLTS, "", "1")
    assert "1. I can't measure that" in said
    assert talk.walk.answers[-1].answer == Unable()
    said, talk = say(*TO_VOLTS, "", "2")
    assert len(talk.walk.answers) == 1


def test_leaving_says_how_to_go_on(say: Say) -> None:
    """Q keeps the walk and gives the command that takes it up."""
    said, talk = say("1", "q")
    assert said.rstrip().endswith("shorewalk walk --resume 1 --plain")
    assert talk.code == Exit.UNFINISHED  # type: ignore[attr-defined]


def test_a_walk_left_unfinished_is_offered(say: Say) -> None:
    """The next walk of the same tree offers to go on where the last one was left, or to begin afresh."""
    say("1", "1")
    said, talk = say("!", "1", "121.8", offer=True)
    assert "2 answers, left just now" in said
    assert "better afresh" not in said
    assert CARD[0] in " ".join(said.split())
    assert len(talk.walk.answers) == 3
    _, talk = say("2", offer=True)
    assert talk.walk.answers == ()


def test_an_old_walk_is_offered_with_a_warning(say: Say, journal: Journal) -> None:
    """After a quarter of an hour it is better to begin afresh, and that is said."""
    say("1")
    journal.clock = lambda: "2024-05-01T18:45:00Z"
    said, _ = say("2", offer=True)
    assert "1 answer, left 15 minutes ago" in said
    assert "better afresh" in said


def test_a_clock_that_was_set_back_makes_an_old_walk(say: Say, journal: Journal) -> None:
    """Nobody knows how long it was left: it is better to begin afresh."""
    say("1")
    journal.clock = lambda: "2024-05-01T18:20:00Z"
    said, _ = say("2", offer=True)
    assert "The clock was set back since, so readings count as too old: better afresh." in said


def test_input_that_ends_at_the_offer_is_no_crash(say: Say) -> None:
    """Nobody answers, nothing is lost."""
    say("1")
    _, talk = say(offer=True)
    assert talk.code == Exit.UNFINISHED  # type: ignore[attr-defined]


def test_the_end_offers_to_save_and_to_go_back(
    say: Say, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """At the end b takes back the last answer, t puts the site in, s writes the record to a file, and one to print."""
    monkeypatch.chdir(tmp_path)
    said, talk = say(*TO_VOLTS, "x", "t", "14, Someday Flats", "s", "b")
    (path,) = tmp_path.glob("shorewalk-small-2024-05-01.md")
    text = path.read_text(encoding="utf-8")
    assert "- Site: 14\n" in text
    assert "- Park: Someday Flats\n" in text
    page = path.with_suffix(".pdf")
    assert page.read_bytes().startswith(b"%PDF-")
    assert page.name in "".join(said.split())
    assert len(talk.walk.answers) == 2


@pytest.mark.parametrize("room", [20, 40, 80])
def test_no_line_is_wider_than_the_terminal(say: Say, room: int) -> None:
    """Whatever is said is folded between words."""
    said, _ = say(*TO_TALLY, "?", "!", "k", "", "", "", "1", room=room)
    wide = [line for line in said.splitlines() if len(line) > room]
    assert not wide


def test_the_face_is_told_in_words() -> None:
    """Where each probe goes on the outlet, the right way up, without a picture."""
    from shorewalk.faces import Picture
    from shorewalk.plain.face import probes_in_words

    places = shipped().site.places
    assert probes_in_words(Picture(places["pedestal-30"], "L", "N", ground_up=False)) == (
        "Round hole at the bottom: black goes upper left, red goes upper right."
    )
    assert probes_in_words(Picture(places["pedestal-30"], "L", "N", ground_up=True)) == (
        "Round hole at the top: black goes lower right, red goes lower left."
    )
    assert probes_in_words(Picture(places["pedestal-50"], "L2", "L1", ground_up=False)) == (
        "Round hole at the bottom: black goes left, red goes right."
    )
    assert "black goes top middle, red goes bottom middle" in probes_in_words(
        Picture(places["pedestal-50"], "G", "N", ground_up=None)
    )
    assert probes_in_words(Picture(places["rig-skin"], "skin", "earth")) == ""


def test_each_outlet_has_its_own_way_up() -> None:
    """What was told of the 20 A outlet says nothing of the 30 A one, though it was told later."""
    from shorewalk.folders import demo_data
    from shorewalk.pages.question import picture_of
    from shorewalk.replay import read_recorded

    recorded = read_recorded(demo_data() / "walks" / "arrival-30-good.yaml")
    walk, seen = begin(shipped(), recorded.walk, recorded.meter), set()
    told = {"face_30": Choose("ground-up"), "load_outlet_30.face": Choose("ground-down")}
    for _, _, answer, _ in recorded.answers:
        walk = walk.answer(told.get(walk.now.node.name, answer))
        picture = picture_of(walk)
        if picture is not None and picture.place.id.startswith("pedestal"):
            seen.add((picture.place.id, picture.ground_up))
    assert seen == {("pedestal-30", True), ("pedestal-20", False)}


def test_what_the_readings_leave_is_one_letter_away(say: Say) -> None:
    """`i` lists what is possible and what is ruled out, and asks nothing; before any reading it says so."""
    said, _ = say("1", "1", "i")
    assert "Nothing has been read yet, so everything is possible." in said
    said, talk = say(*TO_VOLTS, "0.1 V", "i", "", "", "", "")
    assert "  Hot and ground are swapped.\n" in said[said.index("Still possible,") : said.index("Ruled out,")]
    assert "  Nothing is wrong.\n" in said[said.index("Ruled out,") :]
    assert len(talk.walk.answers) == 3


def test_a_reading_that_counts_for_nothing_is_not_said_to_come_again() -> None:
    """Whether it is read again is for the question that follows to show."""
    gone = Known(0, "small", "volts", "30 A outlet, hot to neutral", "0.0 V", void=True)
    assert of_known(gone) == "30 A outlet, hot to neutral: 0.0 V. It counts for nothing."
