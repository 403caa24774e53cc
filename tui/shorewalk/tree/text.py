"""What must be said of a file's text before and when YAML is made of it, in our own words.

The C and the pure Python parser word one error in two ways, and neither says what to do.
"""

from __future__ import annotations

import codecs
import re
from itertools import accumulate
from typing import Any, NoReturn

import yaml

from shorewalk.seen import first_unseen

from .source import DEEPEST, LARGEST, LOADER, MOST, Place, Problem, TreeError, first_of, place_of
from .words import quoted

# Where an anchor, alias or tag may begin; whether one does, the parser says.
MARKED = re.compile(r"[&*!](?<![^\s,:?\[{\]}-].)(?:(?<=!)|(?=\S))")


def clean(text: str | bytes, file: str) -> str:
    """Return the text as characters, without a byte order mark at its start; refuse what cannot be read."""
    if len(text) > LARGEST:
        _refuse(file, "", f"The file has {len(text)} bytes; at most {LARGEST} are read. Split it into parts.")
    words = (_decoded(text, file) if isinstance(text, bytes) else text).removeprefix("\ufeff")
    if (at := _first_unseen(words)) is not None:
        _refuse(file, words[:at], _unseen(words[at]))
    return words


def _first_unseen(text: str) -> int | None:
    """Return where the first character stands that no text may hold; line ends it may."""
    # A blank for each of theirs, so that what is found stands where it stood.
    return first_unseen(text.replace("\r\n", "  ").replace("\n", " "))


def _decoded(text: bytes, file: str) -> str:
    if text.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        _refuse(file, "", "The file is written in UTF-16. Save it as UTF-8.")
    try:
        return text.decode()
    except UnicodeDecodeError as error:
        before = text[: error.start].decode()
        _refuse(
            file, before, f"The byte 0x{text[error.start]:02x} here is not UTF-8. Save the file as UTF-8."
        )


def refused_marks(text: str, file: str) -> list[Problem]:
    """Return anchors, aliases and tags (composed nodes do not show them), and escaped unseen characters."""
    problems: list[Problem] = []
    if not MARKED.search(text) and "\\" not in text:
        return problems
    try:
        for event in yaml.parse(text, Loader=LOADER):
            problems += [Problem(place_of(file, event.start_mark), fault) for fault in _faults_of(event)]
            if len(problems) >= MOST:
                return first_of(problems)
    except (yaml.YAMLError, RecursionError) as error:
        return [*problems, said(error, text, file)]
    return problems


def _faults_of(event: Any) -> list[str]:
    found = []
    if isinstance(event, yaml.AliasEvent):
        found.append(f'The alias "*{event.anchor}" is not read. Write the value out.')
    elif getattr(event, "anchor", None):
        found.append(f'The anchor "&{event.anchor}" is not read. Take it out; share by a part instead.')
    if getattr(event, "tag", None):
        found.append(
            f"The tag {quoted(event.tag)} is not read; every value is a word. Take it out, or quote the text."
        )
    if isinstance(event, yaml.ScalarEvent) and (at := _first_unseen(event.value)) is not None:
        found.append(_unseen(event.value[at]))
    return found


def _unseen(character: str) -> str:
    if character == "\t":
        return "A tab stands here. Use spaces."
    return f"The character U+{ord(character):04X} here cannot be seen or turns the text about. Take it out."


def said(error: yaml.YAMLError | RecursionError, text: str, file: str) -> Problem:
    """Return a parser's error in our words."""
    if isinstance(error, RecursionError) or "depth" in str(error) or _brackets_deep(text):
        return Problem(
            _first_too_deep(text, file), f"This is nested more than {DEEPEST} deep. Write it flatter."
        )
    mark, problem = getattr(error, "problem_mark", None), getattr(error, "problem", None) or str(error)
    context = getattr(error, "context_mark", None)
    place = place_of(file, mark) if mark else Place(file, 1, 1)
    opened = f" (it began at line {context.line + 1}, column {context.column + 1})" if context else ""
    lines = text.split("\n")
    found = lines[place.line - 1][place.column - 1 : place.column] if place.line <= len(lines) else ""
    for part, words in WORDS.items():
        if part in problem:
            return Problem(place, words.format(opened=opened, found=quoted(found)))
    return Problem(
        place, f"This is not YAML at {quoted(found)}{opened}. Look for a missing quote, bracket or colon."
    )


WORDS = {
    "mapping values are not allowed": 'A second ": " on this line. Quote words with a colon in them.',
    "expected ':'": 'This line has no colon{opened}. Write "key: value", or indent words that go on.',
    "cannot start any token": "{found} cannot begin a value. Put it in quotes.",
    "end of stream": "The file ends inside a quote or bracket{opened}. Close it.",
    "document separator": "A line of --- or ... stands inside a quote{opened}. Close the quote.",
    "expected ',' or": "A comma or closing bracket is missing at {found}{opened}.",
    "another document": "A second document begins here. One file holds one tree: take the line out.",
    "<document start>": "The text goes on at {found} where the file should end. Look at the indentation.",
    "escape": "YAML knows no such backslash{opened}. Use single quotes, which take it as it is.",
    "duplicate": "A key stands here twice{opened}. Keep one of the two.",
    "expected key": "The indentation here fits no line above{opened}. Start the line under its neighbours.",
    "<block end>": "The indentation here fits no line above{opened}. Start the line under its neighbours.",
    "'-' indicator": "A list item is missing or indented otherwise than the others{opened}.",
    "not allowed": "{found} is not allowed here{opened}. Start it on a line of its own, or quote it.",
    "undefined alias": 'A value may not begin with "*". Write it out, or quote it.',
}
"""Words of either parser, and ours."""


def _brackets_deep(text: str) -> bool:
    """Tell whether brackets nest too deep; older C parsers stumble there without saying why."""
    steps = (1 if bracket in "[{" else -1 for bracket in re.findall(r"[\[\]{}]", text))
    return max(accumulate(steps), default=0) > DEEPEST


def _first_too_deep(text: str, file: str) -> Place:
    depth, place = 0, Place(file, 1, 1)
    try:
        for event in yaml.parse(text, Loader=yaml.BaseLoader):  # the C parser gives up before its first event
            depth += isinstance(event, yaml.CollectionStartEvent) - isinstance(event, yaml.CollectionEndEvent)
            place = place_of(file, event.start_mark)
            if depth > DEEPEST:
                break
    except yaml.YAMLError:
        pass
    return place


def _refuse(file: str, before: str, message: str) -> NoReturn:
    place = Place(file, before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1)
    raise TreeError([Problem(place, message)])
