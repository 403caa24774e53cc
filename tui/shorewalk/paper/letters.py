"""Text in the letters that every PDF reader has fonts for (Latin-1), so that no font has to be found or carried.

The core fonts and their encoding: ISO 32000-1, 9.6.2.2 and annex D.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Callable

MARKS = {"✓": "+", "▲": "~", "■": "#", "✕": "X", "·": ".", "○": "o", "↻": "@", "•": "-"}
"""The marks as where a terminal shows ASCII only."""

DASHES = dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-")
QUOTES = {"\u2018": "'", "\u2019": "'", "\u2032": "'", "\u201c": '"', "\u201d": '"', "\u2033": '"'}
MATHS = {
    "\u03a9": "ohm",
    "\u2126": "ohm",
    "≤": "<=",
    "≥": ">=",
    "≠": "!=",
    "→": "->",
    "√": "sqrt ",
    "Δ": "delta ",
    "φ": "phi",
    "∞": "infinity",
    "…": "...",
    "\u2044": "/",
}
WORDS = MARKS | DASHES | QUOTES | MATHS
"""Signs and what stands for them."""


GSM = frozenset(
    "@£$¥èéùìòÇ\nØøÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !\"#¤%&'()*+,-./0123456789:;<=>?¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿"
    "abcdefghijklmnopqrstuvwxyzäöñüà"
)
"""The letters of a text message that take one place each (3GPP TS 23.038, the default alphabet)."""

FORMS = ("<wide>", "<font>")
"""Unicode's kinds of letters that are another shape of one: their digits are digits like others."""

BRACKETS = str.maketrans("[]{}`^~|\\", "()()'-- /")


def plain_letters(text: str) -> str:
    """Return `text` in Latin-1: other letters without their accents, signs in words, the rest as `?`."""
    if text.isascii():
        return text
    return _each(text, _in_latin)


def message_letters(text: str) -> str:
    """Return `text` in one line of letters of which a text message holds 160."""
    line = text.translate(BRACKETS)
    if not line.isascii():
        line = _each(line, GSM.__contains__)
    return " ".join("".join(letter if letter.isprintable() else " " for letter in line).split())


def _each(text: str, fits: Callable[[str], bool]) -> str:
    return "".join(
        letter if fits(letter) else _one(letter, fits, text[at - 1 : at], text[at + 1 : at + 2])
        for at, letter in enumerate(text)
    )


def _one(letter: str, fits: Callable[[str], bool], before: str, after: str) -> str:
    """Return what stands for a letter between its neighbours; `?` where it would make another number of theirs."""
    if letter in WORDS:
        return WORDS[letter]
    parts = unicodedata.normalize("NFKD", letter).replace("\u2044", "/")
    taken = "".join(part for part in parts if fits(part))
    beside = (_digit(before, -1), _digit(after, 0))
    digits = sum(map(str.isdigit, taken))
    if "/" in taken and digits:  # a fraction; one of them stands before its lower number: 1/
        return " " * beside[0] + taken + " " * (beside[1] and not taken.endswith("/"))
    if unicodedata.decomposition(letter).startswith(FORMS) or not digits:
        lost = "" if unicodedata.combining(letter) or unicodedata.category(letter).startswith("C") else "?"
        return taken or lost
    return "?" if digits > 1 or any(beside) else taken


def _digit(letter: str, end: int) -> bool:
    return bool(letter) and unicodedata.normalize("NFKD", letter)[end].isdigit()


def _in_latin(letter: str) -> bool:
    return " " <= letter <= "~" or "\xa0" <= letter <= "\xff" or letter == "\n"
