"""One table of commands makes bindings, menu, footer, help and the README's table of keys."""

from __future__ import annotations

import pytest

from shorewalk.commands import (
    AUTHORS,
    AUTHORS_TYPED,
    COMMANDS,
    EVERYWHERE,
    TYPED,
    author_key_table,
    commands_on,
    footer,
    key_name,
    key_table,
    menu_of,
)
from shorewalk.glossary import GLOSSARY
from shorewalk.lines import as_text, cells
from shorewalk.pages.fixed import help_page


@pytest.mark.parametrize("screen", [*EVERYWHERE, *AUTHORS])
def test_keys_and_numbers_are_unique_on_a_screen(screen: str) -> None:
    """On one screen a key means one thing, and so does a number of the menu."""
    keys = [key for command in commands_on(screen) for key in command.keys]
    numbers = [command.number for command in menu_of(screen)]
    assert len(set(keys)) == len(keys)
    assert len(set(numbers)) == len(numbers)
    assert 0 not in numbers


def test_a_command_keeps_its_number() -> None:
    """Going back is 2 wherever there is a menu, so that it can be learned."""
    assert {command.number for command in COMMANDS if command.id == "back"} == {2}


def test_no_key_needs_more_than_a_letter() -> None:
    """Phones and terminal multiplexers eat Ctrl, Alt and function keys; none is needed."""
    assert all(len(key) == 1 and key.isprintable() for command in COMMANDS for key in command.keys)


@pytest.mark.parametrize("after", ["", "+Enter"])
@pytest.mark.parametrize("screen", [*EVERYWHERE, *AUTHORS])
@pytest.mark.parametrize("room", [38, 58, 76])
def test_no_footer_cuts_the_way_out_or_the_card(screen: str, room: int, after: str) -> None:
    """However narrow, the footer fits and keeps the emergency card, the help and the way out."""
    shown = footer(screen, room, after)
    assert sum(cells(f"{key_name(c, after)} {c.label}") + 2 for c in shown) - 2 <= room
    ids = {command.id for command in shown}
    assert {"emergency", "help"} <= ids
    assert ids & {"leave", "close"}


@pytest.mark.parametrize("screen", [*EVERYWHERE, *AUTHORS])
def test_the_menu_reaches_everything(screen: str) -> None:
    """What a letter does, a number of the menu does too: a phone's number pad is enough."""
    lettered = {command.id for command in commands_on(screen)} - {"close"}
    assert {command.id for command in menu_of(screen)} == lettered


@pytest.mark.parametrize("screen", [*EVERYWHERE, *AUTHORS])
def test_the_help_names_every_key_of_its_screen(screen: str) -> None:
    """No command of a screen is missing in its help."""
    text = as_text(help_page(screen, 76, ascii_only=True))
    assert all(command.help.split(".")[0][:20] in text for command in commands_on(screen))
    assert all(keys in text for keys, _ in (AUTHORS_TYPED if screen in AUTHORS else TYPED))


def test_the_help_tells_how_zero_volts_are_typed() -> None:
    """Nobody who cannot measure is led to type 0, which would be a dead outlet."""
    text = " ".join(as_text(help_page("measure", 76, ascii_only=True)).split())
    assert "At a reading type 0.0 for 0 volts; x: can't measure." in text


def test_the_help_says_what_the_words_mean() -> None:
    """Whoever has never done it finds the words of the questions there, in words that need none of them."""
    text = " ".join(as_text(help_page("measure", 40, ascii_only=True)).split())
    for word, meaning in GLOSSARY.items():
        assert f"{word} {meaning}" in text
    assert "draws current" not in as_text(help_page("preview", 40, ascii_only=True))


def test_the_key_tables_have_a_row_a_command() -> None:
    """The README's tables are made from the same rows: one for walking, one for whoever writes trees."""
    walking, writing = list(key_table()), list(author_key_table())
    assert len(walking) == 2 + len(TYPED) + sum(not set(EVERYWHERE).isdisjoint(c.on) for c in COMMANDS)
    assert len(writing) == 2 + len(AUTHORS_TYPED) + len(commands_on("preview"))
    assert not [row for row in walking if "preview" in row]
