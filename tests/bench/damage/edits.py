"""One damage to one file: which kind, where, and what it changes in the plain data of the file."""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

Keys = tuple[str | int, ...]
Edit = tuple[Keys, Any]
"""A route from the top of the file, and what stands there afterwards; `None` takes the key out."""

Data = dict[str, Any]


class Damage(NamedTuple):
    """A slip somebody may make. `file` as it stands in the folder (`parts/skin.yaml`), `where` in words."""

    kind: str
    file: str
    where: str
    edits: tuple[Edit, ...]

    @property
    def id(self) -> str:
        """A name that stays the same from run to run."""
        return f"{self.kind} {self.file} {self.where}"

    def applied(self, data: Data) -> Data:
        """Return the file's data with the damage done."""
        damaged = copy.deepcopy(data)
        for route, value in self.edits:
            around: Any = damaged
            for step in route[:-1]:
                around = around[step]
            if value is None:
                del around[route[-1]]
            else:
                around[route[-1]] = copy.deepcopy(value)
        return damaged

    def node(self) -> str:
        """The first node that is changed; nothing where it is the head of the file."""
        return next((str(route[1]) for route, _ in self.edits if route[0] == "nodes"), "")


Seeds = Iterator[tuple[str, tuple[Edit, ...]]]
"""Every place in one file where a kind of damage fits: in words, and what it changes."""

Kind = Callable[..., Seeds]
