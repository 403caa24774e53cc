"""Plain text has every command that the screens have: each is typed where it applies, by its key and by its word.

The screens for whoever writes trees are not here: `lint`, `draw` and `paths` say in text what `preview` shows.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from shorewalk.commands import AUTHORS, COMMANDS, EVERYWHERE, Command, commands_on
from shorewalk.heard_words import WORDS
from shorewalk.journal import Keeper
from shorewalk.plain.moving import Place
from shorewalk.plain.prompt import NO_LOOK
from shorewalk.plain.session import Session
from shorewalk.plain.talk import Talk
from shorewalk.plain.words import HERE_ONLY, UNTOLD, command_in, commands_for
from shorewalk.tree.library import Library, shipped
from shorewalk.tree.model import Ask
from shorewalk.walk.walk import begin

from ..front.conftest import TREE
from .conftest import EVENING, Hear, Heard, Keep

NOTHING = "That is not to be had in plain text."
STANDS_FOR = {"looks": NO_LOOK}
"""What is said in the place of a command that a screen alone has a use for."""
WALKED = {
    "step": (),
    "ask": ("1",),
    "measure": ("1", "1"),
    "tally": ("1", "1", "121.8"),
    "ending": ("1", "1", "x"),
    "known": ("1", "1", "121.8", "k"),
}
LOGGED = {"log": ("l",), "log-site": ("l", "1"), "log-walk": ("l", "2")}
TABLE = [
    pytest.param(command, screen, id=f"{command.id}-{screen}")
    for command in COMMANDS
    for screen in command.on
    if screen not in AUTHORS and screen != "card"
]
Listen = Callable[..., Heard]


@pytest.fixture
def on(hear: Hear, keep: Keep, tmp_path: Path) -> Listen:
    """Go to a screen, then type; return what was heard."""
    folder = tmp_path / "trees"
    folder.mkdir()
    (folder / "small.yaml").write_text(TREE, encoding="utf-8")

    def place(session: Session) -> Place:
        session.library = Library(folder)
        walk = begin(session.library, "small", session.meter)
        return Talk(walk, Keeper(session.journal), session=session).walk_through

    def go(screen: str, *typed: str) -> Heard:
        if screen in WALKED:
            return hear(*WALKED[screen], *typed, at=place)
        keep(EVENING, "2024-05-02T08:00:00Z", "14, Someday Flats")
        return hear(*LOGGED.get(screen, ()), *typed)

    return go


@pytest.mark.parametrize(("command", "screen"), TABLE)
def test_every_command_is_had(on: Listen, command: Command, screen: str) -> None:
    """Typed by its key it is obeyed, not taken for an answer; what is not to be had has a line that stands for it."""
    key = command.keys[0]
    new = on(screen, key).said.rpartition(f"> {key}\n")[2]
    assert NOTHING not in new
    assert "Type a number from" not in new
    assert "Nothing fits" not in new
    assert "is nothing that can be done" not in new
    if command.id in STANDS_FOR:
        assert STANDS_FOR[command.id] in " ".join(new.split())
    elif command.id != "leave":
        assert len(new.split()) >= 4, new


@pytest.mark.parametrize(("command", "screen"), TABLE)
def test_every_command_has_a_word(command: Command, screen: str) -> None:
    """What cannot be heard, as a mark alone, can be typed as a word, in letters of any size."""
    for typed in (*command.keys, *WORDS[command.id], WORDS[command.id][0].upper()):
        found = command_in(typed, commands_for(screen))
        assert found is not None
        assert found.id == command.id


@pytest.mark.parametrize("screen", [screen for screen in EVERYWHERE if screen != "card"])
def test_the_help_tells_of_every_command(on: Listen, screen: str) -> None:
    """By what is typed for it, in words that can be heard, with what it does."""
    said = on(screen, "?", *[""] * 6).said
    for command in commands_for(screen):
        if command.id not in UNTOLD:
            assert f": {command.help}\n" in said, command.id
    assert "emergency, or an exclamation mark: " in said


@pytest.mark.parametrize("screen", [screen for screen in EVERYWHERE if screen not in ("card", "known")])
def test_the_menu_has_every_command_with_a_number(on: Listen, screen: str) -> None:
    """A number pad is enough; no number stands for two."""
    enters = {"start": 5, "log-site": 4, "log-walk": 7}.get(screen, 1)
    menu = on(screen, *[""] * enters).said.rpartition("Type a number. Enter: ")[0]
    numbers = [c.number for c in commands_for(screen) if c.number is not None]
    assert len(numbers) == len(set(numbers))
    for command in commands_on(screen):
        if command.number is not None and command.id not in UNTOLD:
            assert f"\n  {command.number}. " in menu, command.id


def test_words_and_keys_are_no_one_elses() -> None:
    """On one screen no key and no word is that of two commands."""
    for screen in EVERYWHERE:
        typed = [each for c in commands_for(screen) for each in (*c.keys, *WORDS.get(c.id, ()))]
        assert len(typed) == len(set(typed)), screen
    assert all(command.keys for command in HERE_ONLY)


def test_no_answer_is_taken_for_a_command() -> None:
    """Who types an answer in its own words, in any shipped tree, answers."""
    library, commands = shipped(), commands_for("ask")
    for name in library.names():
        for node in library.tree(name).nodes.values():
            for choice in node.choices if isinstance(node, Ask) else ():
                assert command_in(choice.says, commands) is None, (name, node.name)
                assert command_in(choice.id, commands) is None, (name, node.name)
