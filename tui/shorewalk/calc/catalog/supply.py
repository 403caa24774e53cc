"""A voltage against the standard's ranges, three phases against each other, a battery at rest."""

from __future__ import annotations

from shorewalk.calc.calculation import Calculation, Given, Input, Result
from shorewalk.calc.judging import judge_reading
from shorewalk.calc.results import shown
from shorewalk.electrics.battery import CHEMISTRIES, LITHIUM_LEVEL, TABLES_DIFFER, charge_band
from shorewalk.electrics.formula import plain_number
from shorewalk.electrics.supply import (
    SERVICE,
    UNBALANCE_ALLOWED,
    UTILIZATION,
    supply_range,
    unbalance_percent,
)
from shorewalk.walk.interval import of_function

from .readings import volts

AT = Input("at", "where it was read", kind="choice", choices=("pedestal", "rig"), default="pedestal")
RANGES = {
    "pedestal": ("hot-neutral", SERVICE, "service"),
    "rig": ("rig-hot-neutral", UTILIZATION, "utilization"),
}

NAMES = {"flooded": "flooded lead", "agm": "AGM", "lifepo4": "LiFePO4"}


def _supply(given: Given) -> list[Result]:
    quantity, ranges, what = RANGES[given.words["at"]]
    reading = given["volts"]
    grade, notes = judge_reading(given, "volts", quantity)
    found = supply_range(reading.value, ranges)
    where = f"in range {found} of" if found else "outside both ranges of"
    spans = "; ".join(f"{name} {low:g} to {high:g} V" for name, (low, high) in ranges.items())
    low = given.site.limits["utilization-a-low"]
    cut = f" With a load on, the trees say watch under {low.value:g} V." if ranges is UTILIZATION else ""
    first = f"As shown it lies {where} ANSI C84.1-2020 {what} voltage ({spans}).{cut}"
    return [
        Result("volts", "hot to neutral", shown(reading), amount=reading, grade=grade, notes=(first, *notes))
    ]


def _unbalance(given: Given) -> list[Result]:
    names = ("volts1", "volts2", "volts3")
    amount = of_function(
        lambda known: unbalance_percent([known[name] for name in names]),
        {name: given[name] for name in names},
        "%",
    )
    values = [given[name].value for name in names]
    mean = sum(values) / 3
    far = max(values, key=lambda value: abs(value - mean))
    grade = "ok" if amount.span[1] <= UNBALANCE_ALLOWED else "watch"
    allowed = f"ANSI C84.1 allows {UNBALANCE_ALLOWED:g} % at the service. It is for three phases only."
    numbers = f"100 x |{far:g} - {plain_number(mean)}| V / {plain_number(mean)} V"
    return [
        Result("unbalance", "unbalance", shown(amount), numbers, amount=amount, grade=grade, notes=(allowed,))
    ]


def _battery(given: Given) -> list[Result]:
    reading, chemistry = given["volts"], given.words["chemistry"]
    off = (reading.span[1] - reading.span[0]) / 2
    middle = sum(reading.span) / 2
    band = charge_band(middle, chemistry, off)
    tables = (
        f"Tables differ by {TABLES_DIFFER:g} V. At rest means hours without charge or load (common practice)."
    )
    told = f"{band[0]:.0f} to {band[1]:.0f} %" if band else "voltage cannot tell"
    return [
        Result(
            "charge",
            f"{NAMES[chemistry]} at rest, {plain_number(reading.value)} V",
            told,
            notes=(tables,) if band else (tables, _why(chemistry)),
        )
    ]


def _why(chemistry: str) -> str:
    if chemistry == "lifepo4":
        low, high = LITHIUM_LEVEL
        return f"LiFePO4 rests at {low:g} to {high:g} V over most of its charge: go by its own gauge."
    return "Over 13 V it is being charged, or was a short while ago."


CALCULATIONS = (
    Calculation(
        "supply",
        "where a voltage lies in the standard's ranges",
        (volts("volts", "hot to neutral"), AT),
        _supply,
        "ANSI C84.1-2020 (found in quotation; utilization A low as told by notes on its draft)",
        "volts=112.4",
        functions=(supply_range,),
    ),
    Calculation(
        "unbalance",
        "how uneven three phases are",
        tuple(volts(f"volts{phase}", f"phase {phase}", low=1) for phase in (1, 2, 3)),
        _unbalance,
        "NEMA MG 1: 100 x greatest deviation from the mean / mean",
        "volts1=480 volts2=476 volts3=472 meter=0.1%+1",
        functions=(unbalance_percent,),
    ),
    Calculation(
        "battery",
        "what a rested 12 V battery's voltage says of its charge",
        (
            Input("volts", "plus to minus, rested", "V", 8, 16, reading="dc-volts"),
            Input("chemistry", "what it is", kind="choice", choices=CHEMISTRIES, default=CHEMISTRIES[0]),
        ),
        _battery,
        "makers' tables (flooded and AGM found; the ends of LiFePO4 as told by sellers)",
        "volts=12.35 chemistry=flooded meter=good",
        functions=(charge_band,),
    ),
)
