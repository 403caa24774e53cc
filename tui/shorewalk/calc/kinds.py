"""Inputs that are words: a choice, a gauge of wire, a list of appliances."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from difflib import get_close_matches

from shorewalk.electrics.conductors import CLASS_5, LARGEST, SMALLEST
from shorewalk.electrics.loads import FOLLOWS
from shorewalk.tree.facts import Appliance, Site

AWG = re.compile(r"(?:awg)?#?(?:(\d)/0|(\d{1,2}))(?:awg)?")
METRIC = re.compile(r"(\d+(?:[.,]\d+)?)(?:mm2|mm²|mm\^2|sqmm)")
WATTS = re.compile(r"(\d+(?:[.,]\d+)?)(k?)w")
COUNT = re.compile(r"(\d{1,2})\s*x\s*(.+)")


def read_choice(text: str, choices: Sequence[str]) -> str:
    """Return the choice that was typed; raise `ValueError` naming those there are."""
    word = text.lower().replace("_", "-")
    if word in choices:
        return word
    begun = [each for each in choices if each.startswith(word)]
    if len(begun) == 1:
        return begun[0]
    raise ValueError(f"It is one of {', '.join(choices)}.")


def read_gauge(text: str) -> str:
    """Return a gauge as it is called: `10 AWG`, `1/0 AWG`, `2.5 mm2`."""
    word = text.lower().replace(" ", "")
    if metric := METRIC.fullmatch(word):
        area = float(metric[1].replace(",", "."))
        if area in CLASS_5:
            return f"{area:g} mm2"
    elif awg := AWG.fullmatch(word):
        number = 1 - int(awg[1]) if awg[1] else int(awg[2])
        if LARGEST <= number <= SMALLEST and awg[1] != "0":
            return f"{awg[1]}/0 AWG" if awg[1] else f"{number} AWG"
    areas = ", ".join(f"{area:g}" for area in CLASS_5)
    raise ValueError(f"It is an AWG gauge from {SMALLEST} to 4/0, or {areas} mm2.")


def read_loads(text: str, site: Site) -> str:
    """Return a list of appliances as it stands; raise `ValueError` for one that is not known."""
    appliances(text, site)
    return text


def appliances(text: str, site: Site) -> tuple[dict[str, int], Site]:
    """Return how many of each, and the facts with loads typed as watts (`1500W`, `900W:motor`) put in."""
    running: dict[str, int] = {}
    own: dict[str, Appliance] = {}
    for part in filter(None, (each.strip().lower() for each in text.split(","))):
        counted = COUNT.fullmatch(part)
        name, number = (counted[2].strip(), int(counted[1])) if counted else (part, 1)
        name = name.replace(" ", "-")
        if name not in site.loads:
            own[name] = _own(name, site.loads)
        running[name] = running.get(name, 0) + number
    return running, replace(site, loads={**site.loads, **own})


def _own(name: str, known: Mapping[str, Appliance]) -> Appliance:
    watts_text, _, follows = name.partition(":")
    follows = follows or FOLLOWS[0]
    watts = WATTS.fullmatch(watts_text)
    if watts and follows in FOLLOWS:
        amount = float(watts[1].replace(",", ".")) * (1000 if watts[2] else 1)
        return Appliance(name, f"{amount:g} W", (amount, amount), follows, "as typed")
    near = get_close_matches(name, list(known), 1)
    nearest = f" Nearest: {near[0]}." if near else ""
    raise ValueError(
        f"There is no '{name}'.{nearest} Known: {', '.join(known)}; "
        f"or watts at 120 V, as 1500W or 900W:motor ({', '.join(FOLLOWS)})."
    )
