"""The commands as they are typed and said in plain text: each by its letter, and by a word that can be heard.

They are those of the one table (`commands.py`), with a few that a screen has no need of: what stands on a screen all
the time, plain text says again when it is asked to.
"""

from __future__ import annotations

from collections.abc import Iterable

from shorewalk.commands import LOGS, WALKING, Command, commands_on
from shorewalk.heard_words import WORDS, said

AGAIN = Command("repeat", ("r", "repeat"), "repeat", "The question again, or the ending.", WALKING)
START = Command(
    "start",
    ("start",),
    "start",
    "To the start, where all that can be begun is listed. Every answer is kept.",
    (*WALKING, *LOGS, "sites"),
    13,
    menu="To the start; every answer is kept",
)
PRACTICE = Command(
    "practice",
    ("practice", "practise"),
    "practice",
    "To practise: a campground that does not exist, with a make-believe meter.",
    ("start",),
    13,
    menu="Practise on a make-believe pedestal",
)
SITES = "sites"
"""The list of sites to practise at, as the name of a screen."""
HERE_ONLY = (AGAIN, START, PRACTICE)
"""Commands that plain text has beside those of the table."""

SAID = {
    "emergency": "The emergency card.",
    "help": "How answers work, and what can be typed here.",
    "code": "The message as a picture for a phone's camera.",
    "copy": "The message alone. Where there is a terminal it is asked to copy it too.",
    "leave": "Leave. Every answer is kept, so the walk can go on later.",
    "aloud": "Questions in few words, to be read to somebody else. Once more: in full again.",
}
"""Help that reads otherwise where nothing is drawn."""
MENU = {
    "code": "The message as a picture for a phone's camera",
    "copy": "The message alone, to read out or to copy",
    "aloud": "Read aloud: the question in few words, or in full again",
    "picture": "The picture of where the probes go, in letters",
}
MARKS = {"!": "an exclamation mark", "?": "a question mark"}
"""What a voice may pass over, by name."""


def commands_for(screen: str) -> list[Command]:
    """Return all that can be asked for at a question or a page, as plain text says it."""
    every = [
        *commands_on("known" if screen == SITES else screen),
        *(command for command in HERE_ONLY if command.applies(screen)),
    ]
    return [
        command._replace(
            help=SAID.get(command.id, command.help), menu=MENU.get(command.id, command.menu or command.label)
        )
        for command in every
    ]


UNTOLD = ("looks",)
"""Answered when it is typed, and told of nowhere: it is about colours."""


def told_of(commands: Iterable[Command]) -> list[Command]:
    """Return the commands that the help tells of."""
    return [command for command in commands if command.id not in UNTOLD]


def by_number(commands: Iterable[Command]) -> list[Command]:
    """Return those that a menu has, by number."""
    return sorted(
        (c for c in told_of(commands) if c.number is not None), key=lambda command: command.number or 0
    )


def command_in(typed: str, commands: Iterable[Command]) -> Command | None:
    """Return the command that was typed, by its key or in a word."""
    word = said(typed)
    return next((c for c in commands if word in c.keys or word in WORDS.get(c.id, ())), None)


def keys_of(command: Command) -> str:
    """Return what to type for a command, so that it can be heard: `k, or known`."""
    key, words = command.keys[0], WORDS.get(command.id, ())
    if key in MARKS:
        return f"{words[0]}, or {MARKS[key]}"
    return f"{key}, or {words[0]}" if words else key
