"""Recorded walks as files: the answers somebody gave, and the ending they must lead to.

    walk: arrival
    about: ...
    meter: basic,tenths
    answers:
      - {at: before_you_start, done: "yes"}
      - {at: which_outlet, choose: "30"}
      - {at: sockets_30.hot_neutral, reading: "121.8"}
      - {at: running, running: {kettle: "1"}}
    ends: {at: ready, verdict: good-to-use, call: park}

`walk` names a shipped tree, or the file of another one, seen from this file: `../low-at-supper.yaml`.
An answer may leave `at` out, and have `time` and `confirmed` beside it as in JSON lines. `ends` names what
must hold of the ending; what it leaves out may be anything.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any, NamedTuple

from .tree.library import Library, shipped
from .tree.model import Route
from .tree.source import Data, Place, Problem, Source, TreeError, read_bytes, read_source
from .tree.words import choose_from, quoted
from .walk.answers import Answer, from_json
from .walk.meter import Meter, parse_meter
from .walk.walk import Refused

KEYS = ("walk", "about", "meter", "answers", "ends")
KINDS = ("choose", "reading", "running", "done", "cannot", "unable", "unsure")
BESIDE = ("at", "time", "confirmed")
ENDS = ("at", "verdict", "call", "first", "tree")


class Recorded(NamedTuple):
    """One file, read: what to begin, the answers with where they stand, the ending to expect."""

    file: str
    walk: str
    meter: Meter
    answers: tuple[tuple[Place, str | None, Answer, str | None], ...]  # place, `at`, answer, time
    ends: tuple[tuple[Place, str, str], ...]  # place, what of the ending, its value
    library: Library | None = None  # where the tree is, if its file was named


def read_recorded(path: Path, library: Library | None = None) -> Recorded:
    """Read a recorded walk; raise `TreeError` with all that is wrong in it."""
    library = library or shipped()
    source = read_source(read_bytes(path), str(path))
    return _Reader(source).read(library)


class _Reader:
    """Takes a file apart, collecting problems instead of stopping at the first."""

    def __init__(self, source: Source) -> None:
        self.source, self.problems = source, list[Problem]()

    def read(self, library: Library) -> Recorded:
        data = self.source.data
        self._known(data, (), KEYS)
        walk = self._word(data, ("walk",))
        own: Library | None = None
        if walk is not None and walk.endswith(".yaml"):
            file = Path(self.source.file).parent / walk
            own = library = Library(file.parent)
            walk = file.stem
        if walk is not None and walk not in library.names():
            self._wrong(("walk",), f"There is no tree {quoted(walk)}.{choose_from(walk, library.names())}")
        meter = self._meter(data)
        answers = self._list(data.get("answers", []), ("answers",))
        read = [self._answer(item, ("answers", n)) for n, item in enumerate(answers)]
        ends = self._mapping(data.get("ends"), ("ends",))
        self._known(ends, ("ends",), ENDS)
        wanted = [
            (self.source.place(("ends", name)), name, self._word(ends, ("ends", name)) or "") for name in ends
        ]
        if self.problems:
            raise TreeError(self.problems)
        assert walk is not None  # noqa: S101 (else there is a problem)
        return Recorded(self.source.file, walk, meter, tuple(a for a in read if a), tuple(wanted), own)

    def _meter(self, data: dict[str, Data]) -> Meter:
        text = data.get("meter", "basic")
        try:
            return parse_meter(text if isinstance(text, str) else "")
        except ValueError as error:
            self._wrong(("meter",), str(error))
            return parse_meter("basic")

    def _answer(self, item: Data, route: Route) -> tuple[Place, str | None, Answer, str | None] | None:
        given = self._mapping(item, route)
        self._known(given, route, (*KINDS, *BESIDE))
        at, time = (self._word(given, (*route, key)) if key in given else None for key in ("at", "time"))
        try:
            answer = from_json(_as_json({k: v for k, v in given.items() if k not in ("at", "time")}))
        except (Refused, ValueError) as error:
            self._wrong(route, str(error))
            return None
        return self.source.place(route), at, answer, time

    def _known(self, data: dict[str, Data], route: Route, known: Iterable[str]) -> None:
        for key in data:
            if key not in (known := tuple(known)):
                what = f"There is no key {quoted(key)} here.{choose_from(key, known)}"
                self.problems.append(Problem(self.source.place((*route, key), key=True), what))

    def _word(self, data: dict[str, Data], route: Route) -> str | None:
        value = data.get(str(route[-1]))
        if not isinstance(value, str) or not value:
            self._wrong(route, f'"{route[-1]}" is wanted here, as one word.')
            return None
        return value

    def _mapping(self, value: Data | None, route: Route) -> dict[str, Data]:
        if not isinstance(value, dict):
            self._wrong(route, "Keys and values are wanted here, as {key: value}.")
            return {}
        return value

    def _list(self, value: Data, route: Route) -> list[Data]:
        if not isinstance(value, list):
            self._wrong(route, "A list of answers is wanted here, each after a dash.")
            return []
        return value

    def _wrong(self, route: Route, what: str) -> None:
        self.problems.append(Problem(self.source.place(route), what))


def _as_json(given: dict[str, Data]) -> dict[str, Any]:
    """Return a typeless answer with the types JSON lines have."""
    typed: dict[str, Any] = dict(given)
    for key, value in given.items():
        if (
            isinstance(value, str)
            and value.casefold() in ("true", "yes")
            and key not in ("choose", "reading")
        ):
            typed[key] = True
        if key == "running" and isinstance(value, dict):
            numbers = {
                load: int(n) if isinstance(n, str) and n.isdecimal() else n for load, n in value.items()
            }
            typed[key] = numbers
    return typed
