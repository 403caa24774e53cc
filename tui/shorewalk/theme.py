"""How it looks at dusk: dark slate, warm lamp light, and four colours that mean something.

The palette is a theme of the library. What each role of text looks like is a table of the palette's
names rather than rules of a style sheet: matching twenty rules on every screen took a tenth of the time
to the first one. Marks and words say the same without any colour.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from rich.style import Style
from textual.theme import Theme

PALETTE: Mapping[str, str] = {
    "background": "#12161c",
    "panel": "#1e2530",
    "foreground": "#d9d5c9",
    "bright": "#f0ece0",
    "quiet": "#9a9d9f",
    "lamp": "#d8a657",
    "sky": "#7f9bb3",
    "reed": "#7fb3a8",
    "leaf": "#72bf5e",
    "amber": "#e5b82f",
    "ember": "#e07a5f",
}

DUSK = Theme(
    name="dusk",
    dark=True,
    background=PALETTE["background"],
    surface=PALETTE["background"],
    panel=PALETTE["panel"],
    foreground=PALETTE["foreground"],
    primary=PALETTE["lamp"],
    secondary=PALETTE["sky"],
    accent=PALETTE["reed"],
    success=PALETTE["leaf"],
    warning=PALETTE["amber"],
    error=PALETTE["ember"],
    variables={
        "input-cursor-background": PALETTE["lamp"],
        "input-cursor-foreground": PALETTE["background"],
        "input-cursor-text-style": "none",
    },
)


class Look(NamedTuple):
    """A colour of the palette for the letters, one for the ground if it is not the sheet's, and weight."""

    color: str
    ground: str | None = None
    bold: bool = False


LOOKS: Mapping[str, Look] = {
    "quiet": Look("quiet"),
    "strong": Look("foreground", bold=True),
    "group": Look("sky", bold=True),
    "question": Look("bright", bold=True),
    "number": Look("lamp", bold=True),
    "picked": Look("background", "lamp", bold=True),
    "caution": Look("amber"),
    "note": Look("reed"),
    "error": Look("ember", bold=True),
    "key": Look("lamp", bold=True),
    "red": Look("ember", bold=True),
    "black": Look("bright", bold=True),
    "code": Look("background", "foreground"),
    "ok": Look("leaf"),
    "watch": Look("amber"),
    "stop": Look("ember", bold=True),
    "danger": Look("background", "ember", bold=True),
    "again": Look("sky"),
    "ok-banner": Look("background", "leaf", bold=True),
    "watch-banner": Look("background", "amber", bold=True),
    "stop-banner": Look("background", "ember", bold=True),
    "danger-banner": Look("background", "ember", bold=True),
}


@cache
def styles(*, color: bool) -> dict[str, Style]:
    """Return the style of each role. Without colour a coloured ground is letters and ground exchanged."""
    return {role: _style(look, color=color) for role, look in LOOKS.items()}


def _style(look: Look, *, color: bool) -> Style:
    if not color:
        return Style(bold=look.bold, reverse=look.ground is not None)
    return Style(color=PALETTE[look.color], bgcolor=look.ground and PALETTE[look.ground], bold=look.bold)
