"""The command: what was asked for, drawn in the format that was asked for, to where it was asked for."""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import dataclass
from os import get_terminal_size as get_window
from os import terminal_size
from pathlib import Path
from shutil import get_terminal_size

from shorewalk.exits import Exit
from shorewalk.lint import lint_paths
from shorewalk.lint.writing.text import write_text as write_findings
from shorewalk.marks import cannot_show_blocks
from shorewalk.starting import Usage
from shorewalk.tree.source import TreeError

from .as_dot import write_dot
from .as_mermaid import too_large, write_mermaid
from .as_svg import write_svg
from .as_text import write_text
from .asked import asked_for
from .cutting import cut
from .drawing import Drawing
from .gather import gather

Say = Callable[[str], None]
NO_WINDOW = terminal_size((80, 24))


@dataclass(frozen=True, slots=True)
class Options:
    """How to draw. `opened`: parts open; `None` where that was not said. `width`: cells, for text."""

    form: str = "text"
    node: str | None = None
    depth: int | None = None
    opened: bool | None = None
    width: int | None = None
    out: Path | None = None


def draw(word: str, options: Options, write: Callable[[str | bytes], None], narrate: Say) -> int:
    """Draw a tree or part; where it cannot be read, tell what the linter finds. Return the exit code."""
    asked = asked_for(word)
    if options.out and options.out.suffix in (".yaml", ".yml"):
        raise Usage(f'--out: "{options.out}" is the name of a tree. Name another file, as {asked.name}.svg.')
    try:
        drawing = cut(gather(asked, opened=_opened(options)), options.node, options.depth)
    except TreeError:
        report = lint_paths([asked.file]) if asked.file else None
        if report is None or not report.errors:  # one of ours, or what no rule knows
            raise
        write(write_findings(report))
        return report.exit()
    text = _written(drawing, options)
    if options.form == "mermaid" and (large := too_large(drawing, text)):
        narrate(large)
    if options.out:
        options.out.write_bytes(text.encode())
        narrate(f"Drawn in {options.out}.")
    else:
        write(
            text if options.form == "text" else text.encode()
        )  # the others are UTF-8 wherever they are made
    return Exit.CLEAN


def _opened(options: Options) -> bool:
    """A node inside a part is asked for: then parts are open, unless it was said otherwise."""
    return "." in (options.node or "") if options.opened is None else options.opened


def _written(drawing: Drawing, options: Options) -> str:
    match options.form:
        case "dot":
            return write_dot(drawing)
        case "mermaid":
            return write_mermaid(drawing)
        case "svg":
            return write_svg(drawing)
    room = options.width or get_terminal_size(_window()).columns
    return write_text(drawing, room, ascii_only=cannot_show_blocks() and options.out is None)


def _window() -> terminal_size:
    """Return the size of the window where what is written goes on to a pager, which tells no size."""
    for stream in (sys.__stderr__, sys.__stdin__):
        try:
            if stream:
                return get_window(stream.fileno())
        except (OSError, ValueError):
            continue
    return NO_WINDOW
