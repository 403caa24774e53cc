"""The words of questions and numbers."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

import pytest

from shorewalk.tree.facts import Site
from shorewalk.tree.library import shipped
from shorewalk.walk.reading import Reading
from shorewalk.walk.stands import stands
from shorewalk.walk.wording import bounds, fill, number, says_measure, sentence, shows_amount, shows_reading

if TYPE_CHECKING:
    from tests.walk.conftest import Make

KNOWN = {"readings": "hot to neutral 121.8 V", "sockets.volts": "121.8 V"}


@pytest.mark.parametrize(
    ("text", "filled"),
    [
        ("We read {readings}.", "We read hot to neutral 121.8 V."),
        ("[Site {site}: ]We read {sockets.volts}.", "We read 121.8 V."),
        ("Odd[: {site}]. Then.", "Odd. Then."),
        ("Odd[: {sockets.volts}]. Then.", "Odd: 121.8 V. Then."),
        ("[{site} and {sockets.volts}. ]Done.", "Done."),
        ("At {site}.", "At not known."),
        ("No placeholder [here].", "No placeholder here."),
        ("", ""),
    ],
)
def test_brackets_drop_out_with_what_is_not_known(text: str, filled: str) -> None:
    """A bracket drops out when a placeholder in it is unknown; outside, the gap is said."""
    assert fill(text, KNOWN.get) == filled


def test_the_reference_probe_comes_first(site: Site, make: Make) -> None:
    """Whichever way a pair is written, the black probe goes to the reference and the red one to the hot."""
    for probes in ("pedestal-30 L N", "pedestal-30 N L"):
        assert sentence(make.measure("a", probes, "b"), site) == (
            "Measure AC volts at the 30 A outlet. "
            "Black probe first: the neutral slot. Then red: the hot slot."
        )


def test_load_and_low_impedance_are_said(site: Site, make: Make) -> None:
    """The sentence says what must run, and the mode of the meter where it matters."""
    words = sentence(make.measure("a", "pedestal-30 L N one-leg", "b", meter="low-impedance"), site)
    assert "Have the test load on." in words
    assert "Set the meter to low impedance." in words


def test_sentences_are_short(site: Site, make: Make) -> None:
    """No sentence made for a measure is over twenty words (US plain-language rules)."""
    for place in site.places.values():
        terminals = list(place.terminals)
        for one, other in pairwise(terminals):
            words = sentence(make.measure("a", f"{place.id} {one} {other} one-leg", "b"), site)
            assert all(len(part.split()) <= 20 for part in words.split(". "))


@pytest.mark.parametrize(
    ("probes", "says"),
    [
        ("pedestal-30 L N", "hot to neutral, 30 A outlet"),
        ("pedestal-30 G N", "neutral to ground, 30 A outlet"),
        ("pedestal-30 earth G", "ground to earth, 30 A outlet"),
        ("pedestal-30 L N one-leg", "hot to neutral, 30 A outlet, load on"),
        ("rig-skin skin other-ground", "the rig's metal to another outlet's ground"),
    ],
)
def test_a_reading_is_named_as_the_trade_does(site: Site, make: Make, probes: str, says: str) -> None:
    """A reading is named by its slots, its place and its load."""
    assert says_measure(make.measure("a", probes, "b"), {}, site) == says


def test_breaker_off_is_part_of_the_name(site: Site, make: Make) -> None:
    """A reading taken with the breaker off says so."""
    says = says_measure(
        make.measure("a", "pedestal-30 L N", "b"), {"pedestal-breaker": frozenset({"off"})}, site
    )
    assert says == "hot to neutral, 30 A outlet, breaker off"


@pytest.mark.parametrize(
    ("reading", "tenths", "shows"),
    [
        (Reading("122", 122, 122, 122, "V"), True, "122.0 V"),
        (Reading("122", 122, 122, 122, "V"), False, "122 V"),
        (Reading("20 mV", 0.02, 0.02, 0.02, "V"), True, "0.02 V"),
        (Reading("118-121", 119.5, 118, 121, "V"), True, "118.0 to 121.0 V"),
        (Reading("OL", float("inf"), float("inf"), float("inf"), "ohm", over=True), True, "over the range"),
    ],
)
def test_a_reading_is_shown_as_the_meter_did(reading: Reading, *, tenths: bool, shows: str) -> None:
    """A reading is shown with the digits of the meter."""
    assert shows_reading(reading, tenths=tenths) == shows


@pytest.mark.parametrize(
    ("value", "unit", "shows"),
    [
        (-0.04, "V", "0.0 V"),
        (4.049, "V", "4.0 V"),
        (0.345, "ohm", "0.34 ohm"),
        (0.5, "1", "0.50"),
        (float("nan"), "V", "nothing certain"),
        (float("inf"), "V", "over the range"),
    ],
)
def test_a_result_is_shown_with_digits_that_help(value: float, unit: str, shows: str) -> None:
    """Results are rounded to what a meter can tell; there is no minus nothing."""
    assert number(value, unit) == shows


# 121.2, 121.3, 243.0 gives a cosine of -1.008 (4-domain, "angle"): clipped, 180 degrees; 208Y is 120 degrees.
@pytest.mark.parametrize(
    ("cosine", "shows"), [(-1.008, "180 degrees"), (-0.5, "120 degrees"), (1.0, "0 degrees")]
)
def test_a_cosine_is_shown_as_its_angle(cosine: float, shows: str) -> None:
    """The cosine is judged, the angle shown."""
    assert shows_amount(cosine, "1", "leg-cosine") == shows


@pytest.mark.parametrize(
    ("low", "high", "unit", "said"),
    [
        (119.77, 123.91, "V", "119.7 to 124.0 V"),
        (120.30000000000001, 120.3, "V", "120.3 to 120.3 V"),
        (-0.04, 0.04, "V", "-0.1 to 0.1 V"),
        (0.0, 0.21, "V", "0.0 to 0.3 V"),
        (0.457, 0.561, "ohm", "0.45 to 0.57 ohm"),
        (1.0, float("inf"), "ohm", "1.00 to over the range"),
    ],
)
def test_bounds_are_rounded_outwards(low: float, high: float, unit: str, said: str) -> None:
    """What may be is never said to be outside of its bounds; a number that needs no rounding stays."""
    assert bounds(low, high, unit) == said


def test_what_is_called_by_two_words_has_no_article_left() -> None:
    """How things stand is told of a generator and inverter, not of "generator and the inverter"."""
    site = shipped().site
    called = [words for _, words, _ in stands(dict.fromkeys(site.states, "off"), site)]
    assert "generator and inverter" in called
    assert not [words for words in called if " and the " in words]
