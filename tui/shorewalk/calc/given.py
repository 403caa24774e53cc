"""Reading `name=value` words: numbers with units and their own error, gauges, appliances, choices.

A number may be `121.8`, `121.8 V`, `118-121` (it wanders), `11.7+-0.5` or `11.7+-5%`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from difflib import get_close_matches

from shorewalk.starting import DEFAULT_METER, Usage
from shorewalk.tree.facts import Site
from shorewalk.walk.interval import Amount, Base, alone, of_reading
from shorewalk.walk.meter import Meter, parse_meter
from shorewalk.walk.reading import Reading
from shorewalk.walk.typed import plain

from .calculation import Calculation, Given, Input
from .kinds import read_choice, read_gauge, read_loads
from .units import allowed, scale

NUMBER = r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)"
TYPED = re.compile(
    rf"(?P<low>{NUMBER})\s*(?:(?:\.\.|-|to)\s*(?P<high>{NUMBER}))?\s*(?P<unit>[^\d\s+-][^\d+-]*?)?"
    rf"\s*(?:(?:\+-|\+/-|±)\s*(?P<off>{NUMBER})\s*(?P<share>%)?\s*(?P<tail>[^\d\s%][^\d%]*)?)?"
)
METER = "meter"


def read_given(calculation: Calculation, words: Sequence[str], site: Site) -> Given:
    """Return what was typed for a calculation; raise `Usage` in one line where it cannot be read."""
    typed = _pairs(calculation, words)
    meter = _meter(calculation, typed)
    amounts: dict[str, Amount] = {}
    said: dict[str, str] = {}
    for each in calculation.inputs:
        text = typed.get(each.name, each.default)
        if text is None:
            raise Usage(_missing(calculation, typed))
        try:
            match each.kind:
                case "choice":
                    said[each.name] = read_choice(text, each.choices)
                case "gauge":
                    said[each.name] = read_gauge(text)
                case "loads":
                    said[each.name] = read_loads(text, site)
                case _ if text:
                    amounts[each.name] = read_number(each, text, meter)
        except ValueError as error:
            raise Usage(f"{each.name}={text}: {error}") from None
    return Given(amounts, said, meter, site)


def _pairs(calculation: Calculation, words: Sequence[str]) -> dict[str, str]:
    names = [each.name for each in calculation.inputs] + [METER] * calculation.by_meter
    typed: dict[str, str] = {}
    for word in words:
        name, given, text = word.partition("=")
        name = plain(name).lower().replace("-", "_")
        if not given:
            raise Usage(f"'{word}' gives no name: write NAME=VALUE, with one of {', '.join(names)}.")
        if name not in names:
            near = get_close_matches(name, names, 1)
            nearest = f" Nearest: {near[0]}." if near else ""
            raise Usage(f"{calculation.name} takes no '{name}': it takes {', '.join(names)}.{nearest}")
        if name in typed:
            raise Usage(f"'{name}' is given twice: {typed[name]} and {text}. Give it once.")
        if not text.strip():
            raise Usage(f"{name}= has no value. {_one(calculation, name)}")
        typed[name] = text.strip()
    return typed


def _one(calculation: Calculation, name: str) -> str:
    return next(
        (f"It is {each.says}." for each in calculation.inputs if each.name == name), "Try basic or good."
    )


def _missing(calculation: Calculation, typed: Mapping[str, str]) -> str:
    wanting = [each.name for each in calculation.inputs if each.default is None and each.name not in typed]
    return (
        f"{calculation.name} needs {', '.join(wanting)} too. "
        f"For example: shorewalk calc {calculation.name} {calculation.example}"
    )


def _meter(calculation: Calculation, typed: Mapping[str, str]) -> Meter:
    try:
        meter = parse_meter(typed.get(METER, DEFAULT_METER))
    except ValueError as error:
        raise Usage(f"meter={typed.get(METER)}: {error}") from None
    volts = [
        typed[each.name] for each in calculation.inputs if each.reading == "ac-volts" and each.name in typed
    ]
    # A meter of whole volts shows no tenth: one that was typed says that it has them.
    if meter.tenths is None and any(re.search(r"\d[.,]\d", text.partition("+-")[0]) for text in volts):
        return replace(meter, tenths=True)
    return meter


def read_number(wanted: Input, text: str, meter: Meter) -> Amount:
    """Return a number with its error: its own where one is typed, else the meter's where it was read."""
    found = TYPED.fullmatch(plain(text.replace("±", "+-")))
    if not found:
        raise ValueError(f"That is no number. {says_number(wanted)}")
    factor, added = scale(wanted.unit, found["tail"] or found["unit"] or "")
    ends = sorted(_number(found[end]) * factor + added for end in ("low", "high") if found[end])
    low, high = ends[0], ends[-1]
    value = low if low == high else round((low + high) / 2, 9)
    if not (wanted.low <= low and high <= wanted.high):
        raise ValueError(f"That cannot be. {says_number(wanted)}")
    if found["off"]:
        off = abs(_number(found["off"])) * (abs(value) / 100 if found["share"] else factor)
        return alone(wanted.name, Base(value, low - off, high + off), wanted.unit)
    if wanted.reading:
        return of_reading(wanted.name, Reading(text, value, low, high, wanted.unit), meter, wanted.reading)
    return alone(wanted.name, Base(value, low, high), wanted.unit)


def _number(text: str) -> float:
    return float(text.replace(",", "."))


def says_number(wanted: Input) -> str:
    """Return what can be typed: the range and the units."""
    span = f"It is {wanted.says}, {wanted.low:g} to {wanted.high:g}"
    return f"{span} {wanted.unit} (in {allowed(wanted.unit)})." if wanted.unit else f"{span}."
