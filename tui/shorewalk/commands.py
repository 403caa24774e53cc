"""One table of commands: it makes the bindings, the menu, the footer, the help and the README's key table.

Letters work while the box is empty (text typed into it is text). `number` is the command's place in
the menu that Enter on an empty box opens, the same on every screen, so that a phone's number pad
reaches everything. Where two commands share a number, no screen has both.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from .heard_words import WORDS, said
from .lines import cells
from .reach import reach

ASKING = ("ask", "step", "tally", "measure")
WALKING = (*ASKING, "ending")
STANDING = ("start", *WALKING, "known")
LOGS = ("log", "log-site", "log-walk")
EVERYWHERE = (*STANDING, *LOGS, "card")
AUTHORS = ("preview",)
"""Screens for whoever writes trees."""


class Command(NamedTuple):
    """`on`: the screens it applies to. `rank`: a narrow footer drops the highest first."""

    id: str
    keys: tuple[str, ...]
    label: str
    help: str
    on: tuple[str, ...]
    number: int | None = None
    rank: int = 9
    menu: str = ""  # its words in the menu, where the label is too short there

    @property
    def words(self) -> str:
        """Its words in the menu."""
        return self.menu or self.label

    def applies(self, screen: str) -> bool:
        """Tell whether the command makes sense there, and may be had."""
        return screen in self.on and not reach().bars(self.id, screen)


# fmt: off (a row a command reads as a table)
COMMANDS: tuple[Command, ...] = (
    Command(
        "emergency",
        ("!",),
        "emergency",
        "The emergency card. It opens also while you type.",
        (*EVERYWHERE, *AUTHORS),
        9,
        1,
        "Emergency: somebody is hurt, or something burns",
    ),
    Command(
        "help",
        ("?",),
        "help",
        "How answers work, the keys, the marks, the words.",
        (*EVERYWHERE, *AUTHORS),
        8,
        3,
        "Help",
    ),
    Command(
        "unable",
        ("x",),
        "can't measure",
        "Say that you cannot take this reading.",
        ("measure",),
        1,
        5,
        "I can't measure that",
    ),
    Command(
        "back",
        ("b",),
        "back",
        "Take back the last answer; its question comes again.",
        WALKING,
        2,
        4,
        "Go back: take back the last answer",
    ),
    Command(
        "known",
        ("k",),
        "known",
        "All that is known so far. There you can change an earlier answer.",
        WALKING,
        3,
        6,
        "What is known so far; change an earlier answer",
    ),
    Command(
        "picture",
        ("p",),
        "picture",
        "The picture of where the probes go, alone and large.",
        ("measure",),
        4,
        8,
        "The picture of where the probes go, large",
    ),
    Command(
        "possible",
        ("i",),
        "possible",
        "What the readings rule out, what they leave possible, and which reading would tell most.",
        WALKING,
        11,
        7,
        "What is still possible, by the readings",
    ),
    Command(
        "aloud",
        ("a",),
        "aloud",
        "One reads the question aloud, in two lines; the other types. Once more: the whole page again.",
        ASKING,
        6,
        7,
        "Read aloud: the question in two lines, or the whole page again",
    ),
    Command(
        "hand",
        ("o",),
        "hand over",
        "Hand the walk over to another machine: a file is saved. At the start, take one over too.",
        ("start", *ASKING),
        5,
        8,
        "Hand a walk over to another machine, or take one over",
    ),
    Command("meter", ("m",), "meter", "Say how exact your meter is.", ("start",), 4, 8, "My meter"),
    Command(
        "site",
        ("t",),
        "site",
        "Say where the walk was; it goes into the message and the log.",
        ("ending", "log-walk"),
        1,
        8,
        "Say where this was: site and park",
    ),
    Command(
        "save",
        ("s",),
        "save",
        "Save the whole record to new files, as text and to print.",
        ("ending", "log-walk"),
        4,
        5,
        "Save the record to a file",
    ),
    Command(
        "code",
        ("c",),
        "code",
        "The message as a code for a phone's camera.",
        ("ending",),
        5,
        7,
        "Show the message as a code for a phone",
    ),
    Command(
        "copy",
        ("y",),
        "copy",
        "Ask the terminal to copy the message.",
        ("ending",),
        6,
        8,
        "Ask the terminal to copy the message",
    ),
    Command(
        "looks",
        ("v",),
        "look",
        "Another look, at once and the next time: dusk, daylight, contrast, your terminal's own colours.",
        ("start", *WALKING),
        12,
        9,
        "Another look: dark, light, much contrast, the terminal's own",
    ),
    Command(
        "leave",
        ("q",),
        "leave",
        "Leave. Every answer is kept, so the walk can go on later.",
        STANDING,
        7,
        2,
        "Leave; every answer is kept",
    ),
    Command(
        "walk",
        ("w",),
        "walk",
        "Walk from the node that is chosen, as Enter does. The file is read again on every save.",
        AUTHORS,
        1,
        4,
        "Walk from the node that is chosen",
    ),
    Command(
        "findings",
        ("f",),
        "findings",
        "All findings in full; once more, the outline again.",
        AUTHORS,
        2,
        5,
        "All findings in full",
    ),
    Command(
        "next",
        ("n",),
        "next",
        "The next node with a finding.",
        AUTHORS,
        3,
        6,
        "The next node with a finding",
    ),
    Command(
        "leave",
        ("q",),
        "leave",
        "Leave the preview. From a walk, back to the outline.",
        AUTHORS,
        7,
        2,
        "Leave the preview",
    ),
    Command(
        "again",
        ("r",),
        "again",
        "Read the same volts again, with the meter, the outlet and the site of this stay.",
        ("start", *LOGS),
        2,
        6,
        "Read the same volts again",
    ),
    Command(
        "log",
        ("l",),
        "log",
        "Past walks, and the readings of a site compared.",
        ("start", "ending"),
        10,
        7,
        "The log: past walks, and readings compared",
    ),
    Command(
        "open",
        ("g",),
        "go on",
        "Open a walk of the log: go on with it, or see its end and its message again.",
        ("log-walk",),
        7,
        4,
        "Go on with it, or see its end again",
    ),
    Command(
        "csv",
        ("e",),
        "export",
        "Save the readings that are shown to a new file, for a spreadsheet (CSV).",
        LOGS,
        5,
        7,
        "Save the readings for a spreadsheet (CSV)",
    ),
    Command(
        "json",
        ("j",),
        "json",
        "Save all of it to a new file, for programs (JSON).",
        LOGS,
        6,
        9,
        "Save all of it for programs (JSON)",
    ),
    Command(
        "delete",
        ("d",),
        "delete",
        "Delete the walks that are shown. It asks once.",
        LOGS,
        3,
        8,
        "Delete what is shown",
    ),
    Command(
        "close",
        ("q",),
        "close",
        "Close this, and go back to where you were.",
        ("card", *LOGS),
        None,
        2,
    ),
)
# fmt: on
ZERO = "0: not sure, or it can't be done. At a reading type 0.0 for 0 volts; x: can't measure."
TYPED = (
    ("0 to 9, Enter", f"Choose the answer of that number. {ZERO}"),
    ("121.8, Enter", "What the meter shows. 118-121 if it wanders, OL if it says so."),
    ("Enter", "With nothing typed: the rest of a long page, then a menu of all that can be done."),
    ("Up, Down, PgUp, PgDn", "Scroll a long page."),
    ("Esc", "Clear what is typed, or close what is open. It never takes back an answer."),
    ("Ctrl+L", "Draw the screen anew, where something else wrote over it."),
)
"""What is typed rather than pressed: for the help screen and the README."""

AUTHORS_TYPED = (
    ("Up, Down, PgUp, PgDn", "Choose another node."),
    ("12, Enter", "Walk from node 12."),
    ("/word", "Choose the next node with that word in its name or text."),
    ("Enter", "With nothing typed: walk from the node that is chosen."),
)
"""The same in the author's preview."""

KEY_NAMES = {"!": "exclamation_mark", "?": "question_mark"}
"""What a terminal library calls the keys that are not letters."""

ALWAYS = ("!",)
"""Keys that are commands even while something is typed."""


def commands_on(screen: str) -> list[Command]:
    """Return the commands that apply to a screen, in the order of the table."""
    return [command for command in COMMANDS if command.applies(screen)]


def menu_of(screen: str) -> list[Command]:
    """Return the commands of a screen's menu, by number."""
    return sorted(
        (c for c in commands_on(screen) if c.number is not None), key=lambda command: command.number or 0
    )


def practice_menu_of(screen: str) -> list[Command]:
    """Return the same in practice, which keeps no walk and hands none over."""
    menu = [command for command in menu_of(screen) if command.id not in ("hand", "log")]
    return [c._replace(menu="Leave; a practice walk is not kept") if c.id == "leave" else c for c in menu]


def barred(key: str, screen: str) -> bool:
    """Tell whether a key, or a word, is a command elsewhere that may not be had here."""
    word = said(key)
    return any(word in (*c.keys, *WORDS.get(c.id, ())) and reach().bars(c.id, screen) for c in COMMANDS)


def command_of(key: str, screen: str) -> Command | None:
    """Return the command that a key gives on a screen."""
    return next((command for command in commands_on(screen) if key in command.keys), None)


def key_name(command: Command, after: str = "") -> str:
    """Return the key as it is shown; `after` follows letters that need more than a press."""
    key = command.keys[0]
    return f"{key}{after}" if key.isalpha() else key


def footer(screen: str, room: int, after: str = "") -> list[Command]:
    """Return the commands a footer has room for; the emergency card and the way out are the last to go."""
    shown = commands_on(screen)
    while len(shown) > 1 and sum(cells(f"{key_name(c, after)} {c.label}") + 2 for c in shown) - 2 > room:
        shown.remove(max(shown, key=lambda command: command.rank))
    return shown


def key_table() -> Iterator[str]:
    """Yield the README's table of keys, in Markdown."""
    yield from _table(TYPED, EVERYWHERE)


def author_key_table() -> Iterator[str]:
    """Yield the table of the keys of whoever writes trees."""
    yield from _table(AUTHORS_TYPED, AUTHORS)


def _table(typed: tuple[tuple[str, str], ...], screens: tuple[str, ...]) -> Iterator[str]:
    yield "| Key | What it does |"
    yield "| --- | --- |"
    for keys, what in typed:
        yield f"| {keys} | {what} |"
    for command in COMMANDS:
        if not set(screens).isdisjoint(command.on):
            yield f"| `{'`, `'.join(command.keys)}` | {command.help} |"
