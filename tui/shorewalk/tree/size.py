"""How large a tree is with its parts put in, told before any of them is: ten parts in each other can be millions."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from .model import Use, Written
from .scope import DEEPEST_USE, Desk

MOST_NODES = 100_000
"""Ten times the largest tree that the benchmark lints, and ninety times the largest that comes with the program."""


def refuse_too_large(written: Written, parts: Callable[[str], Written], desk: Desk) -> None:
    """Note on the desk, and raise, where a tree has more than `MOST_NODES` with its parts put in."""

    @cache
    def put_in(part: str, deep: int) -> int:
        if deep > DEEPEST_USE:  # told where it is put in
            return 0
        try:
            return size(parts(part), deep)
        except KeyError:
            return 0

    def size(file: Written, deep: int) -> int:
        uses = (put_in(node.part, deep + 1) for node in file.nodes.values() if isinstance(node, Use))
        return len(file.nodes) + sum(uses)

    if (found := size(written, 0)) > MOST_NODES:
        first = next(
            node
            for node in written.nodes.values()
            if isinstance(node, Use) or len(written.nodes) > MOST_NODES
        )
        about = f"{found:,}" if found < 10**9 else "a billion or more"
        desk.tell(
            first,
            f"With its parts put in this {written.kind} has {about} nodes; at most {MOST_NODES:,} are read.",
        )
        desk.settle()
