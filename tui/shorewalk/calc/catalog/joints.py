"""Where the ohms are: neutral or hot, the park's side or ours, and how hot they get."""

from __future__ import annotations

from dataclasses import replace

from shorewalk.calc.calculation import Calculation, Given, Input, Result
from shorewalk.calc.judging import against
from shorewalk.calc.results import worked
from shorewalk.calc.wires import feet, gauge, sound_cord

from .readings import LOADED, SYSTEM, UNLOADED, amps, volts


def _which(given: Given) -> list[Result]:
    system = given.words["system"]
    others = {name: given[name] for name in ("other_unloaded", "other_loaded")}
    name = "neutral_resistance_208y" if system == "208y" else "neutral_resistance"
    neutral = worked(given, name, "ohms in the neutral", {**others, "amps": given["amps"]})
    own = {name: given[name] for name in ("unloaded", "loaded", "amps")}
    rose = {"unloaded": others["other_unloaded"], "loaded": others["other_loaded"], "amps": given["amps"]}
    hot = worked(given, "hot_resistance", "ohms in the hot", {**own, "neutral_ohms": neutral.number})
    share = {
        "rise_unloaded": given["other_unloaded"],
        "rise_loaded": given["other_loaded"],
        "fall_unloaded": given["unloaded"],
        "fall_loaded": given["loaded"],
    }
    rise = worked(given, "rise_scaled", "the other leg's rise, were it 12.5 A", rose, result="leg-rise")
    return [
        worked(given, "sag_resistance", "ohms in both", own),
        neutral,
        replace(hot, notes=(_holds(neutral, hot),)),
        rise,
        _nearly_all(given, rise, worked(given, "rise_over_fall", "rise over fall", share)),
    ]


def _holds(neutral: Result, hot: Result) -> str:
    in_neutral, in_hot = neutral.number.span, hot.number.span
    if in_neutral[0] > in_hot[1]:
        return "The neutral holds most of the ohms."
    if in_hot[0] > in_neutral[1]:
        return "The loaded leg's hot holds most of the ohms."
    return "Hot and neutral cannot be told apart with these readings."


def _nearly_all(given: Given, rise: Result, share: Result) -> Result:
    """Judge the share as the trees do: a stop where the rise is more than usual too."""
    limits = given.site.limits
    if rise.number.span[1] < limits["rise-ok"].value:
        return share
    over, said = against(given, share.number, "rise-over-fall-stop")
    return replace(share, grade="stop", notes=(said, "Call the park.")) if over else share


def _share(given: Given) -> list[Result]:
    readings = {name: given[name] for name in ("ng_unloaded", "ng_loaded", "ln_unloaded", "ln_loaded")}
    rose = {"unloaded": given["ng_unloaded"], "loaded": given["ng_loaded"]}
    name, says = "rise", "neutral to ground rose by"
    if "amps" in given:
        rose["amps"] = given["amps"]
        name, says = "rise_scaled", "neutral to ground rose by, were it 12.5 A"
    return [
        worked(given, "neutral_share", "the neutral's part of the fall", readings),
        worked(given, name, says, rose, result="neutral-ground-rise"),
    ]


def _own(given: Given) -> list[Result]:
    names = ("rig_unloaded", "rig_loaded", "outlet_unloaded", "outlet_loaded", "amps")
    own = worked(
        given,
        "own_share",
        "ohms in plug and cord",
        {name: given[name] for name in names},
        result="own-share",
    )
    cord = sound_cord(given.words["gauge"], given["feet"])
    length = f"{given['feet'].value:g} ft {given.words['gauge']}"
    return [replace(own, notes=(f"A sound {length} cord has {cord.value:.2f} ohm of it.", *own.notes))]


def _heat(given: Given) -> list[Result]:
    heat = worked(
        given, "joint_watts", "heat in the joint", {n: given[n] for n in ("amps", "ohms", "expected")}
    )
    return [replace(heat, notes=("A soldering iron has 25 to 40 W (common practice).",))]


def _ohms(name: str, says: str, default: str | None = None) -> Input:
    return Input(name, says, "ohm", 0.0, 100.0, default=default)


OTHER = (
    volts("other_unloaded", "the other leg with the load off", low=50),
    volts("other_loaded", "the other leg with the load on", low=1),
)
CALCULATIONS = (
    Calculation(
        "hot-or-neutral",
        "which wire holds the ohms, from both legs with a load on one",
        (UNLOADED, LOADED, *OTHER, amps(), replace(SYSTEM, choices=("split-phase", "208y"))),
        _which,
        "Kirchhoff's laws for a load on one of two legs; limits are common practice",
        "unloaded=122.0 loaded=100.1 other_unloaded=121.8 other_loaded=142.6 amps=10.4",
        "If some lights get brighter as others dim, switch the main off now.",
    ),
    Calculation(
        "neutral-share",
        "the neutral's part of the fall, where there is one hot",
        (
            volts("ng_unloaded", "neutral to ground, load off"),
            volts("ng_loaded", "neutral to ground, load on"),
            volts("ln_unloaded", "hot to neutral, load off", low=50),
            volts("ln_loaded", "hot to neutral, load on", low=1),
            amps(default=""),
        ),
        _share,
        "Kirchhoff's voltage law; limits are common practice",
        "ng_unloaded=0.1 ng_loaded=0.6 ln_unloaded=122.0 ln_loaded=120.0 amps=12.5",
    ),
    Calculation(
        "own-share",
        "ohms in our plug and cord: the fall in the rig less that at the pedestal",
        (
            volts("rig_unloaded", "in the rig, load off", low=50),
            volts("rig_loaded", "in the rig, load on", low=1),
            volts("outlet_unloaded", "at free slots of that leg at the pedestal, load off", low=50),
            volts("outlet_loaded", "there, load on", low=1),
            amps(),
            feet("25ft"),
            gauge("10"),
        ),
        _own,
        "Ohm's law in series; limits are common practice",
        "rig_unloaded=122.0 rig_loaded=119.2 outlet_unloaded=122.1 outlet_loaded=121.0 amps=12.5",
    ),
    Calculation(
        "heat",
        "how many watts a poor joint turns into heat",
        (amps(), _ohms("ohms", "what the joint has"), _ohms("expected", "what sound wire would have", "0")),
        _heat,
        "P = I^2 R (Joule)",
        "amps=30 ohms=0.05",
        "A plug that gets warm comes out only with the load off, the breaker off, and when it has cooled.",
    ),
)
