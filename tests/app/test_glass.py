"""What the terminal shows is remembered: it shows the same as if all had been sent, and less is sent."""

from __future__ import annotations

import pyte
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from shorewalk.glass import BEGINS, ENDS, Glass
from shorewalk.turns import EACH, Place

WIDE, HIGH = 24, 8
STYLES = [
    "",
    "1",
    "7",
    "4",
    "1;38;5;188;48;5;16",
    "38;5;188;48;5;16",
    "48;5;17",
    "30;42",
    "1;7",
    "39;49",
    "38;2;1;2;3",
]
LETTERS = "ab  c─é"

Run = tuple[int, int, str, str]
runs = some.tuples(
    some.integers(0, HIGH - 1),
    some.integers(0, WIDE - 1),
    some.text(LETTERS, min_size=1, max_size=WIDE),
    some.sampled_from(STYLES),
)
drawings = some.lists(some.lists(runs, min_size=1, max_size=12), min_size=1, max_size=5)


def drawing(row: list[Run]) -> str:
    """Return a drawing as the library writes one."""
    parts: list[str] = []
    last = 0
    for y, x, text, style in sorted(row, key=lambda run: run[0]):
        fits = text[: WIDE - x]
        parts.append("\n" if parts and y > last else "")
        parts.append(f"\x1b[{y + 1};{x + 1}H" + (f"\x1b[{style}m{fits}\x1b[0m" if style else fits))
        last = y
    return "".join(parts) + "\x1b[1;1H"


class Screen:
    """An emulator, and what it was sent."""

    def __init__(self) -> None:
        self.screen = pyte.Screen(WIDE, HIGH)
        self.screen.reset_mode(pyte.modes.DECAWM)
        self._stream = pyte.Stream(self.screen)
        self._stream.feed("\x1b[?1049h\x1b[m\x1b[2J")
        self.sent = 0

    def feed(self, data: str) -> None:
        self.sent += len(data)
        self._stream.feed(data)

    def seen(self) -> list[list[tuple[object, ...]]]:
        """Return what can be seen of each cell: of a blank its ground, and what is reversed or underlined."""
        return [[self._cell(x, y) for x in range(WIDE)] for y in range(HIGH)]

    def _cell(self, x: int, y: int) -> tuple[object, ...]:
        cell = self.screen.buffer[y][x]
        if cell.data == " ":
            marks = (cell.reverse, cell.underscore)
            return (" ", cell.bg, marks, (cell.fg, cell.bold) if any(marks) else None)
        return tuple(cell)


@settings(max_examples=200, deadline=None)
@given(drawings, some.tuples(some.integers(0, HIGH), some.integers(0, WIDE)))
def test_the_screen_is_what_it_would_be(each: list[list[Run]], first: tuple[int, int]) -> None:
    """After every drawing each cell is as if it had been written whole, whatever is sent first."""
    all_of_it, what_differs = Screen(), Screen()
    glass = Glass(lambda: Place(0, *first))
    for one in each:
        for data in (BEGINS, drawing(one), ENDS):
            all_of_it.feed(data)
            what_differs.feed(glass.send(data))
        assert what_differs.seen() == all_of_it.seen()


@settings(max_examples=100, deadline=None)
@given(drawings, some.lists(runs, min_size=1, max_size=9))
def test_a_new_page_covers_what_was_written_over_it(each: list[list[Run]], other: list[Run]) -> None:
    """Whatever else wrote to the screen, each cell of the next page and of the line typed into is as it should be."""
    all_of_it, what_differs = Screen(), Screen()
    page = Place(1, HIGH - 2, WIDE - 6, HIGH - 1)
    glass = Glass(lambda: page)
    ground = [(y, 0, " " * WIDE, "") for y in range(HIGH)]
    for one in ([*ground, *(run for drawn in each for run in drawn)], [(1, 0, "another page", "1")]):
        glass.doubt()
        all_of_it.feed(drawing(one))
        what_differs.feed(glass.send(drawing(one)))
        was, seen = all_of_it.seen(), what_differs.seen()
        assert [row[: page.width] for row in was[1 : HIGH - 2]] == [
            row[: page.width] for row in seen[1 : HIGH - 2]
        ]
        assert was[page.line] == seen[page.line]
        what_differs.feed(drawing(other))


@settings(max_examples=100, deadline=None)
@given(drawings, some.lists(runs, min_size=1, max_size=9))
def test_the_next_pages_cover_all_that_was_written_over(each: list[list[Run]], other: list[Run]) -> None:
    """What is around the page comes in turn, some rows with each page, until nothing else is left on the screen."""
    all_of_it, what_differs = Screen(), Screen()
    glass = Glass(lambda: Place(1, HIGH - 2, WIDE - 6, HIGH - 1))
    ground = [(y, 0, " " * WIDE, "48;5;17") for y in range(HIGH)]

    def show(one: list[Run]) -> None:
        glass.doubt()
        all_of_it.feed(drawing(one))
        what_differs.feed(glass.send(drawing(one)))

    for one in (ground, *each):
        show(one)
    what_differs.feed(drawing(other))
    for number in range(HIGH):
        show([(1, 0, f"page {number}", "1")])
    assert what_differs.seen() == all_of_it.seen()


def test_what_comes_in_turn_is_little_and_comes_last() -> None:
    """With each page come so many cells around it and no more, after the page; each row as often as any other."""
    glass = Glass(lambda: Place(1, 2, 20, 2))
    few = EACH // WIDE
    names = {y: f"row {y:02}" for y in (0, *range(3, 2 + 3 * few))}
    glass.send(drawing([(y, 0, f"{name:{WIDE}}", "7") for y, name in names.items()]))
    came = dict.fromkeys(names.values(), 0)
    for number in range(6):
        glass.doubt()
        sent = glass.send(drawing([(1, 0, f"page {number}", "")]))
        around = [name for name in came if name in sent]
        assert len(around) == few
        for name in around:
            assert sent.index("page") < sent.index(name)
            came[name] += 1
    assert set(came.values()) == {2}


def test_what_changes_beside_the_page_waits_for_the_page() -> None:
    """Where a line typed into is drawn first, the next page is still sent whole."""
    glass = Glass(lambda: Place(0, 2, 20, 3))
    glass.send(drawing([(0, 0, "one page", ""), (1, 0, "as before", ""), (3, 0, "> 1", "")]))
    glass.doubt()
    assert "as before" not in glass.send(drawing([(3, 0, ">  ", "")]))
    assert "as before" in glass.send(drawing([(0, 0, "another ", "")]))
    assert "as before" not in glass.send(drawing([(0, 0, "a third ", "")]))


@pytest.mark.parametrize(
    ("bold", "plain", "codes"),
    [
        ("1;38;5;188;48;5;16", "38;5;246;48;5;16", "22;38;5;246"),
        ("1;38;5;188;48;5;16", "48;5;16", "0;48;5;16"),
        ("1;30;42", "37;42", "0;37;42"),
        ("1", "", ""),
    ],
)
def test_bold_is_ended_alone_where_there_are_many_colours(bold: str, plain: str, codes: str) -> None:
    """Fewer codes are sent there; a terminal of few colours may not know how, and is told all anew."""
    sent = Glass().send(drawing([(0, 0, "one", bold), (0, 3, "other", plain)]))
    assert f"one\x1b[{codes}mother" in sent


@pytest.mark.parametrize(
    ("was", "now", "sent"),
    [
        ("volts 118.2 V", "volts 128.2 V", " 128.2 "),
        ("> 12  ", "> 123 ", " 123 "),
        ("mended", "minded", "minded"),
    ],
)
def test_no_part_of_a_word_is_sent(was: str, now: str, sent: str) -> None:
    """A number of which one digit differs is written whole, with the blanks that part it from what is beside it."""
    glass = Glass()
    glass.send(drawing([(0, 0, was, "")]))
    assert f"H{sent}\x1b" in glass.send(drawing([(0, 0, now, "")]))


def test_what_is_drawn_otherwise_is_not_believed() -> None:
    """A drawing that is not read here is sent as it is, and all of the next one after it."""
    glass = Glass()
    one, strange = drawing([(1, 2, "a question", "1")]), "\x1b[1;1Hlinked \x1b[4h text"
    glass.send(one)
    assert glass.send(strange) == strange
    assert glass.strayed
    again = glass.send(one)
    assert again.startswith("\x1b[m\x1b[2J")
    assert "a question" in again
    assert not glass.strayed


def test_what_is_forgotten_is_sent_with_the_next_drawing() -> None:
    """Also what that drawing leaves as it is: of a page that is gone a part is not enough."""
    glass = Glass()
    glass.send(drawing([(1, 2, "a question", "1"), (3, 0, "> 1", "")]))
    glass.forget()
    sent = glass.send(drawing([(3, 0, "> 12", "")]))
    assert "a question" in sent
    assert "> 12" in sent


def test_nothing_is_sent_twice() -> None:
    """A drawing that shows what is there sends nothing, not even that it begins and ends."""
    glass = Glass()
    one = drawing([(1, 2, "a question", "1")])
    assert "a question" in "".join(map(glass.send, (BEGINS, one, ENDS)))
    assert "".join(map(glass.send, (BEGINS, one, ENDS))) == ""


def test_what_is_first_is_sent_first() -> None:
    """Cells of the page come before those above and beside it."""
    glass = Glass(lambda: Place(1, 2, 12))
    sent = glass.send(
        drawing([(0, 0, "head", ""), (1, 0, "question", ""), (1, 14, "side", ""), (2, 0, "foot", "")])
    )
    assert sorted(("head", "question", "side", "foot"), key=sent.index) == [
        "question",
        "head",
        "side",
        "foot",
    ]


@pytest.mark.parametrize("other", ["\x1b[?2004h", "\a", "\x1b]52;c;YQ==\a", "\x1b[?2026$p"])
def test_what_is_no_drawing_goes_through(other: str) -> None:
    """Modes, bells and what is copied are sent as they are, and change nothing of what is shown."""
    glass = Glass()
    one = drawing([(1, 2, "a question", "1")])
    glass.send(one)
    assert glass.send(other) == other
    assert glass.send(one) == ""


@pytest.mark.parametrize("how", ["fit", "forget", "page"])
def test_all_is_sent_again_where_it_may_be_gone(how: str) -> None:
    """In a window of another size, on another page, or when asked to."""
    glass = Glass()
    glass.fit((80, 24))
    one = drawing([(1, 2, "a question", "1")])
    glass.send(one)
    glass.fit((80, 24))
    assert glass.send(one) == ""
    if how == "fit":
        glass.fit((40, 20))
    elif how == "forget":
        glass.forget()
    else:
        assert glass.send("\x1b[?1049h") == "\x1b[?1049h"
    assert "a question" in glass.send(one)
