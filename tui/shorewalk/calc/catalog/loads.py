"""What appliances draw together at the voltage that is there, against the breaker."""

from __future__ import annotations

from collections.abc import Mapping

from shorewalk.calc.calculation import Calculation, Given, Input, Result
from shorewalk.calc.durations import held_words
from shorewalk.calc.judging import against
from shorewalk.calc.kinds import appliances
from shorewalk.calc.results import compute, exact, shown, worked
from shorewalk.electrics.breaker import hold_seconds
from shorewalk.electrics.loads import FOLLOWS, load_amps
from shorewalk.electrics.split import neutral_current
from shorewalk.tree.facts import Site
from shorewalk.walk.interval import Amount, Base, alone
from shorewalk.walk.tallying import total_amps

from .readings import volts

BREAKER = Input(
    "breaker", "the breaker at the pedestal", kind="choice", choices=("50", "30", "20"), default="30"
)
LEG = "appliances from the list, or watts: space-heater, 2x microwave, 900W:motor"


def _load(given: Given) -> list[Result]:
    results = []
    for leg in ("1", "2"):
        if f"leg{leg}" in given:
            results += _leg(given, leg)
    legs = [each.number for each in results if each.id in ("leg1", "leg2")]
    if len(legs) == 2:
        results.append(_neutral(*legs))
    return results


def _neutral(one: Amount, two: Amount) -> Result:
    """Return what is left for the neutral; where both legs may draw the same, that is nothing."""
    (low1, high1), (low2, high2) = one.span, two.span
    value = neutral_current(one.value, two.value)
    carried = Base(value, max(0.0, low1 - high2, low2 - high1), max(high1 - low2, high2 - low1))
    amount = alone("neutral", carried, "A")
    numbers = f"|{one.value:.1f} - {two.value:.1f}| A"
    return Result(
        "neutral-current", "the neutral carries, on split phase", shown(amount), numbers, amount=amount
    )


def _starting(running: Mapping[str, int], site: Site, volts: float) -> list[str]:
    """Say what each motor takes for a moment as it starts."""
    said = []
    for name in running:
        load = site.loads[name]
        if load.starting:
            ends = (
                load_amps(w, volts, load.follows) * by
                for w, by in zip(load.watts, load.starting, strict=True)
            )
            least, most = ends
            said.append(
                f"Starting, the {name} takes {least:.0f} to {most:.0f} A for a moment ({load.source})."
            )
    return said


def _leg(given: Given, leg: str) -> list[Result]:
    running, site = appliances(given.words[f"leg{leg}"], given.site)
    at = given[f"volts{leg}"]
    amount = total_amps(f"leg{leg}", running, at, site)
    terms = []
    for name, count in running.items():
        load = site.loads[name]
        each = load_amps(sum(load.watts) / 2, at.value, load.follows)
        terms.append(f"{f'{count} x ' if count > 1 else ''}{each:.1f} A {name}")
    breaker = given.words["breaker"]
    rating = float(breaker)
    over, hour = against(given, amount, f"hour-trip-{breaker}")
    notes = [
        against(given, amount, f"continuous-{breaker}")[1],
        against(given, amount, f"rating-{breaker}")[1],
    ]
    grade = "stop" if over else "watch" if against(given, amount, f"continuous-{breaker}")[0] else "ok"
    share = compute("share_percent", {"amps": amount, "rating": exact(rating, "A")})
    return [
        Result(
            f"leg{leg}",
            f"leg {leg} at {at.value:g} V",
            shown(amount),
            " + ".join(terms),
            amount=amount,
            grade=grade,
            notes=(
                *notes,
                *([hour] if over else []),
                held_words(amount, rating),
                *_starting(running, site, at.value),
            ),
        ),
        Result(
            f"leg{leg}-share",
            f"of the {breaker} A breaker",
            shown(share),
            f"100 x {amount.value:.1f} A / {breaker} A",
            amount=share,
        ),
    ]


def _heater(given: Given) -> list[Result]:
    inputs: dict[str, Amount] = {"watts": given["watts"], "volts": given["volts"]}
    follows = given.words["follows"]
    return [
        worked(given, "load_amps", "it draws", inputs, follows=follows),
        worked(given, "load_watts", "it takes", inputs, follows=follows),
    ]


CALCULATIONS = (
    Calculation(
        "load",
        "what appliances draw at the measured voltage, against 80 % and all of the breaker",
        (
            Input("leg1", LEG, kind="loads"),
            Input("leg2", f"the same on the other leg of a 50 A; {LEG}", kind="loads", default=""),
            volts("volts1", "leg 1 to neutral", low=50, default="120+-0"),
            volts("volts2", "leg 2 to neutral", low=50, default="120+-0"),
            BREAKER,
        ),
        _load,
        "NEC 2020, 210.20(A) for 80 %; UL 489; watts from trees/site/loads.yaml",
        "leg1=space-heater,microwave volts1=114.2 breaker=30",
        functions=(load_amps, hold_seconds),
    ),
    Calculation(
        "appliance",
        "amps and watts of one appliance at the voltage that is there",
        (
            Input("watts", "what its label says, at 120 V", "W", 1, 20_000),
            volts("volts", "what feeds it", low=50),
            Input(
                "follows",
                "how its current follows the voltage",
                kind="choice",
                choices=FOLLOWS,
                default=FOLLOWS[0],
            ),
        ),
        _heater,
        "Ohm's law; constant power; a motor by the greater of the two (common practice)",
        "watts=1500 volts=104.0",
    ),
)
