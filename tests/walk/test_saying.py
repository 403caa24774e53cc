"""How a message gets shorter: fewer letters, then fewer readings, never half of one, always with the request."""

from __future__ import annotations

import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from shorewalk.paper.letters import GSM
from shorewalk.walk.answers import Done, Read
from shorewalk.walk.message import park_message
from shorewalk.walk.meter import Meter
from shorewalk.walk.saying import MOST, MOST_ADDED, MOST_ASKED, terse
from shorewalk.walk.site_words import SITE_MOST, site_words
from shorewalk.walk.walk import Walk, begin

from .conftest import Make, Shelf

SIX = ["121.0", "120.5", "0.4"] * 2
PAIRS = ("L N", "L G", "N G")
OFF = {"cord": "unplugged", "pedestal-breaker": "on"}


def read_all(
    shelf: Shelf, make: Make, basic: Meter, say: str, readings: list[str], *, verdict: str = "stay-unplugged"
) -> Walk:
    """A walk that took these readings, each a watch, and ends with these words."""
    nodes = [
        make.measure(
            f"r{at}",
            f"pedestal-{(30, 20)[at // 3 % 2]} {PAIRS[at % 3]}{' one-leg' if at > 5 else ''}",
            [f"r{at + 1} watch"],
        )
        for at in range(len(readings))
    ]
    shelf.add("t", *nodes, make.end(f"r{len(readings)}", verdict, say=say), starts=OFF)
    walk = begin(shelf, "t", basic)
    for reading in readings:
        walk = walk.answer(Read(reading, confirmed=True))
    return walk


def test_readings_stand_with_their_places_while_there_is_room(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Two readings stand as they were read, each with where."""
    walk = read_all(shelf, make, basic, "We read {readings}. Please look.", ["121.0", "120.5"])
    assert park_message(walk) == (
        "We read hot to neutral, 30 A outlet 121.0 V; hot to ground, 30 A outlet 120.5 V. Please look. Our cord is out."
    )


def test_more_than_somebody_can_write_down_are_counted(shelf: Shelf, make: Make, basic: Meter) -> None:
    """At most six readings are told, hot to neutral first; of the others, how many there are."""
    said = park_message(read_all(shelf, make, basic, "We read {readings}. Please look.", [*SIX, *SIX[:3]]))
    assert said.count(" V") == MOST_ASKED
    assert said.endswith("; 3 more. Please look. Our cord is out.")
    assert len(re.findall("hot to neutral|hot-N", said)) == 3
    long = "The lights went dim, the kettle took its time. " * 4
    said = park_message(read_all(shelf, make, basic, f"{long}We read {{readings}}. Please look.", SIX))
    assert len(said) <= MOST
    assert re.search(r"; \d more\. Please look\. (Our cord is out|Unplugged)\.$", said)
    assert said.count("hot-N") + said.count("hot to neutral") >= 1


def test_pairs_get_fewer_letters_before_readings_are_left_out(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Where there is no room the pairs of slots are abbreviated first, in what the tree wrote too."""
    words = "Hot to neutral {r0}, hot to ground {r1}, neutral to ground {r2}. " + "The lights are dim. " * 12
    said = park_message(read_all(shelf, make, basic, f"{words}Please look.", ["121.0", "120.5", "0.4"]))
    assert len(said) <= MOST
    assert said.startswith("Hot-N 121.0 V, hot-G 120.5 V, N-G 0.4 V.")
    assert terse("Please look. Our cord is out, breaker off.") == "Please look. Unplugged, breaker off."
    assert terse("L1 to L2 243.0 V; ground to earth 0.1 V") == "L1-L2 243.0 V; G-earth 0.1 V"


def test_readings_follow_words_that_tell_none(shelf: Shelf, make: Make, basic: Meter) -> None:
    """What anybody would ask for next is added, hot to neutral of the outlet in use; in an emergency nothing is."""
    told = park_message(read_all(shelf, make, basic, "Please look.", SIX))
    assert told == "Please look. Readings: hot to neutral, 20 A outlet 121.0 V. Our cord is out."
    assert told.count(" V") <= MOST_ADDED
    urgent = read_all(shelf, make, basic, "Switch the loop off.", ["121.0"], verdict="emergency")
    assert park_message(urgent) == "Switch the loop off. Our cord is out."


@pytest.mark.parametrize("shown", ["118-121", "OL", "0.4"])
def test_a_reading_is_told_as_the_meter_showed_it(shelf: Shelf, make: Make, basic: Meter, shown: str) -> None:
    """A display that wandered is told from where to where; what is part of another number is no reading told."""
    walk = read_all(shelf, make, basic, "It was 120.4 V at noon. Please look.", [shown])
    said = park_message(walk)
    assert f"Readings: hot to neutral, 30 A outlet {walk.now.known[-1].shows}. Our cord is out." in said


@pytest.mark.parametrize(
    ("said", "starts"),
    [
        (
            ("Please look.", " Our cord is out, breaker off."),
            {"cord": "unplugged", "pedestal-breaker": "off"},
        ),
        (
            ("We are unplugged. Please look.", " Breaker off."),
            {"cord": "unplugged", "pedestal-breaker": "off"},
        ),
        (("With nothing plugged in it hums. Please look.", ""), {"cord": "unplugged"}),
        (("The breaker is off. Please look.", ""), {"cord": "plugged", "pedestal-breaker": "off"}),
        (("Please look.", " Rig main off."), {"cord": "plugged", "rig-main": "off"}),
        (("Our rig is off. Please look.", ""), {"cord": "plugged", "rig-main": "off"}),
        (("Please look.", " Our cord is out."), {"cord": "unplugged", "rig-main": "off"}),
        (("Please look.", ""), {"cord": "plugged", "pedestal-breaker": "on", "rig-main": "on"}),
        (("Please look.", ""), {}),
    ],
)
def test_what_was_done_is_said_once(
    shelf: Shelf, make: Make, basic: Meter, said: tuple[str, str], starts: dict[str, str]
) -> None:
    """What surely was made safe is said, unless the words say it; what is not sure is not said."""
    say, done = said
    shelf.add("t", make.step("a", "e"), make.end("e", "unplug-now", say=say), starts=starts)
    assert park_message(begin(shelf, "t", basic).answer(Done())) == say + done


@pytest.mark.parametrize(
    ("say", "begins"),
    [
        ("Please look.", "Site 7, 30 A outlet: Please look."),
        ("The 30 A outlet hums. Please look.", "Site 7: The 30 A outlet hums."),
        ("The 20 A outlet hums. Please look.", "Site 7: The 20 A outlet hums."),
        ("The 20 A outlet holds. Please look at our outlet.", "Site 7, 30 A outlet: The 20 A outlet holds."),
        ("Please look. " * 24, "Site 7: Please look."),
    ],
)
def test_the_outlet_is_named_once(shelf: Shelf, make: Make, basic: Meter, say: str, begins: str) -> None:
    """The outlet the cord is in stands after the site, but not where another is meant, or where there is no room."""
    starts = {"cord": "pedestal-30"}
    shelf.add(
        "t", make.step("a", "e"), make.end("e", "unplug-now", say=f"[Site {{site}}: ]{say}"), starts=starts
    )
    walk = begin(shelf, "t", basic).answer(Done())
    assert park_message(walk, "7").startswith(begins)
    assert "outlet:" not in park_message(walk)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(st.text())
def test_no_name_of_a_site_makes_it_too_long(shelf: Shelf, make: Make, basic: Meter, site: str) -> None:
    """Whatever somebody calls the site, it takes at most 24 letters, and only such as a text message has."""
    shelf.trees.clear()
    shelf.add("t", make.step("a", "e"), make.end("e", say="[Site {site}: ]Please look."), starts=OFF)
    said = park_message(begin(shelf, "t", basic).answer(Done()), site)
    assert said.endswith("Please look. Our cord is out.")
    assert len(said) <= len("Site : Please look. Our cord is out.") + SITE_MOST
    assert set(said) <= GSM - {"\n"}


@pytest.mark.parametrize(
    ("site", "told"),
    [
        ("14", "14"),
        ("Riverside Meadows Loop 114", "Meadows Loop 114"),
        ("114 Riverside Meadows Loop", "114 Riverside Meadows"),
        ("Loop 114 by the long meadow", "Loop 114 by the long"),
        ("Riverside Meadows Loop East", "Meadows Loop East"),
        ("Riversidemeadowsloop-east-b", "Riversidemeadowsloop-eas"),
        ("Riversidemeadows-loop-number-114", None),
        ("  ", None),
    ],
)
def test_the_number_of_a_site_is_told_whole(site: str, told: str | None) -> None:
    """Words go before the number does; a number without room is not told by halves."""
    assert site_words(site) == told


def test_the_name_of_a_site_does_not_say_what_was_done(shelf: Shelf, make: Make, basic: Meter) -> None:
    """Where a site is called so, it is said all the same that the cord is out."""
    shelf.add("t", make.step("a", "e"), make.end("e", say="[Site {site}: ]Please look."), starts=OFF)
    said = park_message(begin(shelf, "t", basic).answer(Done()), "Unplugged")
    assert said == "Site Unplugged: Please look. Our cord is out."


def test_the_number_stands_in_the_message(shelf: Shelf, make: Make, basic: Meter) -> None:
    """However long its name, the park is told the number of the site."""
    shelf.add("t", make.step("a", "e"), make.end("e", say="[Site {site}: ]Please look."), starts=OFF)
    said = park_message(begin(shelf, "t", basic).answer(Done()), "Riverside Meadows Loop 114")
    assert said == "Site Meadows Loop 114: Please look. Our cord is out."
