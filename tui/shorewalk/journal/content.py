"""What the trees of a walk are, as one short text: where it differs, something in them has changed."""

from __future__ import annotations

import re
from functools import lru_cache
from pathlib import Path

from shorewalk.tree.library import Library
from shorewalk.walk.walk import Walk

LENGTH = 16
PART = re.compile(rb"""\bpart: *["']?([a-z0-9-]+)""")


def content_of(walk: Walk) -> str | None:
    """Return what decides whether the answers of a walk still fit, or None where its trees are no files.

    That is every tree it was answered in, the parts in them, and all facts: texts and limits decide with them
    what a kept answer means.
    """
    library = walk.library
    if not isinstance(library, Library):
        return None
    trees = {walk.tree, *(answered.tree for answered in walk.answers)}
    try:
        return summed("".join(_content(library, name) for name in sorted(trees)).encode())
    except OSError:  # they are gone meanwhile; the walk has read them
        return None


@lru_cache(maxsize=32)
def _content(library: Library, name: str) -> str:
    facts = [path for folder in library.site_folders for path in sorted(folder.glob("*.yaml"))]
    read = _with_parts(library, Path(library.tree(name).file)) | {path: path.read_bytes() for path in facts}
    # Where a file lies does not matter: a program that moved is the same program.
    return summed(b"\0".join(path.name.encode() + data for path, data in read.items()))


def _with_parts(library: Library, tree: Path) -> dict[Path, bytes]:
    """Return a tree's file and those of the parts in it; by their text, for most parts were not read yet."""
    read: dict[Path, bytes] = {}
    todo = [tree]
    while todo:
        path = todo.pop()
        if path in read:
            continue
        read[path] = path.read_bytes()
        parts = (library.part_file(part.decode()) for part in PART.findall(read[path]))
        todo += [part for part in parts if part]
    return read


def summed(data: bytes) -> str:
    """Return a short text that is the same for the same data, and for no other."""
    import hashlib  # not before there is something to keep

    return hashlib.blake2b(data, digest_size=LENGTH).hexdigest()
