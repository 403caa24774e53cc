"""Reading `trees/site/*.yaml`, the facts all trees share; without pydantic, and each file when first wanted.

Like `build.py` it trusts that `check.py` has been over the files, and refuses what it cannot understand.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from .fact_makers import (
    Map,
    make_caution,
    make_fault,
    make_heading,
    make_limit,
    make_load,
    make_place,
    make_quantity,
    make_result,
    make_sign,
    make_state,
)
from .facts import Site
from .layers import layered
from .model import Route
from .source import Data, Problem, Source, TreeError, read_bytes, read_source, stands
from .take import Mistake, take_map

if TYPE_CHECKING:
    from .safety import SafetyRule

Fact = TypeVar("Fact")

FILES = (
    *("limits", "places", "grades", "signs", "states"),
    *("loads", "cautions", "faults", "headings", "safety"),
)
"""The files of `trees/site/`, without their ending."""


ALLOWS = "allows"
"""The key in a file of facts that is none: what the linter shall not tell there."""


class Facts(Mapping[str, Fact]):
    """Facts by id, made when one is first wanted: a walk reads only the files it comes to need."""

    def __init__(self, make: Callable[[], dict[str, Fact]]) -> None:
        self._make: Callable[[], dict[str, Fact]] | None = make
        self._made: dict[str, Fact] = {}

    def _all(self) -> dict[str, Fact]:
        if self._make:
            self._made, self._make = self._make(), None
        return self._made

    def __getitem__(self, name: str) -> Fact:
        return self._all()[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._all())

    def __len__(self) -> int:
        return len(self._all())

    def __repr__(self) -> str:
        return repr(self._all())


def read_site(*layers: Path) -> Site:
    """Return the facts in these folders, each file read when first wanted; a file that is not there holds none.

    A later folder adds to those before; where both have an id, the later's fact counts. Raises `TreeError`
    when a file cannot be understood, then.
    """
    return build_site(lambda name: read_layers(layers, name))


def read_layers(layers: Sequence[Path], name: str) -> list[Source]:
    """Return a file of facts as each of these folders has it, in their order."""
    found = (read_file(folder / f"{name}.yaml") for folder in layers)
    return [source for source in found if source]


def build_site(sources: Callable[[str], Sequence[Source]]) -> Site:
    """Return the facts in the files that `sources` gives, layer by layer, by the names of `FILES`."""
    grades = cache(lambda: sources("grades"))

    def facts(file: str, make: Callable[[str, Map, Route], Fact]) -> Facts[Fact]:
        return Facts(lambda: _facts(sources(file), make))

    return Site(
        limits=facts("limits", make_limit),
        places=facts("places", make_place),
        quantities=Facts(lambda: _facts(grades(), make_quantity, "quantities")),
        results=Facts(lambda: _facts(grades(), make_result, "results")),
        signs=facts("signs", make_sign),
        states=facts("states", make_state),
        loads=facts("loads", make_load),
        cautions=facts("cautions", make_caution),
        faults=facts("faults", make_fault),
        headings=facts("headings", make_heading),
        safety=Facts(lambda: _safety(sources("safety"))),
    )


def _safety(sources: Sequence[Source]) -> dict[str, SafetyRule]:
    from .safety import make_safety  # no walk needs it

    return layered((facts_of(source, make_safety) for source in sources), firm=True)


def read_file(path: Path) -> Source | None:
    """Return one file, or `None` where there is none."""
    return read_source(read_bytes(path), str(path)) if stands(path) else None


def _facts(
    sources: Sequence[Source], make: Callable[[str, Map, Route], Fact], *below: str
) -> dict[str, Fact]:
    return layered(facts_of(source, make, *below) for source in sources)


def facts_of(source: Source, make: Callable[[str, Map, Route], Fact], *below: str) -> dict[str, Fact]:
    """Return what `make` makes of each fact in a file, or under a key of it; raise `TreeError` for what it cannot."""
    try:
        data: Data = source.data
        for key in below:
            data = take_map(data, ()).get(key, {})
        found = take_map(data, below)
        return {
            name: make(name, take_map(fact, (*below, name)), (*below, name))
            for name, fact in found.items()
            if below or name != ALLOWS
        }
    except Mistake as mistake:
        place = source.place(mistake.route, key=mistake.key)
        raise TreeError([Problem(place, mistake.message)]) from None
