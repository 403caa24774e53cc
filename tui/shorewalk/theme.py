"""How it looks: at dusk, in daylight, with much contrast, or in the terminal's own colours.

A palette is a theme of the library. What each role of text looks like is a table of the palette's names rather than
rules of a style sheet: matching twenty rules on every screen took a tenth of the time to the first one. Marks and words
say the same without any colour.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from rich.style import Style
from textual.theme import Theme

from .looks import PLAIN, TERMINAL

PALETTES: Mapping[str, Mapping[str, str]] = {
    # Dark slate, warm lamp light.
    "dusk": {
        "background": "#12161c",
        "panel": "#1e2126",
        "foreground": "#d9d5c9",
        "bright": "#f0ece0",
        "quiet": "#9a9d9f",
        "lamp": "#dca44b",
        "sky": "#7f9bb3",
        "reed": "#7fb3a8",
        "leaf": "#72bf5e",
        "amber": "#e5b82f",
        "ember": "#e0785c",
        "ink": "#12161c",
        "paper": "#d9d5c9",
    },
    # Ink on paper.
    "daylight": {
        "background": "#fbf8f1",
        "panel": "#ebe9e5",
        "foreground": "#2a2824",
        "bright": "#121110",
        "quiet": "#56534c",
        "lamp": "#704400",
        "sky": "#24506f",
        "reed": "#1a5a52",
        "leaf": "#25611a",
        "amber": "#6f4a00",
        "ember": "#9c2b14",
        "ink": "#121110",
        "paper": "#fbf8f1",
    },
    # White on black, and four colours as light as they can be.
    "contrast": {
        "background": "#000000",
        "panel": "#000000",
        "foreground": "#ffffff",
        "bright": "#ffffff",
        "quiet": "#ffffff",
        "lamp": "#ffd700",
        "sky": "#5fd7ff",
        "reed": "#5fd7ff",
        "leaf": "#5fff5f",
        "amber": "#ffd700",
        "ember": "#ffafaf",
        "ink": "#000000",
        "paper": "#ffffff",
    },
}
"""What each colour is, by look. Codes for a camera are dark `ink` on light `paper` in all of them."""


class Role(NamedTuple):
    """A colour of the palette for the letters, one for the ground if it is not the sheet's, and weight."""

    color: str
    ground: str | None = None
    bold: bool = False


ROLES: Mapping[str, Role] = {
    "quiet": Role("quiet"),
    "strong": Role("foreground", bold=True),
    "group": Role("sky", bold=True),
    "question": Role("bright", bold=True),
    "number": Role("lamp", bold=True),
    "picked": Role("background", "lamp", bold=True),
    "caution": Role("amber"),
    "note": Role("reed"),
    "error": Role("ember", bold=True),
    "key": Role("lamp", bold=True),
    "red": Role("ember", bold=True),
    "black": Role("bright", bold=True),
    "code": Role("ink", "paper"),
    "ok": Role("leaf"),
    "watch": Role("amber"),
    "stop": Role("ember", bold=True),
    "danger": Role("background", "ember", bold=True),
    "again": Role("sky"),
    "ok-banner": Role("background", "leaf", bold=True),
    "watch-banner": Role("background", "amber", bold=True),
    "stop-banner": Role("background", "ember", bold=True),
    "danger-banner": Role("background", "ember", bold=True),
}

SIXTEEN: Mapping[str, tuple[str, str]] = {
    "code": ("black", "white"),
    "ok": ("black", "green"),
    "watch": ("black", "yellow"),
    "stop": ("bright_white", "red"),
    "danger": ("bright_white", "red"),
    "again": ("black", "cyan"),
    "ok-banner": ("black", "green"),
    "watch-banner": ("black", "yellow"),
    "stop-banner": ("bright_white", "red"),
    "danger-banner": ("bright_white", "red"),
}
"""Letters and ground of roles in sixteen colours.

Nobody knows whether the terminal is dark or light: where a colour is used, both are ours, and all else is the
terminal's own. Black is never bold: some show that as grey.
"""


def theme_of(look: str) -> Theme:
    """Return the library's theme for a look."""
    if look in (TERMINAL, PLAIN):
        own = "ansi_default"
        return Theme(
            name=look,
            ansi=True,
            primary=own,
            background=own,
            surface=own,
            panel=own,
            foreground=own,
            variables={"ansi-background": own, "ansi-foreground": own},  # its own rules name these
        )
    palette = PALETTES[look]
    return Theme(
        name=look,
        dark=look != "daylight",
        background=palette["background"],
        surface=palette["background"],
        panel=palette["panel"],
        foreground=palette["foreground"],
        primary=palette["lamp"],
        secondary=palette["sky"],
        accent=palette["reed"],
        success=palette["leaf"],
        warning=palette["amber"],
        error=palette["ember"],
        variables={
            "input-cursor-background": palette["lamp"],
            "input-cursor-foreground": palette["background"],
            "input-cursor-text-style": "none",
        },
    )


@cache
def styles(look: str) -> dict[str, Style]:
    """Return the style of each role. Without colour a coloured ground is letters and ground exchanged."""
    return {name: _style(name, role, look) for name, role in ROLES.items()}


@cache
def filled(look: str) -> tuple[str, ...]:
    """Return the roles whose blanks are seen."""
    return tuple(name for name, style in styles(look).items() if style.bgcolor or style.reverse)


def _style(name: str, role: Role, look: str) -> Style:
    if look == TERMINAL and name in SIXTEEN:
        letters, ground = SIXTEEN[name]
        return Style(color=letters, bgcolor=ground, bold=role.bold and letters != "black")
    if look not in PALETTES:
        return Style(bold=role.bold, reverse=role.ground is not None)
    palette = PALETTES[look]
    return Style(color=palette[role.color], bgcolor=role.ground and palette[role.ground], bold=role.bold)
