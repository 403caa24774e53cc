"""Two hot legs against each other, and three readings against the triangle."""

from __future__ import annotations

from dataclasses import replace

from shorewalk.calc.calculation import Calculation, Given, Input, Result
from shorewalk.calc.results import worked
from shorewalk.electrics.split import supply_kind

from .readings import volts

GHOST, NEUTRAL_GROUND = "ghost-high", "neutral-ground-stop"
LEGS = (
    volts("hot1", "one hot to neutral"),
    volts("hot2", "the other hot to neutral"),
    volts("hot_hot", "hot to hot"),
)


def _legs(given: Given) -> list[Result]:
    three = {name: given[name] for name in ("hot1", "hot2", "hot_hot")}
    doubt = _doubt(given)
    cosine = worked(given, "leg_cosine", "cosine of the angle", three, result="" if doubt else "leg-cosine")
    notes = (doubt or _kind(cosine), *cosine.notes)
    around = {"a": given["hot1"], "b": given["hot2"], "c": given["hot_hot"]}
    return [
        replace(cosine, notes=notes),
        worked(given, "leg_angle", "the angle, to show", three),
        worked(given, "leg_ratio", "leg to leg over the sum", three),
        worked(given, "triangle_excess", "over the triangle by", around, result="triangle-excess"),
    ]


def _kind(cosine: Result) -> str:
    kinds = [supply_kind(end) for end in cosine.number.span]
    if kinds[0] == kinds[1]:
        return f"That is {kinds[0]}."
    return f"It may be {kinds[0]}, or {kinds[1]}: these readings cannot tell."


def _doubt(given: Given) -> str:
    """Say why the angle would lie, if it would: a floating leg, or a neutral that moved."""
    least = given.site.limits[GHOST].value
    if any(given[name].span[0] < least for name in ("hot1", "hot2")):
        return f"A leg under {least:g} V may be a loose wire's ghost: the angle says nothing. Stop, and call the park."
    most = given.site.limits[NEUTRAL_GROUND].value
    if "neutral_ground" in given and given["neutral_ground"].span[1] >= most:
        return f"Neutral to ground may be {most:g} V or more: the angle lies. Stop, and call the park."
    return ""


def _triangle(given: Given) -> list[Result]:
    three = {name: given[name] for name in ("a", "b", "c")}
    return [worked(given, "triangle_excess", "over the triangle by", three, result="triangle-excess")]


def _ground(given: Given) -> list[Result]:
    three = {name: given[name] for name in ("hot_ground", "hot_neutral", "neutral_ground")}
    return [
        worked(
            given,
            "ground_disagreement",
            "ground and neutral disagree by",
            three,
            result="ground-disagreement",
        )
    ]


def _gap(given: Given) -> list[Result]:
    two = {name: given[name] for name in ("hot_earth", "hot_neutral")}
    return [worked(given, "hot_earth_gap", "hot to earth is off by", two, result="hot-earth-gap")]


NG: Input = volts("neutral_ground", "neutral to ground", default="")
CALCULATIONS = (
    Calculation(
        "legs",
        "what two hot legs are: split phase, two legs of 208Y, one leg twice",
        (*LEGS, NG),
        _legs,
        "law of cosines; where to cut is common practice",
        "hot1=121.7 hot2=121.4 hot_hot=243.0 neutral_ground=0.1",
    ),
    Calculation(
        "triangle",
        "whether three readings between three slots can be: a broken triangle is a loose wire",
        (volts("a", "one reading"), volts("b", "another"), volts("c", "the third")),
        _triangle,
        "triangle inequality; 3 V for the meter is common practice",
        "a=68.2 b=68.4 c=243.0",
    ),
    Calculation(
        "ground",
        "whether ground and neutral agree as seen from hot",
        (
            volts("hot_ground", "hot to ground"),
            volts("hot_neutral", "hot to neutral"),
            replace(NG, default=None),
        ),
        _ground,
        "triangle inequality; 3 V for the meter is common practice",
        "hot_ground=121.4 hot_neutral=122.0 neutral_ground=0.6",
        "Agreeing does not prove a ground: one that is open further up, or false, reads the same.",
    ),
    Calculation(
        "earth",
        "whether hot to earth agrees with hot to neutral",
        (volts("hot_earth", "hot to the earth peg"), volts("hot_neutral", "hot to neutral")),
        _gap,
        "both ends of a sound ground are alike; 6 V is common practice",
        "hot_earth=121.0 hot_neutral=122.0",
    ),
)
