"""Outlet faces after ANSI/NEMA WD 6 (as told by guides), the right way up, both slots marked."""

from __future__ import annotations

from itertools import permutations

import pytest

from shorewalk.faces import Picture, caption, draw, legend
from shorewalk.lines import as_text, width
from shorewalk.tree.facts import PlaceFact
from shorewalk.tree.library import shipped

PLACES = shipped().site.places
OUTLETS = [name for name, place in PLACES.items() if place.kind == "outlet"]


def picture(place: str, red: str, black: str, *, up: bool | None = False, small: bool = False) -> str:
    return as_text(draw(Picture(PLACES[place], red, black, up), small=small))


def column(text: str, word: str) -> int:
    return next(row.index(word) for row in text.splitlines() if word in row)


def line_of(text: str, word: str) -> int:
    return next(number for number, row in enumerate(text.splitlines()) if word in row)


@pytest.mark.parametrize("small", [False, True])
@pytest.mark.parametrize("name", OUTLETS)
def test_neutral_hot_and_ground_are_where_they_are(name: str, small: bool) -> None:  # noqa: FBT001 (a case)
    """Ground down: the ground hole is lowest; on TT-30R and 5-20R the neutral is left of the hot."""
    terminals = PLACES[name].terminals
    hot = "L1" if "L1" in terminals else "L"
    text = picture(name, hot, "N", small=small)
    assert line_of(text, "ground" if not small else "G ") > line_of(text, "RED")
    if hot == "L":
        assert column(text, "BLACK") < column(text, "RED")


@pytest.mark.parametrize("small", [False, True])
@pytest.mark.parametrize("name", OUTLETS)
def test_ground_up_is_half_a_turn(name: str, small: bool) -> None:  # noqa: FBT001 (a case)
    """Ground up: the ground hole is on top, and left and right have changed places."""
    terminals = PLACES[name].terminals
    hot = "L1" if "L1" in terminals else "L"
    down, up = (picture(name, hot, "G", up=way, small=small) for way in (False, True))
    assert line_of(down, "BLACK") > line_of(down, "RED")
    assert line_of(up, "BLACK") < line_of(up, "RED")
    middle = max(map(len, down.splitlines())) / 2
    assert (column(down, "RED") < middle) != (column(up, "RED") < middle)


@pytest.mark.parametrize("place", PLACES.values(), ids=lambda place: place.id)
@pytest.mark.parametrize("small", [False, True])
def test_every_pair_of_every_place_is_marked_by_words(place: PlaceFact, small: bool) -> None:  # noqa: FBT001 (a case)
    """Whatever two terminals a tree names, the picture says RED and BLACK once each and fits its room."""
    for red, black in permutations(place.terminals, 2):
        for up in (None, False, True):
            rows = draw(Picture(place, red, black, up), small=small)
            text = as_text(rows)
            assert (text.count("RED"), text.count("BLACK")) == (1, 1), f"{red} {black}\n{text}"
            assert max(map(width, rows)) <= (20 if small else 30)
            assert len(rows) <= (7 if small else 11)


@pytest.mark.parametrize("place", PLACES.values(), ids=lambda place: place.id)
def test_ascii_pictures_are_ascii(place: PlaceFact) -> None:
    """A terminal without blocks gets the same picture in ASCII."""
    red, black = list(place.terminals)[:2]
    for small in (False, True):
        plain = as_text(draw(Picture(place, red, black), small=small, ascii_only=True))
        assert plain.isascii()
        assert len(plain.splitlines()) == len(draw(Picture(place, red, black), small=small))


def test_filled_slots_are_the_probed_ones() -> None:
    """Slots with a probe are filled, the others hollow, so that the picture reads without colour."""
    text = picture("pedestal-30", "L", "N")
    assert text.count("█") == 12
    assert text.count("░") == 2


def test_the_earth_peg_lies_outside_the_outlet() -> None:
    """The peg is drawn under the frame, with the probe that goes there."""
    last = picture("pedestal-30", "G", "earth").splitlines()[-1]
    assert "earth peg BLACK" in last


def test_the_way_up_is_said_and_doubt_too() -> None:
    """The frame says which way up the outlet is; where nobody told, a sentence says what to do."""
    assert "round hole on top" in picture("pedestal-30", "L", "N", up=True)
    assert "round hole at bottom" in picture("pedestal-30", "L", "N", up=False)
    assert "upside down" in as_text(caption(Picture(PLACES["pedestal-30"], "L", "N", None), 60))
    assert not caption(Picture(PLACES["pedestal-30"], "L", "N", ground_up=False), 60)


def test_the_legend_names_the_black_probe_first() -> None:
    """The reference probe goes in first, so it stands first."""
    words = as_text(legend(Picture(PLACES["pedestal-30"], "L", "N"), 40))
    assert words.index("BLACK") < words.index("RED")
