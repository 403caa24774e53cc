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

    def changes(self, data: Data) -> bool:
        """Tell whether the file would not stay as it is."""
        return any(_at(data, route) != value for route, value in self.edits)


def _at(data: Any, route: Keys) -> Any:
    for step in route:
        data = data.get(step) if isinstance(data, dict) else data[step]
    return data


Seeds = Iterator[tuple[str, tuple[Edit, ...]]]
"""Every place in one file where a kind of damage fits: in words, and what it changes."""

Kind = Callable[..., Seeds]
