"""Wire: its ohms, and what a length of it takes away."""

from __future__ import annotations

from dataclasses import replace

from shorewalk.calc.calculation import Calculation, Given, Input, Result
from shorewalk.calc.results import worked
from shorewalk.calc.wires import GAUGE, METAL, TEMPERATURE, area_of, awg_number, feet, per_1000_ft
from shorewalk.electrics.conductors import LAY, METALS
from shorewalk.electrics.cord import cord_drop
from shorewalk.plots import Curve, Plot

from .readings import amps, volts

TABLE_8 = (
    "ASTM B258 and IACS, which meet NEC Chapter 9 Table 8 within 0.5 % (confirmed); IEC 60228 class 5 for mm2"
)
ADVISED = 3.0, 5.0
ADVICE = "Advised: 3 % along one stretch, 5 % in all (NEC 2020, 210.19(A) and 215.2 informational notes)."
KIND = Input("kind", "stranded or solid", kind="choice", choices=("stranded", "solid"), default="stranded")
SUPPLY = volts("volts", "the voltage where it begins", low=50, default="120+-0")
SHOWN = (14, 12, 10, 6)
"""Gauges drawn in the plot: of household cords, extension cords, 30 A and 50 A cords."""


def _conductor(given: Given) -> list[Result]:
    name, metal = given.words["gauge"], given.words["metal"]
    lay = LAY if given.words["kind"] == "stranded" else 1.0
    key, inputs, _ = per_1000_ft(name, given["temperature"], metal, lay)
    words = {"metal": metal} if key == "ohms_per_1000_ft" else {}
    wire = worked(given, key, f"{name} {metal}, one conductor", inputs, **words)
    metric = f"That is {wire.number.value / 0.3048:.3g} ohm/km; {area_of(name).value:.3g} mm2."
    rho, a = METALS[metal]
    return [
        replace(
            wire, notes=(f"{metal}: rho = {rho:.5f} ohm mm2/m, a = {a:g}/K at 20 C.".capitalize(), metric)
        )
    ]


def _cord(given: Given) -> list[Result]:
    per = per_1000_ft(given.words["gauge"], given["temperature"], given.words["metal"])[2]
    length = {"feet": given["feet"], "per_1000_ft": per}
    drop = worked(given, "cord_drop", "volts lost", {"amps": given["amps"], **length})
    lost = {"volts_lost": drop.number, "volts": given["volts"]}
    return [
        worked(given, "cord_ohms", "there and back", length),
        drop,
        replace(worked(given, "drop_percent", "of the supply", lost), notes=(ADVICE,)),
    ]


def _plot(given: Given) -> Plot:
    name, celsius, metal = given.words["gauge"], given["temperature"], given.words["metal"]
    own = {awg_number(name)} if name.endswith("AWG") else set()
    gauges = [f"{each} AWG" for each in SHOWN if each not in own]
    longest = max(100.0, 1.25 * given["feet"].value)
    xs = tuple(longest * step / 40 for step in range(1, 41))
    curves = []
    for each in (name, *gauges):
        ohms = per_1000_ft(each, celsius, metal)[2].value
        curves.append(Curve(each, xs, tuple(cord_drop(given["amps"].value, x, ohms) for x in xs)))
    supply = given["volts"].value
    lost = cord_drop(given["amps"].value, given["feet"].value, per_1000_ft(name, celsius, metal)[2].value)
    return Plot(
        f"Volts lost at {given['amps'].value:g} A",
        "feet, one way",
        "V lost",
        tuple(curves),
        tuple((supply * share / 100, f"{share:g} %") for share in ADVISED),
        (given["feet"].value, lost),
    )


def _feeder(given: Given) -> list[Result]:
    per = per_1000_ft(given.words["gauge"], given["temperature"], given.words["metal"])[2]
    results = []
    for own, other in (("1", "2"), ("2", "1")):
        inputs = {
            "own_amps": given[f"amps{own}"],
            "other_amps": given[f"amps{other}"],
            "feet": given["feet"],
            "per_1000_ft": per,
        }
        drop = worked(given, "leg_drop", f"leg {own} loses", inputs)
        share = 100 * drop.number.value / given["volts"].value
        gains = " It gains: the neutral carries the other leg's load." if share < 0 else ""
        said = f"That is {share:.1f} % of {given['volts'].value:g} V.{gains}"
        results.append(replace(drop, notes=(said, ADVICE)))
    return results


CALCULATIONS = (
    Calculation(
        "conductor",
        "ohms of a conductor by gauge, metal and temperature",
        (GAUGE, METAL, TEMPERATURE, KIND),
        _conductor,
        TABLE_8,
        "gauge=10 temperature=75C",
    ),
    Calculation(
        "cord",
        "volts lost along a cord by gauge and length",
        (GAUGE, feet(), amps(), SUPPLY, METAL, TEMPERATURE),
        _cord,
        "Ohm's law, 2 x R x L x I; " + TABLE_8,
        "gauge=10 feet=25 amps=30+-0",
        "A cord that is too thin or coiled gets hot. Use the gauge its outlet asks for.",
        _plot,
    ),
    Calculation(
        "feeder",
        "volts each leg of a feeder loses, the neutral carrying the difference",
        (GAUGE, feet(), amps("amps1", "leg 1"), amps("amps2", "leg 2"), SUPPLY, METAL, TEMPERATURE),
        _feeder,
        "Kirchhoff's laws; " + TABLE_8,
        "gauge=1/0 feet=300 amps1=60+-0 amps2=20+-0 metal=aluminum",
    ),
)
