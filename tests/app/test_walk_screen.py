"""The walk's screen: what is typed becomes one answer, and everything can be typed on a number pad."""

from __future__ import annotations

import pytest
from textual.pilot import Pilot

from shorewalk.app import ShorewalkApp
from shorewalk.journal import Journal
from shorewalk.screens.base import PageScreen
from shorewalk.screens.card import CardScreen
from shorewalk.screens.choose import ChooseScreen
from shorewalk.screens.ending import EndingScreen
from shorewalk.screens.known import KnownScreen
from shorewalk.screens.picture import PictureScreen
from shorewalk.screens.walk import READ_ON, WalkScreen
from shorewalk.walk.answers import Choose, Done, Read, Running, Unable, Unsure
from shorewalk.walk.walk import Walk

from .conftest import NOON, Make, press, shown, type_line

SIZES = [(80, 24), (40, 20), (120, 40)]


def walk_of(app: ShorewalkApp) -> Walk:
    screen = app.screen
    assert isinstance(screen, WalkScreen | EndingScreen | KnownScreen)
    return screen.walk


def answers_of(app: ShorewalkApp) -> list[object]:
    return [answered.answer for answered in walk_of(app).answers]


async def read_cautions(pilot: Pilot[int]) -> None:
    screen = pilot.app.screen
    assert isinstance(screen, PageScreen)
    while screen.reading.more:
        await pilot.press("enter")
        await pilot.pause()


@pytest.mark.parametrize("size", SIZES)
async def test_a_walk_is_answered_by_numbers_alone(make: Make, walk: Walk, size: tuple[int, int]) -> None:
    """Digits, a point and Enter lead from the first question to the ending, at every size."""
    app = make(walk)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        await read_cautions(pilot)
        for text in ("1", "2", "1", "1", "121.8", "1", "3", "3", "4"):
            await type_line(pilot, text)
        assert isinstance(app.screen, EndingScreen)
        assert answers_of(app) == [
            Done(),
            Choose("ground-up"),
            Choose("yes"),
            Done(),
            Read("121.8"),
            Running((("kettle", 1), ("iron", 2))),
        ]


async def test_every_answer_is_kept_with_its_time(make: Make, walk: Walk, journal: Journal) -> None:
    """An answer is in the journal before the next question is asked, stamped by the clock outside."""
    app = make(walk)
    async with app.run_test(size=(120, 40)) as pilot:
        await type_line(pilot, "1")
        kept = journal.load(journal.unfinished()[0].id, app.library)
        assert kept.answers == walk_of(app).answers
        assert [answered.time for answered in kept.answers] == [NOON]


async def test_unread_cautions_are_read_to_the_end_first(make: Make, walk: Walk) -> None:
    """Where cautions go on below, an answer waits until they were paged through."""
    app = make(walk)
    async with app.run_test(size=(40, 14)) as pilot:
        await type_line(pilot, "1")
        assert answers_of(app) == []
        assert READ_ON in shown(app)
        await read_cautions(pilot)
        await type_line(pilot, "1")
        assert answers_of(app) == [Done()]


async def test_zero_is_not_sure(make: Make, walk: Walk) -> None:
    """Number 0 is an answer to every ask: not sure."""
    app = make(walk.answer(Done()))
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "0")
        assert answers_of(app)[-1] == Unsure()


async def test_cannot_measure_is_a_number_too(make: Make, at_reading: Walk) -> None:
    """At a reading 0 is a reading; Enter opens the menu, where 1 says it cannot be measured."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "")
        assert isinstance(app.screen, ChooseScreen)
        await type_line(pilot, "1")
        assert answers_of(app)[-1] == Unable()


async def test_x_is_the_same_for_a_keyboard(make: Make, at_reading: Walk) -> None:
    """While nothing is typed, one letter says that this cannot be measured."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "x")
        assert answers_of(app)[-1] == Unable()


async def test_letters_belong_to_a_reading_once_it_begins(make: Make, at_reading: Walk) -> None:
    """A unit is typed, not taken for a command."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "121800mVbkq")
        assert "no unit" in shown(app)
        await type_line(pilot, "121.8 V")
        assert answers_of(app)[-1] == Read("121.8 V")


async def test_a_refused_reading_changes_nothing_and_gives_way(make: Make, at_reading: Walk) -> None:
    """What cannot be right is refused with its reason; what is typed next takes its place."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "1218")
        assert walk_of(app) is at_reading
        assert "1218 V cannot be here" in shown(app)
        await type_line(pilot, "121.8")
        assert answers_of(app)[-1] == Read("121.8")


@pytest.mark.parametrize(
    ("number", "wanted"),
    [
        ("1", Read("12.18", confirmed=True)),
        ("2", None),
        ("12.18", Read("12.18", confirmed=True)),
        ("121.8", Read("121.8")),
    ],
)
async def test_a_slipped_point_is_asked_once_more(
    make: Make, at_reading: Walk, number: str, wanted: object
) -> None:
    """A reading that looks slipped counts only after a second word on it: yes, the same again, or another."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "12.18")
        assert isinstance(app.screen, ChooseScreen)
        await type_line(pilot, number)
        assert answers_of(app)[-1] == (wanted or Done())


async def test_a_number_that_is_not_there_is_told(make: Make, walk: Walk) -> None:
    """A wrong number changes nothing and says so."""
    app = make(walk.answer(Done()))
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "7")
        assert answers_of(app) == [Done()]
        assert '"7" is not one of the numbers here.' in shown(app)


async def test_back_takes_back_one_answer(make: Make, at_reading: Walk) -> None:
    """Going back by letter and by menu number is the same; at the first question nothing happens."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "b")
        assert len(answers_of(app)) == len(at_reading.answers) - 1
        await type_line(pilot, "")
        await type_line(pilot, "2")
        assert len(answers_of(app)) == len(at_reading.answers) - 2
        await press(pilot, "bbbb")
        assert answers_of(app) == []
        assert "nothing to take back" in shown(app)


async def test_escape_never_destroys(make: Make, at_reading: Walk) -> None:
    """Esc clears what is typed, then does nothing: no answer is lost and no screen is left."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "12")
        for _ in range(3):
            await pilot.press("escape")
        await pilot.pause()
        assert walk_of(app) is at_reading
        assert app.screen.query_one("#reply").value == ""  # type: ignore[attr-defined]


async def test_the_card_opens_while_a_reading_is_typed(make: Make, at_reading: Walk) -> None:
    """The emergency card is one key away with text in the line, and gives the line back as it was."""
    app = make(at_reading)
    async with app.run_test(size=(40, 20)) as pilot:
        await press(pilot, "12!")
        assert isinstance(app.screen, CardScreen)
        assert "Do not touch anybody who is in" in shown(app)
        await pilot.press("escape")
        await pilot.pause()
        assert app.screen.query_one("#reply").value == "12"  # type: ignore[attr-defined]


async def test_the_card_is_a_number_in_the_menu(make: Make, at_reading: Walk) -> None:
    """A phone's number pad reaches the card: Enter, 9, Enter."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_line(pilot, "")
        await type_line(pilot, "9")
        assert isinstance(app.screen, CardScreen)


async def test_an_earlier_answer_is_changed_from_the_list(make: Make, at_reading: Walk) -> None:
    """The list asks an earlier question again; later answers that still fit stay."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "k")
        await type_line(pilot, "2")
        assert "changing answer 2" in shown(app)
        await type_line(pilot, "1")
        assert answers_of(app) == [Done(), Choose("ground-down"), Choose("yes"), Done()]
        assert "All later answers were kept." in shown(app)
        assert "round hole at bottom" in shown(app)


async def test_changing_is_left_without_harm(make: Make, at_reading: Walk) -> None:
    """Going back from an earlier question leaves every answer as it was."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "k")
        await type_line(pilot, "2")
        await press(pilot, "b")
        assert walk_of(app) is at_reading


async def test_another_answer_may_be_changed_instead(make: Make, at_reading: Walk) -> None:
    """The list that is opened while an answer is changed has all of them, and none is lost by it."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "k")
        await type_line(pilot, "3")
        await press(pilot, "k")
        assert "4 answers" in shown(app)
        await type_line(pilot, "2")
        await type_line(pilot, "1")
        assert answers_of(app) == [Done(), Choose("ground-down"), Choose("yes"), Done()]


async def test_the_picture_is_a_key_away(make: Make, at_reading: Walk) -> None:
    """The picture alone shows the slots and says in words where each probe goes."""
    app = make(at_reading)
    async with app.run_test(size=(40, 20)) as pilot:
        await press(pilot, "p")
        assert isinstance(app.screen, PictureScreen)
        text = shown(app)
        assert "BLACK the neutral slot" in text
        assert "hole on top" in text


async def test_resizing_keeps_what_is_typed(make: Make, at_reading: Walk) -> None:
    """A window turned or shrunk amid a question keeps the question and the half-typed reading."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "121")
        for width, height in ((40, 16), (120, 40), (60, 20)):
            await pilot.resize_terminal(width, height)
            await pilot.pause()
            text = shown(app)
            assert "Measure AC volts at the 30 A outlet." in text
            assert "121" in text
        assert walk_of(app) is at_reading


async def test_leaving_is_asked_and_keeps_the_walk(make: Make, at_reading: Walk) -> None:
    """The way out is asked; staying changes nothing, leaving ends the program well."""
    app = make(at_reading)
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "q")
        await type_line(pilot, "0")
        assert walk_of(app) is at_reading
        await press(pilot, "q")
        await type_line(pilot, "1")
    assert app.return_value == 0


async def test_text_of_a_tree_is_never_markup(make: Make, walk: Walk) -> None:
    """Square brackets in a tree's words stand on the screen as they are."""
    from dataclasses import replace

    from shorewalk.lines import as_text
    from shorewalk.pages.question import question_page, view_of

    view = view_of(walk)
    marked = replace(view, now=replace(view.now, text="Is [bold]this[/bold] a [red]?"))
    assert "Is [bold]this[/bold] a [red]?" in as_text(question_page(marked, 60, 20, narrow=False))
    del make
