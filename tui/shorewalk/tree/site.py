"""Reading `trees/site/*.yaml`, the facts all trees share, into frozen dataclasses; without pydantic.

Like `build.py` it trusts that `check.py` has been over the files, and refuses what it cannot understand.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cache
from math import isfinite
from pathlib import Path
from typing import TypeVar

from .facts import (
    Appliance,
    Caution,
    Cut,
    Fault,
    Limit,
    Look,
    Pair,
    PlaceFact,
    Quantity,
    Result,
    Sign,
    Site,
    State,
    Terminal,
)
from .model import Route
from .source import Data, Place, Problem, Source, TreeError, read_source
from .take import Mistake, maybe, take_list, take_map, take_pairs, take_word, take_words
from .words import quoted

Fact = TypeVar("Fact")
Map = dict[str, Data]

FILES = ("limits", "places", "grades", "signs", "states", "loads", "cautions", "faults")
"""The files of `trees/site/`, without their ending."""


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


def read_site(folder: Path) -> Site:
    """Return the facts in `folder`, each file read when first wanted; a file that is not there holds none.

    Raises `TreeError` when a file cannot be understood, then.
    """
    return build_site(lambda name: read_file(folder / f"{name}.yaml"))


def build_site(source: Callable[[str], Source | None]) -> Site:
    """Return the facts in the files that `source` gives by the names of `FILES`."""
    grades = cache(lambda: source("grades"))

    def facts(file: str, make: Callable[[str, Map, Route], Fact]) -> Facts[Fact]:
        return Facts(lambda: _facts(source(file), make))

    return Site(
        limits=facts("limits", _limit),
        places=facts("places", _place),
        quantities=Facts(lambda: _facts(grades(), _quantity, "quantities")),
        results=Facts(lambda: _facts(grades(), _result, "results")),
        signs=facts("signs", _sign),
        states=facts("states", _state),
        loads=facts("loads", _load),
        cautions=facts("cautions", _caution),
        faults=facts("faults", _fault),
    )


def read_file(path: Path) -> Source | None:
    """Return one file, or `None` where there is none."""
    try:
        return read_source(path.read_bytes(), str(path))
    except FileNotFoundError:
        return None
    except OSError as error:
        place = Place(str(path), 1, 1)
        raise TreeError([Problem(place, f"The file cannot be read ({error.strerror}).")]) from None


def _facts(source: Source | None, make: Callable[[str, Map, Route], Fact], *below: str) -> dict[str, Fact]:
    if source is None:
        return {}
    try:
        data: Data = source.data
        for key in below:
            data = take_map(data, ()).get(key, {})
        found = take_map(data, below)
        return {
            name: make(name, take_map(fact, (*below, name)), (*below, name)) for name, fact in found.items()
        }
    except Mistake as mistake:
        place = source.place(mistake.route, key=mistake.key)
        raise TreeError([Problem(place, mistake.message)]) from None


def _word(data: Map, key: str, route: Route) -> str:
    return take_word(data.get(key), (*route, key))


def _number(data: Data | None, route: Route) -> float:
    word = take_word(data, route)
    try:
        number = float(word) if word.isascii() and "_" not in word else float("nan")
    except ValueError:
        number = float("nan")
    if not isfinite(number):
        raise Mistake(route, f"{quoted(word)} is not a number. Write digits, with a point where needed.")
    return number


def _span(data: Data, route: Route) -> tuple[float, float]:
    ends = take_list(data, route)
    if len(ends) != 2:
        raise Mistake(route, f"{len(ends)} numbers stand here. Write two, the low one first.")
    low, high = (_number(end, (*route, at)) for at, end in enumerate(ends))
    if low > high:
        raise Mistake(route, f"{low:g} is over {high:g}. Write the low number first.")
    return low, high


def _limit(name: str, data: Map, route: Route) -> Limit:
    value = _number(data.get("value"), (*route, "value"))
    unit, kind, says, source = (_word(data, key, route) for key in ("unit", "kind", "says", "source"))
    return Limit(name, value, unit, kind, says, source)


def _place(name: str, data: Map, route: Route) -> PlaceFact:
    looks = take_map(data.get("looks", {}), (*route, "looks"))
    return PlaceFact(
        name,
        _word(data, "says", route),
        _word(data, "kind", route),
        _word(data, "at", route),
        {
            key: Terminal(
                key, *(_word(take_map(slot, (*at, key)), word, (*at, key)) for word in ("role", "says"))
            )
            for at in ((*route, "terminals"),)
            for key, slot in take_map(data.get("terminals"), at).items()
        },
        maybe(take_word, data, "face", route),
        {
            key: _look(key, take_map(look, (*route, "looks", key)), (*route, "looks", key))
            for key, look in looks.items()
        },
        take_words(data, "hidden", route),
    )


def _look(name: str, data: Map, route: Route) -> Look:
    place = str(route[0])
    pairs = []
    for at, word in enumerate(take_words(data, "pairs", route)):
        match word.split():
            case [one, other]:
                pairs.append(Pair(place, one, other))
            case [elsewhere, one, other]:
                pairs.append(Pair(elsewhere, one, other))
            case _:
                what = f'{quoted(word)} is not a pair. Write "L N", or "rig-outlet-a L N" for another place.'
                raise Mistake((*route, "pairs", at), what)
    return Look(
        name,
        tuple(pairs),
        maybe(take_word, data, "load", route) or "none",
        take_words(data, "shows", route),
        take_pairs(data, "voided_by", route),
    )


def _quantity(name: str, data: Map, route: Route) -> Quantity:
    between = take_words(data, "between", route)
    if len(between) != 2:
        raise Mistake((*route, "between"), "Write two roles here, as in [hot, neutral].")
    return Quantity(
        id=name,
        says=_word(data, "says", route),
        unit=_word(data, "unit", route),
        what=_word(data, "what", route),
        between=(between[0], between[1]),
        at=maybe(take_word, data, "at", route),
        load=take_words(data, "load", route),
        breaker=maybe(take_word, data, "breaker", route),
        side=maybe(take_word, data, "side", route),
        normal=maybe(take_word, data, "normal", route),
        expects=maybe(_span, data, "expects", route),
        plausible=maybe(_span, data, "plausible", route) or (0.0, 600.0),
        small=bool(maybe(_yes, data, "small", route)),
        floor=_floor(data, route),
    )


def _result(name: str, data: Map, route: Route) -> Result:
    says, unit = _word(data, "says", route), _word(data, "unit", route)
    return Result(name, says, unit, bool(maybe(_yes, data, "small", route)), _floor(data, route))


def _yes(data: Data, route: Route) -> bool:
    word = take_word(data, route)
    if word not in ("yes", "no"):
        raise Mistake(route, f'{quoted(word)} is neither "yes" nor "no".')
    return word == "yes"


def _floor(data: Map, route: Route) -> tuple[Cut, ...]:
    inner = (*route, "floor")
    cuts = (
        (take_map(cut, (*inner, at)), (*inner, at))
        for at, cut in enumerate(take_list(data.get("floor", []), inner))
    )
    return tuple(
        Cut(*(maybe(take_word, cut, key, at) for key in ("grade", "below", "upto"))) for cut, at in cuts
    )


def _sign(name: str, data: Map, route: Route) -> Sign:
    answers = take_map(data.get("answers"), (*route, "answers"))
    return Sign(
        name,
        _word(data, "says", route),
        _word(data, "by", route),
        maybe(take_word, data, "at", route),
        {
            key: take_word(grade, (*route, "answers", key)) if grade else None
            for key, grade in answers.items()
        },
        maybe(take_word, data, "side", route),
    )


def _state(name: str, data: Map, route: Route) -> State:
    groups = take_map(data.get("groups", {}), (*route, "groups"))
    resets = take_map(data.get("resets", {}), (*route, "resets"))
    return State(
        name,
        _word(data, "says", route),
        take_words(data, "values", route),
        {key: take_words(groups, key, (*route, "groups")) for key in groups},
        maybe(take_word, data, "touches", route),
        {key: take_pairs(resets, key, (*route, "resets")) for key in resets},
    )


def _load(name: str, data: Map, route: Route) -> Appliance:
    says, follows, source = (_word(data, key, route) for key in ("says", "follows", "source"))
    watts, starting = _span(data.get("watts", []), (*route, "watts")), maybe(_span, data, "starting", route)
    return Appliance(name, says, watts, follows, source, starting)


def _caution(name: str, data: Map, route: Route) -> Caution:
    return Caution(name, *(_word(data, key, route) for key in ("text", "short", "source")))


def _fault(name: str, data: Map, route: Route) -> Fault:
    return Fault(name, _word(data, "says", route))
