"""Text for a terminal that shows ASCII only, letter for letter, so that nothing moves."""

from __future__ import annotations

import locale
import os
import re
import sys
import unicodedata
from collections.abc import Callable, Mapping
from functools import lru_cache

SIGNS = {
    **dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-"),
    **dict.fromkeys("\u2018\u2019\u2032", "'"),
    **dict.fromkeys("\u201c\u201d\u2033", '"'),
    "\u2026": ".",
    "\u2022": "-",
    "\u00b7": ".",
    "\u25b8": ">",
}
"""Signs, and what stands for them. Whatever has nothing that could stand for it is a `?`, never another letter."""

FORCED = ("C.UTF-8", "C.utf8", "UTF-8")
"""What Python sets LC_CTYPE to where the locale is C (PEP 538)."""
UTF_8 = re.compile(r"utf-?8", re.IGNORECASE)


@lru_cache(maxsize=512)
def in_ascii(text: str) -> str:
    """Return a line of text in as many ASCII letters as it takes cells: accents off, signs by others, the rest `?`."""
    if text.isascii():
        return text
    from rich.cells import (
        cell_len,
    )  # by which the library lays out; a letter may make the one before it wider

    plain = ""
    for end, letter in enumerate(text, 1):
        wide = cell_len(text[:end])
        plain = (plain + _one(letter, wide - len(plain)))[:wide]
    return plain


def _one(letter: str, wide: int) -> str:
    base = SIGNS.get(letter) or unicodedata.normalize("NFD", letter)[0]
    return base.ljust(wide, "?") if base.isascii() else "?" * wide


def says_utf_8(
    env: Mapping[str, str] = os.environ,
    *,
    forced: bool = bool(sys.flags.utf8_mode),
    there: Callable[[str], bool] | None = None,
) -> bool:
    """Tell whether the locale is one of UTF-8, by its name.

    Python takes C, and a locale that is not installed, for one: it is `forced` to, and says so in LC_CTYPE. Where the
    one of LANG is `there`, it was LC_CTYPE that said C, which comes before it.
    """
    letters, language = env.get("LC_CTYPE", ""), env.get("LANG", "")
    if not env.get("LC_ALL") and forced and letters in FORCED and language and (there or _there)(language):
        return False
    own = "" if forced and letters in FORCED else letters
    return bool(UTF_8.search(env.get("LC_ALL") or own or language))


def _there(name: str) -> bool:
    """Tell whether the system has this locale."""
    before = locale.setlocale(locale.LC_CTYPE)
    try:
        locale.setlocale(locale.LC_CTYPE, name)
    except locale.Error:
        return False
    locale.setlocale(locale.LC_CTYPE, before)
    return True
