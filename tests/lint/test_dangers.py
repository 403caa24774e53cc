"""Which words send somebody into danger, and which only warn of it. Heard at pedestals; common practice, no source."""

from __future__ import annotations

import pytest

from shorewalk.lint.words.dangers import DANGERS

DANGEROUS = {
    "under a cover": [
        "Open the cover.",
        "Take off the outlet's front panel",
        "Take the cover of the pedestal off.",
        "Unscrew the face plate and look.",
        "Call the park and open the panel.",
        "Reach inside the pedestal.",
        "A screwdriver will do.",
    ],
    "round a protector": [
        "Bypass the protector for tonight.",
        "Do not wait, bypass the protector.",
        "Plug the cord in without the protector.",
        "Run the rig without a ground.",
        "Break off the ground pin.",
        "Wedge the breaker's handle.",
    ],
    "on when unsure": [
        "Go on if you are not sure.",
        "If you are still unsure, just carry on.",
        "Not sure? Go on.",
        "Switch the main on even if you don't know.",
        "It is probably safe.",
        "Ignore the hum.",
        "Force the plug in.",
        "That is just a ghost.",
    ],
}
HARMLESS = [
    "Never open the cover.",
    "Do not open the cover or bypass the protector.",
    "Never poke, spray or open the cover.",
    "Let the electrician take off the panel.",
    "Open the hinged lid with a stick.",
    "Switch every branch breaker in the rig's panel off.",
    "Run the rig only with the protector.",
    "We plugged in without a protector.",
    "We go on without this look.",
    "If you are not sure, stop. Do not go on.",
    "Not sure? That is reason enough to stop.",
    "Never force it.",
    "A nest may bridge the contacts.",
    "Go on when the lamp is on.",
    "Is it not firm? Then plug nothing in.",
]


@pytest.mark.parametrize(
    ("where", "text"), [(where, text) for where, texts in DANGEROUS.items() for text in texts]
)
def test_words_that_send_into_danger_are_found(where: str, text: str) -> None:
    """Each is found, for what it is."""
    assert where in {found for found, _ in DANGERS.found(text)}


@pytest.mark.parametrize("text", HARMLESS)
def test_warnings_and_harmless_words_are_left_alone(text: str) -> None:
    """What is forbidden, left to others, or only sounds alike is no danger."""
    assert not list(DANGERS.found(text))


def test_the_quick_look_misses_nothing() -> None:
    """Every dangerous text is found whatever the case of its letters."""
    for texts in DANGEROUS.values():
        for text in texts:
            assert list(DANGERS.found(text.upper())), text
