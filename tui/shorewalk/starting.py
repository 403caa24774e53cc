"""Beginning a walk, or taking one up again, from what was typed on the command line."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from .counted import counted
from .reach import reach
from .sections import headers_in, sections_of
from .tree.library import Header, Library, shipped
from .walk.meter import Meter, parse_meter
from .walk.walk import Walk, begin

if TYPE_CHECKING:
    from .journal import Keeper

DEFAULT_METER = "basic"


class Usage(Exception):  # noqa: N818 (said to a person, not an error of the program)
    """What was typed cannot be done; the sentence says what can."""


def start(symptom: str, meter: str | None = None) -> Walk:
    """Return a new walk for what was typed; raise `Usage`, or `TreeError` where a tree cannot be read."""
    chosen = meter_of(meter or DEFAULT_METER)
    library, name = find(symptom)
    return begin(library, name, chosen)


def meter_of(typed: str) -> Meter:
    """Return the meter that was named; raise `Usage` for what names none."""
    try:
        return parse_meter(typed)
    except ValueError as error:
        raise Usage(f"--meter: {error}") from None


def take_up(number: str, symptom: str = "") -> tuple[Walk, Keeper]:
    """Return a kept walk by its number, or the one answered last for `last`, and what keeps it on."""
    from .journal import Journal, NoSuchWalk
    from .journal import take_up as take_up_kept

    journal = Journal.open()
    entries = [entry for entry in journal.unfinished() if symptom in ("", entry.tree)]
    if number == "last" and entries:
        number = str(entries[0].id)
    try:
        return take_up_kept(journal, int(number))
    except (ValueError, OverflowError, NoSuchWalk):
        listed = [
            f"  {entry.id}  {entry.tree}, {counted(entry.answers, 'answer')}, {entry.changed}"
            for entry in entries
        ]
        there = "\n".join(["Unfinished walks:", *listed] if listed else ["There is no unfinished walk."])
        problem = f"{journal.problem}\n" if journal.problem else ""
        raise Usage(f'{problem}There is no walk "{number}" to go on with. {there}') from None
    except KeyError as error:  # its tree is gone
        raise Usage(str(error.args[-1])) from None


def find(symptom: str, command: str = "walk") -> tuple[Library, str]:
    """Return library and name of the tree that was asked for: a name, a file, or words of a symptom.

    Where that is none or several, `Usage` says how to type the `command` for each that it may be.
    """
    library = shipped()
    if symptom in library.names():
        return library, symptom
    if symptom.endswith(".yaml") and not reach().guarded:
        return _own(Path(symptom))
    from .symptoms import matches

    headers = headers_in(sections_of(library))
    found = matches(headers, symptom) if symptom else []
    if len(found) == 1:
        return library, found[0].name
    raise Usage(not_one(library, symptom, found, command))


def _own(path: Path) -> tuple[Library, str]:
    if not path.is_file():
        raise Usage(f'There is no file "{path}".')
    return Library(path.parent), path.stem


def not_one(library: Library, symptom: str, found: list[Header], command: str = "walk") -> str:
    """Return what to say where words fit no tree, or several."""
    from .listing import choices_of, whole_list
    from .symptoms import nearest

    if found:
        return f'"{symptom}" fits several. Which one?\n{choices_of(found, command)}'
    sections = sections_of(library)
    near = nearest(headers_in(sections), symptom) if symptom else []
    said = [f'Nothing here is about "{symptom}".' if symptom else "What is wrong?"]
    if near:
        said = [f"{said[0]} Nearest:", choices_of(near, command), f"All of them: shorewalk {command}"]
    else:
        said += [*whole_list(sections), f"Type the name, or words for it: shorewalk {command} NAME"]
    if command == "walk":
        from .emergency import CARD

        said.append(f"Somebody hurt, or something burning? {CARD[0]} {CARD[1]}")
    return "\n".join(said)


def narrate(sentence: str) -> None:
    """Say something beside the result."""
    sys.stderr.write(f"{_fitted(sentence)}\n")


def _fitted(sentence: str) -> str:
    """Return a sentence as it is shown: on a terminal no word of it is broken at the edge."""
    if not sys.stderr.isatty():
        return sentence
    from .listing import fitted

    return fitted(sentence)


def confirmed(question: str) -> bool:
    """Ask something that yes or no answers; raise `Usage` where nobody is there to answer."""
    if not sys.stdin.isatty():
        raise Usage(f"{question} Nobody is here to answer: say --yes.")
    sys.stderr.write(f"{_fitted(f'{question} y/N')} ")
    sys.stderr.flush()
    return sys.stdin.readline().strip().casefold() in ("y", "yes")
