"""The question how exact the meter is: two usual kinds, or one's own as its maker states it."""

from __future__ import annotations

from shorewalk.walk.meter import Meter, parse_meter

QUESTION = "How exact is your meter on AC volts?"
KINDS = ((1, "basic", "A basic meter (1.2 % + 5)"), (2, "good", "A good meter (0.8 % + 3)"))
TEXT = (
    (
        "The maker states it in the booklet as a percentage and a count. Not sure? Take the basic one: it is the "
        "careful choice."
    ),
    "Your own: type it as 1%+2 and press Enter.",
)


def meter_in(typed: str) -> Meter:
    """Return the meter of a number, or the one that was typed; raise `ValueError` with a sentence for none."""
    return parse_meter(next((name for number, name, _ in KINDS if typed == str(number)), typed))
