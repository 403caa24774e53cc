"""What may be asked for over a shared login: a few words, read strictly; all else is refused in one line."""

from __future__ import annotations

import shlex
from typing import NamedTuple

LONGEST = 200
"""Letters of what is asked for."""
SIGNS = " -'\",?!"
"""What may stand in it beside letters and digits: no path can be written with these."""
ALLOWED = (
    "Here you may ask for nothing (the start), shorewalk --plain, walk WORDS, walk --resume last, practice, "
    "practice SITE, each with --plain too, walks with --aloud; or help."
)
HELP = """\
Log in with a terminal (ssh -t) and, after the host, nothing or one of these:
  walk zap              straight to it, in your own words
  walk --resume last    on with the walk that was left last
  practice              the make-believe sites; practice creek-1 begins at one
With --plain each asks in plain sentences, with --aloud a walk is read aloud;
shorewalk --plain is the start in plain sentences.
Your walks are kept apart from everybody else's."""


class NotAllowed(Exception):  # noqa: N818 (said to a person, not an error of the program)
    """This is not to be had over a shared login; the line says what is."""


class Wish(NamedTuple):
    """What was asked for: `what` is `start`, `walk`, `practice` or `help`; `words` a symptom or a site."""

    what: str = "start"
    words: str = ""
    plain: bool = False
    aloud: bool = False
    resume: str | None = None


def read_wish(asked: str) -> Wish:
    """Return what was asked for; raise `NotAllowed`."""
    if len(asked) > LONGEST:
        raise NotAllowed(f"That is {len(asked)} letters; at most {LONGEST} are read. {ALLOWED}")
    if not all(letter.isalnum() or letter in SIGNS for letter in asked):
        raise NotAllowed(f"A character stands in that which is not taken here. {ALLOWED}")
    try:
        words = shlex.split(asked)
    except ValueError:
        raise NotAllowed(f"A quotation mark is not closed. {ALLOWED}") from None
    if words[:1] == ["shorewalk"]:
        words = words[1:]
    if words in (["help"], ["--help"], ["-h"]):
        return Wish("help")
    first = words[0] if words and not words[0].startswith("-") else "start"
    plain, aloud, resume, rest = _options(words[first != "start" :])
    match first, rest, aloud, resume:
        case "start", [], False, None:
            return Wish(plain=plain)
        case "walk", [_, *_], _, None:
            return Wish("walk", " ".join(rest), plain, aloud)
        case "walk", [], _, "last":
            return Wish("walk", "", plain, aloud, "last")
        case "practice", [] | [_], False, None:
            return Wish("practice", " ".join(rest), plain)
    raise NotAllowed(f"That is not to be had here. {ALLOWED}")


def _options(words: list[str]) -> tuple[bool, bool, str | None, list[str]]:
    """Return whether plain and aloud were said, what to resume, and the words that are no options."""
    rest: list[str] = []
    plain = aloud = False
    resume: str | None = None
    waiting = iter(words)
    for word in waiting:
        if word == "--plain":
            plain = True
        elif word == "--aloud":
            aloud = True
        elif word == "--resume":
            resume = next(waiting, "")
        elif word.startswith("-"):
            raise NotAllowed(f"There is no option {word} here. {ALLOWED}")
        else:
            rest.append(word)
    return plain, aloud, resume, rest
