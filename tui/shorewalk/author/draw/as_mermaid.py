"""A drawing as a Mermaid flowchart, which many Markdown viewers draw in place."""

from __future__ import annotations

import re

from .drawing import Box, Drawing
from .rooms import framed, identifiers, rooms
from .rows import rows_of

BOX = 30
"""Letters in a line of a box; wider ones Mermaid breaks by itself."""

MOST_ARROWS, MOST_TEXT = 500, 50_000
"""Arrows and characters that Mermaid draws unless its `maxEdges` and `maxTextSize` are raised."""

SHAPES = {
    "ask": ("(", ")"),
    "step": ("[", "]"),
    "measure": ("[/", "/]"),
    "work": ("{{", "}}"),
    "tally": ("{{", "}}"),
    "judge": ("{", "}"),
    "part": ("[[", "]]"),
    "jump": (">", "]"),
    "exit": (">", "]"),
}
ENDINGS = {"danger": ("[/", "\\]"), "stop": ("[\\", "/]"), "watch": ("[(", ")]"), "ok": ("([", "])")}
"""An ending's shape by the role of its verdict."""

PLAIN = re.compile(r"[\w ,.:?!'()/+-]", re.ASCII)
LIST = re.compile(r"^(?:(\d+)([.)])|([-+*]))(?= )")
"""What begins a Markdown list, which Mermaid reads but does not draw."""


def write_mermaid(drawing: Drawing) -> str:
    """Return the drawing as a flowchart; what stands in a part is a subgraph."""
    ids = identifiers(drawing)
    rows = ["---", f"title: {_title(drawing.title)}", "---", "flowchart TD"]
    frames = 0
    for deep, name, box in framed(rooms(drawing)):
        pad = "  " * deep
        if box:
            before, after = _shape(box)
            rows.append(f"{pad}{ids[box.name]}{before}{_quoted(_label(box))}{after}")
        elif name:
            frames += 1
            rows.append(f"{pad}subgraph part_{frames}[{_quoted([name])}]")
        else:
            rows.append(f"{pad}end")
    for arrow in drawing.arrows:
        loop = arrow in drawing.loops
        line = "-.->" if loop else "-->"
        words = _quoted([arrow.words(loop=loop)])
        rows.append(f"  {ids[arrow.source]} {line}|{words}| {ids[arrow.target]}")
    return "\n".join(rows) + "\n"


def too_large(drawing: Drawing, text: str) -> str | None:
    """Return what to say where Mermaid would refuse to draw it as it is set by default."""
    if len(drawing.arrows) <= MOST_ARROWS and len(text) <= MOST_TEXT:
        return None
    return (
        f"Mermaid draws at most {MOST_ARROWS} arrows and {MOST_TEXT} characters; here are {len(drawing.arrows)} "
        f"and {len(text)}. Draw a piece (--node, --depth), or raise its maxEdges and maxTextSize."
    )


def _shape(box: Box) -> tuple[str, str]:
    return ENDINGS.get(box.mark.role, ("[", "]")) if box.mark else SHAPES.get(box.kind, ("[", "]"))


def _label(box: Box) -> list[str]:
    return [row for text in (box.heading(), *box.lines()) for row in rows_of(text, BOX)]


def _quoted(rows: list[str]) -> str:
    """Return lines in quotes; whatever could be syntax or markup stands as its number."""
    return '"' + "<br/>".join(_plain(row) for row in rows) + '"'


def _plain(text: str) -> str:
    shown = LIST.sub(lambda found: f"{found[1] or ''}#{ord(found[2] or found[3])};", text)
    begun = len(shown) - len(text) and shown.index(";") + 1  # what LIST wrote stays as it is
    return shown[:begun] + "".join(_letter(letter) for letter in shown[begun:])


def _letter(letter: str) -> str:
    if PLAIN.match(letter) or (letter.isprintable() and not letter.isascii()):
        return letter
    return f"#{ord(letter)};" if letter.isprintable() else "?"


def _title(text: str) -> str:
    """Return text as one YAML scalar; a title is cleaned as HTML and knows no numbers for letters."""
    text = text.replace("<", "‹").replace(">", "›")  # noqa: RUF001 (alike, as is meant)
    shown = "".join(letter if letter.isprintable() else "?" for letter in text)
    return "'" + shown.replace("'", "''") + "'"
