"""Words that are heard as themselves wherever something is typed: commands, ways out, and what is no answer.

One table for the app and for plain text. None of these words is ever the name of a site, a file or a folder.
"""

from __future__ import annotations

from string import ascii_lowercase

WORDS = {
    "emergency": ("emergency",),
    "help": ("help", "h"),
    "unable": ("unable",),
    "back": ("back", "undo"),
    "known": ("known",),
    "picture": ("picture",),
    "possible": ("possible",),
    "aloud": ("aloud",),
    "hand": ("hand over", "take over"),
    "meter": ("meter",),
    "site": ("site",),
    "save": ("save",),
    "code": ("code",),
    "copy": ("message", "copy"),
    "leave": ("quit", "leave", "exit", "close"),
    "looks": ("looks",),
    "again": ("again",),
    "log": ("log",),
    "open": ("go on", "open"),
    "csv": ("export", "csv"),
    "json": ("json",),
    "delete": ("delete",),
    "close": ("close", "quit", "leave", "exit", "back", "b"),
}
"""Words for the commands of the table, beside their keys; the first of them is the one that is told."""

LEAVING = frozenset(("q", "quit", "leave", "exit", "close"))
BACK = frozenset(("b", "back", "start"))
UNSURE = frozenset(
    ("0", "not sure", "unsure", "unable", "none", "nothing", "no", "yes", "ok", "done", "can't", "cannot")
)
"""What is said to a question, and names nothing."""
OTHERS = frozenset(("!", "?", "start", "repeat", "practice", "practise", "sites", "look", "site"))
"""Commands that only some places have."""
OURS = frozenset(
    (
        *ascii_lowercase,
        *LEAVING,
        *BACK,
        *UNSURE,
        *OTHERS,
        *(word for words in WORDS.values() for word in words),
    )
)
"""A letter alone is a command somewhere, so it is one of them too."""
NO_NAME = '"{typed}" is a word for shorewalk itself, and no name.'


def said(typed: str) -> str:
    """Return what was typed as it is compared: case and blanks count for nothing."""
    return " ".join(typed.replace("\N{RIGHT SINGLE QUOTATION MARK}", "'").casefold().split())


def leaves(typed: str) -> bool:
    """Tell whether somebody wants to leave the question, or the program."""
    return said(typed) in LEAVING


def goes_back(typed: str) -> bool:
    """Tell whether somebody wants back to where they were."""
    return said(typed) in BACK


def is_ours(typed: str) -> bool:
    """Tell whether this is a word for the program, which can be no name."""
    return said(typed) in OURS
