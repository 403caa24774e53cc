"""Taking a file's objects apart: every key known, every value of its kind and size, every text plain to see."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from typing import Any

from shorewalk.seen import INSTEAD, can_be_seen, first_unseen
from shorewalk.tree.words import choose_from, quoted

from .handed import LONGEST, NotTaken

MOST_MARKS = 2
"""Combining marks in a row, as Vietnamese has them; more of them cover the lines above."""


class Fields:
    """The keys of one object. `where` names it in a refusal: `answer 12`."""

    def __init__(self, data: object, where: str, known: Iterable[str]) -> None:
        self.where, known = where, tuple(known)
        if not isinstance(data, dict):
            raise NotTaken(f"Of {where} an object is wanted, not {kind_of(data)}.")
        self._data: dict[str, Any] = data
        if wrong := [key for key in data if key not in known]:
            shown = quoted(shown_of(str(wrong[0])))
            raise NotTaken(f"There is no key {shown} in {where}.{choose_from(str(wrong[0]), known)}")

    def text(self, name: str, pattern: str | None = None) -> str:
        """Return a text that can be seen and is not too long."""
        value = self._data.get(name)
        if not isinstance(value, str) or not value:
            raise NotTaken(f"Of {self.where} {quoted(name)} is wanted as a text, not {kind_of(value)}.")
        check_text(value, f"{quoted(name)} of {self.where}")
        if pattern and not re.fullmatch(pattern, value):
            raise NotTaken(f"{quoted(name)} of {self.where} cannot be {quoted(shown_of(value))}.")
        return value

    def maybe(self, name: str, pattern: str | None = None) -> str | None:
        """Return a text, or None where there is none."""
        return self.text(name, pattern) if name in self._data else None

    def number(self, name: str, most: int) -> int:
        """Return a whole number from 1 to `most`."""
        value = self._data.get(name)
        if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= most:
            raise NotTaken(f"Of {self.where} {quoted(name)} is wanted as a number from 1 to {most}.")
        return value

    def flag(self, name: str) -> bool:
        """Return true or false."""
        value = self._data.get(name)
        if not isinstance(value, bool):
            raise NotTaken(f"Of {self.where} {quoted(name)} is wanted as true or false.")
        return value

    def some(self, name: str, most: int) -> list[Any]:
        """Return a list of at least one and at most `most`."""
        value = self._data.get(name)
        if not isinstance(value, list) or not 1 <= len(value) <= most:
            raise NotTaken(f"Of {self.where} {quoted(name)} is wanted as a list of 1 to {most}.")
        return value

    def rest(self, *names: str) -> dict[str, Any]:
        """Return the object without these keys."""
        return {key: value for key, value in self._data.items() if key not in names}


def check_text(text: str, where: str) -> None:
    """Refuse a text that is too long, or holds what cannot be seen."""
    if len(text) > LONGEST:
        raise NotTaken(f"{where[:1].upper()}{where[1:]} has {len(text)} letters; at most {LONGEST} are read.")
    if (at := first_unseen(text)) is not None:
        raise NotTaken(
            f"In {where} stands U+{ord(text[at]):04X}, which cannot be seen or turns the text about."
        )
    kinds = "".join(unicodedata.category(letter)[0] for letter in text)
    if "M" * (MOST_MARKS + 1) in kinds:
        raise NotTaken(f"In {where} more than {MOST_MARKS} accents stand on one letter.")


def shown_of(text: str) -> str:
    """Return the beginning of a text that nobody has checked yet, as letters that can be shown."""
    shown = "".join(letter if can_be_seen(letter) else INSTEAD for letter in text[:41])
    return shown if len(shown) <= 40 else f"{shown[:40]}..."


def kind_of(value: object) -> str:
    """Return what a value is, in a word or two."""
    names = {
        dict: "an object",
        list: "a list",
        str: "an empty text" if value == "" else "a text",
        bool: "true or false",
    }
    return names.get(type(value), "a number" if isinstance(value, int | float) else "nothing")
