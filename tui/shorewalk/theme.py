"""How it looks at dusk: dark slate, warm lamp light, and four colours that mean something."""

from __future__ import annotations

from textual.theme import Theme

DUSK = Theme(
    name="dusk",
    dark=True,
    background="#12161c",
    surface="#171c24",
    panel="#1e2530",
    foreground="#d9d5c9",
    primary="#d8a657",
    secondary="#7f9bb3",
    accent="#7fb3a8",
    success="#8fbf7f",
    warning="#e0b050",
    error="#e07a5f",
    variables={
        "input-cursor-background": "#d8a657",
        "input-cursor-foreground": "#12161c",
        "input-cursor-text-style": "none",
        "footer-key-foreground": "#d8a657",
    },
)
