"""Taking words, lists and mappings out of plain data, or saying where something else was found."""

from __future__ import annotations

from collections.abc import Callable
from math import isfinite
from typing import TypeVar

from .model import Pairs, Route
from .source import Data
from .words import choose_from, quoted

Taken = TypeVar("Taken")


class Mistake(Exception):  # noqa: N818 - it is turned into a TreeError where the file is known
    """Something at `route` (or its key) that cannot be understood."""

    def __init__(self, route: Route, message: str, *, key: bool = False) -> None:
        super().__init__(message)
        self.route, self.message, self.key = route, message, key


def take_word(data: Data | None, route: Route) -> str:
    """Return a word or sentence that is not empty."""
    if isinstance(data, str) and data.strip():
        return data
    raise _wrong(data, route, "words")


def take_yes(data: Data | None, route: Route) -> bool:
    """Return whether it is "yes"; it may also be "no"."""
    word = take_word(data, route)
    if word not in ("yes", "no"):
        raise Mistake(route, f'{quoted(word)} is neither "yes" nor "no".')
    return word == "yes"


def take_list(data: Data | None, route: Route) -> list[Data]:
    """Return a list."""
    if isinstance(data, list):
        return data
    raise _wrong(data, route, "a list")


def take_map(data: Data | None, route: Route) -> dict[str, Data]:
    """Return keys and values."""
    if isinstance(data, dict):
        return data
    raise _wrong(data, route, "keys and values")


def take_words(data: dict[str, Data], key: str, route: Route) -> tuple[str, ...]:
    """Return the list of words at `key`, empty where there is none."""
    if key not in data:
        return ()
    return tuple(
        take_word(word, (*route, key, at)) for at, word in enumerate(take_list(data[key], (*route, key)))
    )


def take_pairs(data: dict[str, Data], key: str, route: Route) -> Pairs:
    """Return names and values at `key` in the order written, empty where there are none."""
    if key not in data:
        return ()
    pairs = take_map(data[key], (*route, key))
    return tuple((name, take_word(value, (*route, key, name))) for name, value in pairs.items())


def take_number(data: Data | None, route: Route) -> float:
    """Return a finite number."""
    word = take_word(data, route)
    try:
        number = float(word) if word.isascii() and "_" not in word else float("nan")
    except ValueError:
        number = float("nan")
    if not isfinite(number):
        raise Mistake(route, f"{quoted(word)} is not a number. Write digits, with a point where needed.")
    return number


def maybe(
    take: Callable[[Data, Route], Taken], data: dict[str, Data], key: str, route: Route
) -> Taken | None:
    """Return what `take` makes of the value at `key`, or `None` where there is none."""
    return take(data[key], (*route, key)) if key in data else None


def take_only(data: dict[str, Data], allowed: frozenset[str], route: Route) -> None:
    """Refuse keys that are not `allowed`."""
    for key in data:
        if key not in allowed:
            what = f"The key {quoted(key)} is not known here.{choose_from(key, allowed)}"
            raise Mistake((*route, key), what, key=True)


def _wrong(data: Data | None, route: Route, wanted: str) -> Mistake:
    name = route[-1] if route else "the file"
    if data is None:
        return Mistake(route, f"{quoted(name)} is missing here. Write it with {wanted}.", key=True)
    if data == "":
        return Mistake(route, f"{quoted(name)} is empty. Write {wanted}, or leave the key out.", key=True)
    found = (
        quoted(data) if isinstance(data, str) else "a list" if isinstance(data, list) else "keys and values"
    )
    return Mistake(route, f"{quoted(name)} wants {wanted}; found {found}.")
