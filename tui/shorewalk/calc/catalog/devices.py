"""What breakers, ground-fault outlets and people make of a current."""

from __future__ import annotations

from dataclasses import replace

from shorewalk.calc.calculation import Calculation, Given, Input, Result
from shorewalk.calc.durations import band_words, held, held_words
from shorewalk.calc.judging import against, judge_reading
from shorewalk.calc.results import worked
from shorewalk.electrics.breaker import hold_seconds
from shorewalk.electrics.ground_fault import LAST, MUST_HOLD, MUST_TRIP, trip_seconds
from shorewalk.electrics.people import effect_of

from .readings import amps, volts

RATING = Input("rating", "what the breaker's handle says", "A", 15, 50)
ANY_VOLTAGE = "No voltage on metal that bare wet feet reach is safe. Hands off, and call the park."


def _breaker(given: Given) -> list[Result]:
    current, rating = given["amps"], given["rating"].value
    band = held(current, rating)
    notes = [held_words(current, rating)]
    size = f"{rating:g}"
    over = False
    if f"continuous-{size}" in given.site.limits:
        over, said = against(given, current, f"continuous-{size}")
        notes.append(said)
    return [
        Result(
            "hold",
            f"a {size} A breaker at {current.value:g} A",
            band_words(*band),
            f"{current.value:g} A / {size} A = {100 * current.value / rating:.0f} %",
            grade="watch" if over or band[0] == 0 else "ok",
            notes=tuple(notes),
        )
    ]


def _ground_fault(given: Given) -> list[Result]:
    leak = given["leak"]
    bands = [trip_seconds(end) for end in leak.span]
    band = (min(each[0] for each in bands), max(each[1] for each in bands))
    value = leak.value
    numbers = (
        f"(20 / {min(value, LAST):g})^1.43 s" if value >= MUST_TRIP else f"{value:g} mA against 4 to 6 mA"
    )
    return [
        Result(
            "trip",
            f"a ground-fault outlet at {value:g} mA",
            band_words(*band),
            numbers,
            grade="ok" if leak.span[1] < MUST_HOLD else "watch",
            notes=(
                against(given, leak, "ground-fault-trip-low")[1],
                against(given, leak, "ground-fault-trip-high")[1],
                "A neutral that touches ground behind the outlet trips it too (UL 943).",
            ),
        )
    ]


def _body(given: Given) -> list[Result]:
    inputs = {"volts": given["volts"], "ohms": given["ohms"]}
    current = worked(given, "body_milliamps", "through a body with wet skin", inputs)
    grade, _ = judge_reading(given, "volts", "skin")
    effect = f"OSHA 3075: {effect_of(current.number.span[1])}."
    return [replace(current, grade=None if grade == "ok" else grade, notes=(effect, ANY_VOLTAGE))]


CALCULATIONS = (
    Calculation(
        "breaker",
        "how long a breaker may hold a current: a band, not a moment",
        (amps("amps", "what it carries"), RATING),
        _breaker,
        "UL 489: 100 % held, 135 % within 1 h, 200 % within 2 min (found; 4 min from 31 to 50 A from memory)",
        "amps=41+-0 rating=30",
        functions=(hold_seconds,),
    ),
    Calculation(
        "ground-fault",
        "how soon a ground-fault outlet trips",
        (Input("leak", "the current to ground", "mA", 0, 10_000),),
        _ground_fault,
        "UL 943 Class A: 4 to 6 mA, (20/I)^1.43 s at most (found)",
        "leak=20mA",
        "An outlet that does not trip by its test button is not used.",
        functions=(trip_seconds,),
    ),
    Calculation(
        "body",
        "what current a voltage drives through a person",
        (
            volts("volts", "what was read on the metal"),
            Input("ohms", "of a body", "ohm", 100, 100_000, default="1000"),
        ),
        _body,
        "Ohm's law; 1 kohm for wet skin (OSHA training); effects: OSHA 3075 (found)",
        "volts=50",
        "Somebody hurt or still in contact: touch nobody, call the emergency number (911 in the US and Canada).",
    ),
)
