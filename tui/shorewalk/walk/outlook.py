"""About how many steps are left, where nothing goes wrong from here on."""

from __future__ import annotations

from collections.abc import Mapping

from shorewalk.tree.model import ALLOW_USE, Ask, End, Jump, Measure, Node, Step, Tally, Tree, ways_out

BAD_WAYS = ("unsure", "unable", "cannot", "missing", "spent")
BAD_GRADES = ("stop", "danger", "again")
Left = tuple[int, int]


def good_ways(node: Node) -> list[str]:
    """Return the nodes that follow where nothing goes wrong."""
    ways = ways_out(node)
    return list(
        dict.fromkeys(
            way.goto for label, way in ways if label not in BAD_WAYS and way.grade not in BAD_GRADES
        )
    )


def all_ways(node: Node) -> list[str]:
    """Return all nodes that follow."""
    return list(dict.fromkeys(way.goto for _, way in ways_out(node)))


class Outlook:
    """Steps left from every node of one tree, worked out when first asked."""

    def __init__(self, tree: Tree) -> None:
        self._tree = tree
        self._used: dict[str, Left | None] = {}
        self._good: dict[str, Left | None] = {}
        self._all: dict[str, Left | None] = {}

    def left(self, name: str) -> Left:
        """Return the least and the most questions from here to an ending, this one included.

        Where an ending that allows use can still be reached, the way there counts: that somebody may
        stop at once would make every walk look short.
        """
        found = (
            self._count(name, self._used, good=True, only=ALLOW_USE)
            or self._count(name, self._good, good=True)
            or self._count(name, self._all, good=False)
        )
        return found or (0, 0)

    def _count(
        self, begin: str, memo: dict[str, Left | None], *, good: bool, only: tuple[str, ...] = ()
    ) -> Left | None:
        """Count by depth first, without recursion; a way back into a loop does not count again.

        First from where the tree begins: a walk that is taken up in the middle counts as it did before.
        """
        nodes: Mapping[str, Node] = self._tree.nodes
        after = good_ways if good else all_ways
        opened: set[str] = set()
        stack = [(begin, False), (self._tree.begin, False)]
        while stack:
            name, ready = stack.pop()
            if name in memo or (name in opened and not ready):
                continue
            node = nodes.get(name)
            if node is None:
                memo[name] = None
                continue
            if isinstance(node, End | Jump):
                counts_here = not only or (isinstance(node, End) and node.verdict in only)
                memo[name] = (0, 0) if counts_here else None
                continue
            follow = after(node)
            if not ready:
                opened.add(name)
                stack.append((name, True))
                stack += [(other, False) for other in reversed(follow)]
                continue
            counts = [count for other in follow if (count := memo.get(other)) is not None]
            asks = int(isinstance(node, Ask | Step | Measure | Tally))
            memo[name] = (
                (min(low for low, _ in counts) + asks, max(high for _, high in counts) + asks)
                if counts
                else None
            )
        return memo[begin]
