"""Whether a voltage that is low at supper time can be the loop's own load."""

from __future__ import annotations

from dataclasses import replace

from shorewalk.calc.calculation import Calculation, Given, Input, Result
from shorewalk.calc.results import compute, exact, worked
from shorewalk.electrics.park import VA_50

from .readings import volts

ADVISED = 5.0


def _sites(amps: str) -> Input:
    return Input(
        f"sites{amps}",
        f"how many sites have {amps} A as their largest outlet",
        "sites",
        0,
        10_000,
        default="0",
    )


def _park(given: Given) -> list[Result]:
    counted = {f"sites_{amps}": given[f"sites{amps}"] for amps in ("50", "30", "20")}
    sites = sum(amount.value for amount in counted.values())
    inputs = {**counted, "va_50": exact(VA_50[given.words["code"]], "VA")}
    factor = compute("demand_percent", {"sites": exact(sites, "sites")})
    demand = worked(given, "demand_va", f"demand of {sites:g} sites", inputs)
    demand = replace(demand, shows=f"{demand.number.value:,.0f} VA")
    demand = replace(demand, numbers=demand.numbers.replace("demand factor", f"{factor.value:g} %"))
    leg = worked(given, "demand_amps", "in each leg", {"va": demand.number, "volts": given["volts"]})
    each = leg.number.value / sites
    leg = replace(
        leg, notes=(f"The loop is made for {each:.0f} A for each site, at most: a full loop can want more.",)
    )
    return [demand, leg, *_fall(given)]


def _fall(given: Given) -> list[Result]:
    if "quiet" not in given or "supper" not in given:
        return []
    pair = {"unloaded": given["quiet"], "loaded": given["supper"]}
    fall = worked(given, "sag_percent", "the fall from quiet to supper", pair)
    low, high = fall.number.span
    if high <= ADVISED:
        said = (
            "A loop at its ordinary load falls so far, so it can be the load. It should come back by night."
        )
    elif low > ADVISED:
        said = "That is more than a loop at its ordinary load should fall: too much load, or a poor joint. Tell them."
    else:
        said = "It may be the loop's load, or more than that. Read once more at night, and tell the park."
    advice = f"Advised: {ADVISED:g} % in all (NEC 2020, 210.19(A) and 215.2 informational notes)."
    return [replace(fall, notes=(said, advice), grade="watch" if high > ADVISED else "ok")]


CALCULATIONS = (
    Calculation(
        "park",
        "what a loop of sites is made for, and whether its load explains a low supply at supper time",
        (
            *(_sites(amps) for amps in ("50", "30", "20")),
            Input(
                "code",
                "the NEC it was built by: 2017 or later, or before",
                kind="choice",
                choices=("2017", "2014"),
                default="2017",
            ),
            volts("volts", "leg to leg at the feeder", low=100, default="240+-0"),
            volts("quiet", "hot to neutral when little runs", low=50, default=""),
            volts("supper", "hot to neutral at supper time", low=50, default=""),
        ),
        _park,
        "NEC 2017 Table 551.73(A) (found)",
        "sites50=6 sites30=12 quiet=121.8 supper=113.0",
    ),
)
