"""Boxes grouped by the parts they stand in, for formats that draw a frame round a group."""

from __future__ import annotations

from collections.abc import Iterator

from .drawing import Box, Drawing

Tree = dict[str, "Tree | Box"]


def rooms(drawing: Drawing) -> Tree:
    """Return the boxes by local name, those of a part below the name of its use; names stay unique."""
    top: Tree = {}
    for name, box in drawing.boxes.items():
        *path, local = name.split(".")
        inner = top
        for use in path:
            found = inner.setdefault(f"{use}.", {})
            inner = found if isinstance(found, dict) else inner
        inner[local] = box
    return top


def framed(tree: Tree, deep: int = 1, path: str = "") -> Iterator[tuple[int, str, Box | None]]:
    """Yield boxes and frames in order: depth, full name, and the box; `None` opens a frame, "" closes it."""
    for key, inner in tree.items():
        if isinstance(inner, Box):
            yield deep, inner.name, inner
        else:
            yield deep, path + key.removesuffix("."), None
            yield from framed(inner, deep + 1, path + key)
            yield deep, "", None


def identifiers(drawing: Drawing) -> dict[str, str]:
    """Return a plain word for each box, letters, digits and underscores only, all different."""
    words: dict[str, str] = {}
    taken: set[str] = set()
    for name in drawing.boxes:
        word = "n_" + "".join(letter if letter.isascii() and letter.isalnum() else "_" for letter in name)
        while word in taken:
            word += "_"
        taken.add(word)
        words[name] = word
    return words
