"""Question, reason and hint take at most nine lines of the smallest common screen, 80 columns wide.

At most nine lines of instruction are read before acting (Degani and Wiener, NASA CR-177549; UK CAA CAP 676). Beside
the picture a screen of 80 columns leaves 43 of them for the words. Cautions have a page to themselves and are
read one by one, so they are not counted here.

Bad:

    nodes:
      dry:
        step: Dry your hands.
        hint: >-
          Use a towel. Use a cloth. Use your sleeve. Shake them well. Wait in the sun. Wait in the wind.
          Rub them on the grass. Rub them on a tree. Rub them on the sand. Rub them on your knees.
          Blow on them. Fan them with a hat. Hold them over a stove. Hold them by the engine.
          Ask a friend to help you. Ask the park for a cloth. Ask for a better towel next time.
        done: stop_here
        cannot: stop_here

Good:

    nodes:
      dry:
        step: Dry your hands.
        hint: Use a towel, a cloth or your sleeve.
        done: stop_here
        cannot: stop_here
"""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from shorewalk.tree.model import End

from ..finding import Finding, Severity
from ..rule import Rule
from ..view import View
from ..words.prose import prose

ID = "too-many-lines"

MOST = 9
"""Lines of instruction on a screen."""

ROOM = 43
"""Columns for the words: 80, less 30 for the side, 4 between, 3 at the edges."""

SHOWN = {"hint": "", "why": "Why: ", "ask": "", "step": "", "tally": "", "says": ""}
"""What stands above the answers, and what goes before it."""


def check(view: View) -> Iterator[Finding]:
    """Find questions that fill the screen."""
    for written, speeches in prose(view):
        for speech in speeches:
            if isinstance(speech.node, End):
                continue
            shown = [
                said
                for said in speech.said
                if said.key in SHOWN and len(said.route) == len(speech.node.route) + 1
            ]
            if sum(len(said.text) for said in shown) < (MOST - len(shown)) * ROOM // 2:
                continue  # far from it: half of each line may be lost to a long word
            lines = sum(len(wrap(SHOWN[said.key] + said.text, ROOM)) for said in shown)
            if lines > MOST:
                message = (
                    f"Question, hint and reason take {lines} lines at 80 columns; at most {MOST} are read."
                )
                place = view.place(written.file, shown[0].route)
                hint = "Say less, or make two questions of it."
                yield Finding(ID, Severity.WARNING, place, message, hint=hint)


RULE = Rule(
    ID,
    "A question takes at most nine lines at 80 columns.",
    check,
    site=False,
    severity=Severity.WARNING,
    silenceable=True,
)
