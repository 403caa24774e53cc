"""Opening the author's preview of a file, or saying why it cannot be opened."""

from __future__ import annotations

import sys
from pathlib import Path

from .author.seen import see
from .preview_app import PreviewApp
from .starting import Usage, find
from .tree.words import choose_from, quoted


def preview_file(name: str, node: str | None) -> int:
    """Open the preview of a file, or of a tree by its name; raise `Usage` where that cannot be done."""
    file = _file_of(name)
    if node and (seen := see(file)).walked and node not in seen.walked.nodes:
        raise Usage(f"There is no node {quoted(node)} to walk from.{choose_from(node, seen.walked.nodes)}")
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise Usage(f"The preview needs a terminal, and there is none here. Instead: shorewalk lint {file}")
    return PreviewApp(file, node).run() or 0


def _file_of(name: str) -> Path:
    file = Path(name)
    if file.suffix != ".yaml" and not file.exists():
        library, tree = find(name, "preview")
        return library.folder / f"{tree}.yaml"
    if not file.is_file():
        what = "is a folder" if file.is_dir() else "is not there"
        raise Usage(f"{file} {what}. Name the file of one tree or part, ending in .yaml.")
    if file.suffix != ".yaml" or file.parent.name == "site":
        raise Usage(f"{file} is no tree and no part. Name a file that ends in .yaml, outside site/.")
    return file
