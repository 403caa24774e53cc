"""What somebody typed off a meter's display, as numbers and a unit; says what it cannot read.

Taken: a decimal point or comma, any script's digits, a unit or a prefix of one, `OL`, and a
display that wanders (`118-121`, `118..121`). Not taken: exponents, two points, words.
"""

from __future__ import annotations

import re
import unicodedata

from shorewalk.tree.record import record

from .refused import Refused

LONGEST = 40
LIKE = "Type what the display shows, like 121.8 or 118-121."

_PREFIXES = {"": 1.0, "u": 1e-6, "m": 1e-3, "k": 1e3, "M": 1e6}
_UNITS = {
    "v": "V",
    "volt": "V",
    "volts": "V",
    "hz": "Hz",
    "hertz": "Hz",
    "ohm": "ohm",
    "ohms": "ohm",
    "a": "A",
    "amp": "A",
    "amps": "A",
    "ampere": "A",
    "amperes": "A",
}
_CURRENTS = (("~", "ac"), ("ac", "ac"), ("dc", "dc"), ("", ""))
_SAME = str.maketrans(
    dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe63", "-")
    | dict.fromkeys("\u03a9\u2126", "ohm")
    | dict.fromkeys("\u223c\u301c", "~")
    | dict.fromkeys("\u00b5\u03bc", "u")
    | {"\u2026": "..", "\u066b": ".", "\u3000": " "}
)
_NUMBER = re.compile(
    r"(?P<sign>[+-]?)\s*(?P<digits>[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)\s*(?P<unit>[A-Za-z~ ]*)"
)
_BETWEEN = re.compile(r"\s*(?:\.{2,3}|-|~|\bto\b)\s*")
_OVER = re.compile(r"\.?[o0]\.?\s?l\.?(?:\s?(?:m?v|hz|a|[km]?ohms?))?|over(?:load|range)?", re.IGNORECASE)
_NO_NUMBER = re.compile(r"[+-]?(?:nan|inf|infinity|\u221e)", re.IGNORECASE)


@record()
class Typed:
    """The ends of what was shown, in whole units; `unit` and `current` ("ac", "dc") where named.

    `whole`: no digit after the point and no prefix, so a tenth may have been left off.
    """

    low: float
    high: float
    unit: str | None = None
    current: str = ""
    whole: bool = False
    over: bool = False

    @property
    def bare_zero(self) -> bool:
        """Whether it is a zero without a point and without a unit."""
        return self.whole and self.unit is None and self.low == self.high == 0


def plain(text: str) -> str:
    """Return `text` with every script's digits, wide letters and signs as the ASCII ones."""

    def one(char: str) -> str:
        if 0xFF01 <= ord(char) <= 0xFF5E:  # full-width forms
            return chr(ord(char) - 0xFEE0)
        return str(unicodedata.decimal(char)) if char.isdecimal() else char

    return " ".join("".join(map(one, text)).translate(_SAME).split())


def parse_typed(text: str) -> Typed:
    """Return what was typed; raise `Refused` with a sentence where it is no reading."""
    if len(text) > LONGEST:
        raise Refused(f"That is {len(text)} characters; a reading has no more than {LONGEST}. {LIKE}")
    said = plain(text)
    if not said:
        raise Refused(f"Nothing was typed. {LIKE} If you cannot measure it, say so.")
    if _NO_NUMBER.fullmatch(said):
        raise Refused(f"'{said}' is no number a meter shows. {LIKE} If it shows OL, type OL.")
    if _OVER.fullmatch(said):
        return Typed(float("inf"), float("inf"), over=True)
    if only := _NUMBER.fullmatch(said):
        return _one(only, said)
    for between in _BETWEEN.finditer(said):
        first, second = said[: between.start()], said[between.end() :]
        ends = (_NUMBER.fullmatch(first), _NUMBER.fullmatch(second))
        if ends[0] and ends[1]:
            return _wander(ends[0], ends[1], said)
    raise Refused(f"'{said}' cannot be read as a number. {LIKE}")


def _wander(first: re.Match[str], second: re.Match[str], said: str) -> Typed:
    """Return a wander; what is said at its end holds for both: `20-30 mV`."""
    unit, factor, current = _unit(first["unit"], said)
    last_unit, last_factor, last_current = _unit(second["unit"], said)
    if not first["unit"].strip():
        unit, factor, current = last_unit, last_factor, last_current
    if unit and last_unit and unit != last_unit:
        raise Refused(f"'{said}' has two units. {LIKE}")
    ends = (_bare(first) * factor, _bare(second) * last_factor)
    return Typed(min(ends), max(ends), last_unit or unit, last_current or current)


def _one(match: re.Match[str], said: str) -> Typed:
    unit, factor, current = _unit(match["unit"], said)
    value = _bare(match) * factor
    whole = factor == 1 and not re.search(r"[.,][0-9]", match["digits"])
    return Typed(value, value, unit, current, whole)


def _bare(match: re.Match[str]) -> float:
    value = float(match["digits"].replace(",", "."))
    return -value if match["sign"] == "-" and value else value


def _unit(said: str, whole: str) -> tuple[str | None, float, str]:
    """Return the unit, the factor of its prefix, and "ac" or "dc" where it says so."""
    word = said.replace(" ", "")
    for ending, current in _CURRENTS:
        if not word.lower().endswith(ending):
            continue
        stem = word[: len(word) - len(ending)]
        stem = "k" + stem[1:] if stem[:1] == "K" else stem
        if stem in _PREFIXES:
            return None, _PREFIXES[stem], current
        if stem.lower() in _UNITS:
            return _UNITS[stem.lower()], 1.0, current
        if stem[0] in _PREFIXES and stem[1:].lower() in _UNITS:
            return _UNITS[stem[1:].lower()], _PREFIXES[stem[0]], current
    raise Refused(f"'{said.strip()}' in '{whole}' is no unit of a reading. {LIKE}")
