"""What the trees of a walk are, as one short text: where it differs, something in them has changed."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from shorewalk.tree.library import Library
from shorewalk.walk.walk import Walk

LENGTH = 16


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
        return _summed("".join(_content(library, name) for name in sorted(trees)).encode())
    except OSError:  # they are gone meanwhile; the walk has read them
        return None


@lru_cache(maxsize=32)
def _content(library: Library, name: str) -> str:
    tree = library.tree(name)
    files = {tree.file, *(node.file for node in tree.nodes.values())}
    facts = [path for folder in library.site_folders for path in sorted(folder.glob("*.yaml"))]
    # Where a file lies does not matter: a program that moved is the same program.
    read = [path.name.encode() + path.read_bytes() for path in (*map(Path, sorted(files)), *facts)]
    return _summed(b"\0".join(read))


def _summed(data: bytes) -> str:
    import hashlib  # not before there is something to keep

    return hashlib.blake2b(data, digest_size=LENGTH).hexdigest()
