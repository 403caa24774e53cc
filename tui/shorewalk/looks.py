"""Which look it is: the one that was asked for, else the one kept from last time, else what fits the terminal."""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from .journal.store import home

TERMINAL, PLAIN = "terminal", "plain"
"""The terminal's own sixteen colours; none at all, which is no look to choose but what some terminals get."""
LOOKS: Mapping[str, str] = {
    "dusk": "light on dark",
    "daylight": "dark on light",
    "contrast": "few colours, much contrast",
    TERMINAL: "your terminal's own colours",
}
"""The looks there are to choose, in the order they are stepped through, and what each is."""
ASKED = "SHOREWALK_LOOK"
FILE = "look"
MANY = 256
"""Colours from which on a palette can be shown."""
FEW = 8
LIGHT_GROUNDS = ("7", "15")
"""What terminals that say their colours in COLORFGBG call white."""
NO_COLOURS = re.compile(r"|dumb|unknown|vt\d.*|.*-m(ono)?")
"""Terminals by name that show no colours, or of which nothing is known."""

MANY_COLOURS = re.compile(r".*256color|(alacritty|contour|foot|rio|wezterm)(-.*)?|xterm-(kitty|ghostty)")
"""Terminals by name that show a palette; over a link the name is all that is known of them."""


def named(name: str, where: str = ASKED) -> str:
    """Return the look of this name; raise `ValueError` with a sentence where there is none."""
    if name in LOOKS:
        return name
    raise ValueError(f'{where}: there is no look "{name}". There are: {", ".join(LOOKS)}.')


def looks_here(env: Mapping[str, str] = os.environ) -> tuple[str, ...]:
    """Return the looks that this terminal can show."""
    if env.get("NO_COLOR"):
        return (PLAIN,)
    colours = colours_of(env)
    return tuple(LOOKS) if colours >= MANY else (TERMINAL,) if colours >= FEW else (PLAIN,)


def look_of(env: Mapping[str, str] = os.environ) -> str:
    """Return the look to begin with; raise `ValueError` where one was asked for that is not there."""
    asked = named(env[ASKED]) if env.get(ASKED) else kept_look()
    here = looks_here(env)
    if asked in here:
        return asked
    light = env.get("COLORFGBG", "").rpartition(";")[2] in LIGHT_GROUNDS
    return "daylight" if light and "daylight" in here and not asked else here[0]


def look_after(look: str) -> str:
    """Return the next look of those that this terminal can show."""
    here = looks_here()
    return here[(here.index(look) + 1) % len(here)] if look in here else here[0]


def kept_look(folder: Path | None = None) -> str | None:
    """Return the look that was chosen last time."""
    with suppress(OSError, ValueError):
        return named(((folder or home()) / FILE).read_text(encoding="utf-8").strip())
    return None


def keep_look(look: str, folder: Path | None = None) -> None:
    """Keep a look for the next start. Where nothing can be written it is for now only."""
    with suppress(OSError):
        folder = folder or home()
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        (folder / FILE).write_text(f"{look}\n", encoding="utf-8")


def colours_of(env: Mapping[str, str]) -> int:
    """Return how many colours the terminal has, by what it is called; 0 for one that has none or is unknown."""
    term = env.get("TERM", "").lower()
    unnamed = not term and os.name == "nt"  # there terminals have no name, and all colours
    if not unnamed and NO_COLOURS.fullmatch(term):
        return 0
    if unnamed or env.get("COLORTERM", "").lower() in ("truecolor", "24bit") or term.endswith("-direct"):
        return 1 << 24
    return MANY if MANY_COLOURS.fullmatch(term) else FEW


def told_of(look: str) -> str:
    """Return what to say of a look that begins now."""
    if look == PLAIN:
        return "There is one look here: no colours."
    only = "" if len(looks_here()) > 1 else " This terminal can show no other."
    return f"Look: {look}, {LOOKS[look]}.{only}"
