"""What an open or loose neutral does to two loads, and what a sound one carries."""

from __future__ import annotations

from dataclasses import replace

from shorewalk.calc.calculation import Calculation, Given, Input, Result
from shorewalk.calc.judging import judge
from shorewalk.calc.results import compute, exact, worked
from shorewalk.walk.interval import Amount

from .readings import DEGREES, SYSTEM, amps, volts


def _watts(name: str, says: str) -> Input:
    return Input(name, says, "W", 1, 20_000)


def _open(given: Given) -> list[Result]:
    ohms = [compute("heater_ohms", {"watts": given[f"watts{leg}"]}) for leg in (1, 2)]
    floor = given.site.quantities["rig-hot-neutral-loaded"].floor
    results = []
    for leg, own, other in zip((1, 2), ohms, reversed(ohms), strict=True):
        inputs: dict[str, Amount] = {"hot_hot": given["hot_hot"], "own_ohms": own, "other_ohms": other}
        name = "open_neutral_volts"
        if "neutral" in given:
            name, inputs = "loose_neutral_volts", {**inputs, "neutral_ohms": given["neutral"]}
        says = f"leg {leg}, with {given[f'watts{leg}'].value:g} W, gets"
        found = worked(given, name, says, inputs)
        grade, notes = judge(given, found.number, floor)
        results.append(replace(found, grade=grade, notes=notes))
    return results


def _current(given: Given) -> list[Result]:
    inputs = {"amps1": given["amps1"], "amps2": given["amps2"]}
    degrees = exact(DEGREES[given.words["system"]], "degrees")
    return [worked(given, "neutral_current", "the neutral carries", {**inputs, "degrees": degrees})]


CALCULATIONS = (
    Calculation(
        "open-neutral",
        "the volts two loads get with the neutral open, or loose by some ohms",
        (
            _watts("watts1", "the load on leg 1, as its label says at 120 V"),
            _watts("watts2", "the load on leg 2"),
            volts("hot_hot", "hot to hot", low=100, default="240+-0"),
            Input("neutral", "the neutral's ohms; left out: open", "ohm", 0.0001, 1000, default=""),
        ),
        _open,
        "Kirchhoff's laws (Millman's theorem); split phase, resistive loads",
        "watts1=1500 watts2=300",
        "If some lights get brighter as others dim, switch the main off now.",
    ),
    Calculation(
        "neutral-current",
        "what the neutral carries",
        (amps("amps1", "leg 1"), amps("amps2", "leg 2"), SYSTEM),
        _current,
        "vector sum (Kirchhoff's current law); resistive loads",
        "amps1=40+-0 amps2=20+-0 system=208y",
    ),
)
