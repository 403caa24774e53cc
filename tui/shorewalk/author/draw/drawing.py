"""A tree as boxes and arrows, in words, before any format is known."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, TypeAlias

from shorewalk.marks import Mark, grade_mark
from shorewalk.tree.model import AGAIN

from .rows import GLUE

if TYPE_CHECKING:
    import networkx as nx

    Graph: TypeAlias = nx.MultiDiGraph[str]

LEAVES = ("end", "jump", "exit")
"""Kinds of box with no way out of them."""


@dataclass(frozen=True, slots=True)
class Box:
    """A node as drawn. `kind`: ask, step, measure, work, tally, judge, part, jump, end or exit.

    `mark` is an ending's; `inside` the endings of a closed part with how many there are of each; `unseen`
    says how many ways out of it are left out of the drawing.
    """

    name: str
    kind: str
    says: str
    words: tuple[str, ...] = ()
    mark: Mark | None = None
    inside: tuple[tuple[Mark, int], ...] = ()
    unseen: int = 0

    def lines(self, *, ascii_only: bool = False) -> list[str]:
        """Return what stands in the box below its heading, a sentence each."""
        rows = list(self.words)
        if self.inside:
            ends = (
                f"{mark.cell(ascii_only=ascii_only)}{GLUE}{mark.word} ({count})"
                for mark, count in self.inside
            )
            rows.append(f"May end inside: {', '.join(ends)}.")
        if self.unseen:
            rows.append(f"Not drawn from here: {self.unseen} {'way' if self.unseen == 1 else 'ways'}.")
        return rows

    def heading(self, *, ascii_only: bool = False) -> str:
        """Return name and kind; of an ending its mark, verdict and name."""
        if self.mark:
            return f"{self.mark.cell(ascii_only=ascii_only)} {self.mark.word}: {self.name}"
        return f"{self.name} ({self.says})"


def room_of(name: str) -> str:
    """Return the names of the parts that an opened node stands in: `load_outlet_50.sockets`."""
    return name.rpartition(".")[0]


def near(name: str, source: str) -> str:
    """Return a name as it is said in the box `source`: without the part, where both stand in the same one."""
    return name.rpartition(".")[2] if room_of(name) == room_of(source) else name


@dataclass(frozen=True, slots=True)
class Arrow:
    """A way from box to box: what it is called in the author's words, and the grade it gives."""

    source: str
    target: str
    key: str  # the way's label: `choose dry`, `band 2` ...
    says: str
    grade: str | None = None
    leaves: str = ""  # the state it leaves behind

    def words(self, *, ascii_only: bool = False, loop: bool = False) -> str:
        """Return the way's words; then its grade as mark and word, what it leaves, whether it closes a loop."""
        more = []
        if self.grade:
            mark = grade_mark(self.grade, void=self.grade == AGAIN)
            more.append(f"{mark.cell(ascii_only=ascii_only)} {mark.word}")
        if self.leaves:
            more.append(f"leaves {self.leaves}")
        if loop:
            more.append("loop")
        return f"{self.says} ({'; '.join(more)})" if more else self.says


@dataclass(frozen=True)
class Drawing:
    """Boxes in the order written, and arrows between them, in the order of the ways."""

    title: str
    about: str
    begin: str
    boxes: Mapping[str, Box]
    arrows: tuple[Arrow, ...]

    @cached_property
    def graph(self) -> Graph:
        """The boxes as nodes and the arrows as edges."""
        import networkx as nx

        made: Graph = nx.MultiDiGraph()
        made.add_nodes_from(self.boxes)
        for arrow in self.arrows:
            made.add_edge(arrow.source, arrow.target, key=arrow.key)
        return made

    @cached_property
    def place(self) -> Mapping[str, int]:
        """Each box's place in an order where only loops lead back; what nothing leads to comes last."""
        import networkx as nx

        order: dict[str, int] = {}
        for root in (self.begin, *self.boxes):
            if root not in order:
                left = self.graph.subgraph(name for name in self.graph if name not in order)
                found = reversed(list(nx.dfs_postorder_nodes(left, root)))
                order |= {name: at for at, name in enumerate(found, len(order))}
        return order

    def leads_back(self, arrow: Arrow) -> bool:
        """Tell whether an arrow closes a loop."""
        import networkx as nx

        back = self.place[arrow.target] <= self.place[arrow.source]
        return back and nx.has_path(self.graph, arrow.target, arrow.source)

    @cached_property
    def loops(self) -> frozenset[Arrow]:
        """The arrows that close a loop: without them there is none."""
        return frozenset(arrow for arrow in self.arrows if self.leads_back(arrow))
