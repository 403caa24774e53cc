"""What somebody may have meant who typed what is no command."""

from __future__ import annotations

from collections.abc import Sequence
from difflib import get_close_matches

from ..sections import headers_in, sections_of
from ..symptoms import matches
from ..tree.library import shipped
from ..tree.words import quoted


def no_such_command(words: Sequence[str], commands: Sequence[str]) -> str:
    """Return what to type instead: a command with a name like it, or `walk` before what is a symptom."""
    library, said = shipped(), f"There is no command {quoted(words[0])}."
    symptom = " ".join(word for word in words if not word.startswith("-"))
    is_symptom = words[0].endswith(".yaml") or matches(headers_in(sections_of(library)), symptom)
    near = [] if is_symptom else get_close_matches(words[0], [*commands, *library.names()], 1)
    if near and near[0] in commands:
        return f"{said} Perhaps: shorewalk {' '.join([near[0], *words[1:]])}"
    what = " ".join(near) or symptom
    return f"{said} What is wrong goes after walk: shorewalk walk {what}\nAll commands: shorewalk --help"
