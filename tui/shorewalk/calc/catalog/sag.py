"""How far a voltage falls for how many amps."""

from __future__ import annotations

from dataclasses import replace

from shorewalk.calc.calculation import Calculation, Given, Input, Result
from shorewalk.calc.judging import judge_reading
from shorewalk.calc.results import shown, worked
from shorewalk.calc.wires import feet, gauge, sound_cord
from shorewalk.electrics.sag import sag_percent
from shorewalk.pages.sags import sag_plot
from shorewalk.plots import Plot
from shorewalk.walk.at_rest import no_better, says_no_better
from shorewalk.walk.judge import rank

from .readings import LOADED, UNLOADED, amps

AT = Input("at", "where it was read", kind="choice", choices=("rig", "pedestal"), default="rig")
JUDGED = {"rig": ("rig-sag-percent", "total-share"), "pedestal": ("sag-percent", "source-ohms")}
AT_REST = {"rig": "rig-hot-neutral", "pedestal": "hot-neutral"}


def _sag(given: Given) -> list[Result]:
    percent, ohms = JUDGED[given.words["at"]]
    pair = {name: given[name] for name in ("unloaded", "loaded")}
    by_amps = {**pair, "amps": given["amps"]}
    cord = sound_cord(given.words["gauge"], given["feet"])
    loop = worked(given, "sag_resistance", "ohms on the way", by_amps, result=ohms)
    length = f"{given['feet'].value:g} ft {given.words['gauge']}"
    grade, notes = judge_reading(given, "loaded", "rig-hot-neutral-loaded")
    quantity = given.site.quantities[AT_REST[given.words["at"]]]
    least = no_better(given["unloaded"], given["loaded"], quantity, given.site)
    if rank(least) > rank(grade):
        grade, notes = least, (*notes, says_no_better(shown(given["unloaded"])))
    return [
        replace(loop, notes=(f"A sound {length} cord has {cord.value:.2f} ohm.", *loop.notes)),
        worked(given, "sag_percent", "the sag", pair),
        worked(given, "sag_percent_scaled", "the sag, were it 12.5 A", by_amps, result=percent),
        Result("loaded", "the voltage under load", shown(given["loaded"]), grade=grade, notes=notes),
    ]


def _plot(given: Given) -> Plot:
    percent = sag_percent(given["unloaded"].value, given["loaded"].value)
    return sag_plot(percent, given["amps"].value, given.words["at"], given.site)


CALCULATIONS = (
    Calculation(
        "sag",
        "how far a known load pulls the voltage down, and the ohms behind it",
        (UNLOADED, LOADED, amps(), AT, feet("25ft"), gauge("10")),
        _sag,
        "Z = (V0 - V1)/I, the ordinary load test; NEC 2020 informational notes for the percent",
        "unloaded=121.8 loaded=112.4 amps=11.7 meter=basic",
        "Read off and on with one meter, on one range, within a minute.",
        _plot,
    ),
)
