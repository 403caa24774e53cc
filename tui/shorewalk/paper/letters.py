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
}
WORDS = MARKS | DASHES | QUOTES | MATHS
"""Signs and what stands for them."""


GSM = frozenset(
    "@£$¥èéùìòÇ\nØøÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !\"#¤%&'()*+,-./0123456789:;<=>?¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿"
    "abcdefghijklmnopqrstuvwxyzäöñüà"
)
"""The letters of a text message that take one place each (3GPP TS 23.038, the default alphabet)."""

BRACKETS = str.maketrans("[]{}`^~|\\", "()()'-- /")


def plain_letters(text: str) -> str:
    """Return `text` in Latin-1: other letters without their accents, signs in words, the rest as `?`."""
    if text.isascii():
        return text
    return "".join(_one(letter, _in_latin) for letter in text)


def message_letters(text: str) -> str:
    """Return `text` in one line of letters of which a text message holds 160."""
    line = text.translate(BRACKETS)
    if not line.isascii():
        line = "".join(letter if letter in GSM else _one(letter, GSM.__contains__) for letter in line)
    return " ".join("".join(letter if letter.isprintable() else " " for letter in line).split())


def _one(letter: str, fits: Callable[[str], bool]) -> str:
    if fits(letter):
        return letter
    if letter in WORDS:
        return WORDS[letter]
    taken = "".join(part for part in unicodedata.normalize("NFKD", letter) if fits(part))
    if taken:
        return taken
    return "" if unicodedata.combining(letter) or unicodedata.category(letter).startswith("C") else "?"


def _in_latin(letter: str) -> bool:
    return " " <= letter <= "~" or "\xa0" <= letter <= "\xff" or letter == "\n"
