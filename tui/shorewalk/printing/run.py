"""The command: the tree that was asked for, as text, Markdown or a PDF, to where it was asked for."""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from shorewalk.exits import Exit
from shorewalk.lint import lint_paths
from shorewalk.lint.writing.text import write_text
from shorewalk.saving import write_new
from shorewalk.starting import Usage, find
from shorewalk.tree.source import TreeError

from .as_text import as_text
from .make import checklist
from .step import Checklist

if TYPE_CHECKING:
    from .as_pdf import Paper

Say = Callable[[str], None]
WIDTH = 72
"""Cells of a line of text: what a page of 8.5 in takes in a letter of ten an inch, with margins (common practice)."""

ENDINGS = {".pdf": "pdf", ".md": "markdown", ".markdown": "markdown"}


@dataclass(frozen=True, slots=True)
class Options:
    """What to print, and how. `form`: text, markdown or pdf; `None` by the name of the file. `made`: when."""

    made: datetime
    form: str | None = None
    to: Path | None = None
    paper: Paper = "letter"
    width: int = WIDTH


def print_tree(words: str, options: Options, write: Callable[[str | bytes], None], narrate: Say) -> int:
    """Print a tree; where it cannot be read, tell what the linter finds. Return the exit code."""
    form = options.form or ENDINGS.get(options.to.suffix.lower() if options.to else "", "text")
    if options.to and options.to.suffix in (".yaml", ".yml"):
        raise Usage(f'--to: "{options.to}" is the name of a tree. Name another file, as sheet.pdf.')
    library, name = find(words, "print")
    if form == "pdf" and not options.to and sys.stdout.isatty():
        raise Usage(f"A terminal shows no PDF. Say where to: shorewalk print {name} --to {name}.pdf")
    try:
        sheet = checklist(library, name)
    except TreeError:
        report = lint_paths([words]) if words.endswith(".yaml") else None
        if report is None or not report.errors:  # one of ours, or what no rule knows
            raise
        write(write_text(report))
        return report.exit()
    if sheet.lost:
        narrate(f"Left out, for nothing leads there: {', '.join(sheet.lost)}.")
    made = _made(sheet, form, options)
    if options.to is None:
        write(made)
        return Exit.CLEAN
    try:
        write_new(options.to, made.encode() if isinstance(made, str) else made)
    except FileExistsError:
        raise Usage(
            f'--to: there is a file "{options.to}" already. Name another one; nothing is written over.'
        ) from None
    except OSError as error:
        raise Usage(f'--to: "{options.to}" cannot be written: {error.strerror}.') from None
    narrate(f"Printed to {options.to}.")
    return Exit.CLEAN


def _made(sheet: Checklist, form: str, options: Options) -> str | bytes:
    if form == "pdf":
        from .as_pdf import as_pdf

        return as_pdf(sheet, made=options.made, paper=options.paper)
    if form == "markdown":
        from .as_markdown import as_markdown

        return as_markdown(sheet)
    return as_text(sheet, options.width, pages=options.to is not None)
