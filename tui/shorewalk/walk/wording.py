"""The words of a question: the sentence made for a measure, placeholders, numbers as shown."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from typing import TYPE_CHECKING

from shorewalk.tree.facts import PlaceFact, Site
from shorewalk.tree.model import Ask, End, Measure, Node, Step, Tally

from . import state as states

if TYPE_CHECKING:
    from .reading import Reading

WHAT = {
    "ac-volts": "AC volts",
    "dc-volts": "DC volts",
    "hertz": "the frequency in hertz",
    "ohms": "ohms",
    "amps": "amps",
}
FIRST = ("earth", "other-ground", "ground", "minus", "metal", "neutral", "skin", "pin", "plus", "hot")
"""Roles in the order in which a probe goes there: the reference first, the hot last."""

ROLES = {
    "earth": "earth",
    "other-ground": "another outlet's ground",
    "skin": "the rig's metal",
    "pin": "the ground pin",
    "metal": "the rig's metal",
    "plus": "plus",
    "minus": "minus",
}
LOADS = {
    "one-leg": "Have the test load on.",
    "usual": "Have on what usually runs.",
    "heavy": "Have everything on that you use at once.",
}

Lookup = Callable[[str], str | None]
BRACKET = re.compile(r"\[([^\[\]]*)\]")
PLACEHOLDER = re.compile(r"\{([^{}\s]+)\}")
NOT_KNOWN = "not known"
LOAD_ON, BREAKER_OFF = "load on", "breaker off"
"""What is said last of a reading."""


def bare(says: str) -> str:
    """Return words without a leading article."""
    return says.removeprefix("the ").removeprefix("The ")


def probe_order(measure: Measure, place: PlaceFact | None) -> tuple[str, str]:
    """Return the terminals in the order the probes go in: the black one, then the red one."""

    def rank(terminal: str) -> int:
        role = place.terminals[terminal].role if place and terminal in place.terminals else ""
        return FIRST.index(role) if role in FIRST else len(FIRST)

    if rank(measure.from_) < rank(measure.to):
        return measure.from_, measure.to
    return measure.to, measure.from_


def sentence(measure: Measure, site: Site) -> str:
    """Return what to do for a measure, in short sentences: reference probe first, hot last."""
    place = site.places.get(measure.place)
    black, red = probe_order(measure, place)

    def words(terminal: str) -> str:
        return place.terminals[terminal].says if place and terminal in place.terminals else terminal

    where = place.says if place else measure.place
    parts = [f"Measure {WHAT.get(measure.what, measure.what)} at {where}."]
    if measure.meter == "low-impedance":
        parts.append("Set the meter to low impedance.")
    if measure.load.amount in LOADS:
        parts.append(LOADS[measure.load.amount])
    if measure.what != "amps":
        parts.append(f"Black probe first: {words(black)}.")
        parts.append(f"Then red: {words(red)}.")
    return " ".join(parts)


def _short(place: PlaceFact | None, terminal: str) -> str:
    if place is None or terminal not in place.terminals:
        return terminal
    role = place.terminals[terminal].role
    alike = [other for other in place.terminals.values() if other.role == role]
    return ROLES.get(role, role) if len(alike) == 1 else terminal


def says_measure(measure: Measure, standing: states.Standing, site: Site) -> str:
    """Return what a reading is about: `hot to neutral, 30 A outlet, load on`."""
    place = site.places.get(measure.place)
    where = bare(place.says) if place else measure.place
    black, red = probe_order(measure, place)
    parts = [f"{_short(place, red)} to {_short(place, black)}"]
    if place is None or place.kind not in ("skin", "pin"):  # there the terminals say where
        parts.append(where)
    if measure.what in ("hertz", "ohms"):
        parts[0] = f"{WHAT[measure.what].removeprefix('the ').removesuffix(' in hertz')}, {parts[0]}"
    if measure.what == "amps":
        parts[0] = "amps"
    if measure.load.amount != "none":
        parts.append(LOAD_ON)
    elif place and place.kind == "outlet" and states.must(standing, "pedestal-breaker", "off", site.states):
        parts.append(BREAKER_OFF)
    return ", ".join(parts)


def says_sign(node: Ask, site: Site) -> str:
    """Return what an answer is about."""
    fact = site.signs.get(node.sign)
    return fact.says if fact else node.sign.replace("-", " ")


def text_of(node: Node, site: Site, lookup: Lookup) -> str:
    """Return the question in words, or why the walk ends here, placeholders filled in."""
    match node:
        case Measure(text=None):
            return sentence(node, site)
        case Ask(text=text) | Step(text=text) | Tally(text=text) | Measure(text=str(text)):
            return fill(text, lookup)
        case End(because=text):
            return fill(text, lookup)
    return ""


def fill(text: str, lookup: Lookup) -> str:
    """Fill `{placeholders}`; `[...]` drops out where one in it is not known."""

    def bracket(found: re.Match[str]) -> str:
        inner = found[1]
        names = PLACEHOLDER.findall(inner)
        return inner if all(lookup(name) is not None for name in names) else ""

    text = BRACKET.sub(bracket, text)
    text = PLACEHOLDER.sub(lambda found: lookup(found[1]) or NOT_KNOWN, text)
    return re.sub(r"\s+([.,;])", r"\1", re.sub(r"[ \t]{2,}", " ", text)).strip()


DIGITS = {"V": 1, "A": 1, "%": 1, "Hz": 1, "mA": 1, "W": 0, "VA": 0, "degrees": 0, "ohm/1000 ft": 3}


def digits_of(unit: str) -> int:
    """Return how many digits after the point help: tenths of volts, hundredths of ohms."""
    return DIGITS.get(unit, 2)


def number(value: float, unit: str) -> str:
    """Return a number with as many digits as help, and its unit."""
    if math.isnan(value):
        return "nothing certain"
    if math.isinf(value):
        return "over the range"
    shown = f"{value:.{digits_of(unit)}f}"
    if shown.strip("-0.") == "":
        shown = shown.removeprefix("-")
    return f"{shown} {unit}".strip() if unit != "1" else shown


def bounds(low: float, high: float, unit: str) -> str:
    """Return from where to where a value lies, `119.8 to 123.9 V`: rounded outwards, so that it still lies there."""
    scale = 10 ** digits_of(unit)
    outward = [
        round_(round(value * scale, 6)) / scale if math.isfinite(value) else value
        for value, round_ in ((low, math.floor), (high, math.ceil))
    ]
    least, most = (number(value, unit) for value in outward)
    return f"{least.removesuffix(f' {unit}')} to {most}"


def shows_amount(value: float, unit: str, out: str) -> str:
    """Return a result as shown; the cosine of an angle as the angle, clipped to what an angle can be."""
    if out.endswith("cosine") and math.isfinite(value):
        return f"{math.degrees(math.acos(max(-1.0, min(1.0, value)))):.0f} degrees"
    return number(value, unit)


def shows_reading(reading: Reading, *, tenths: bool) -> str:
    """Return a reading as the meter showed it: `121.8 V`, `118.0 to 121.0 V`, `over the range`."""
    if reading.over or math.isinf(reading.value):
        return "over the range"

    def digits(value: float) -> str:
        shown = f"{value:.3f}".rstrip("0").rstrip(".")
        return f"{shown}.0" if tenths and "." not in shown and reading.unit == "V" else shown

    ends = [digits(value) for value in (reading.low, reading.high)]
    shown = ends[0] if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"
    return f"{shown} {reading.unit}".strip()
