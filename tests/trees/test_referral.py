"""Whom an ending calls: the first row of the referral table that fits a walk decides, over every recorded walk.

Recorded walks reach every ending, so this holds the table against them all. The rows are common practice: what
shows at the park's outlet with nothing of ours in it is the park's; what is ours alone is a licensed electrician's.
Only the park can switch off a whole loop, so whoever must keep hands off calls the park.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest

from shorewalk.folders import demo_data
from shorewalk.replay import read_recorded
from shorewalk.tree.library import shipped
from shorewalk.tree.model import Ask
from shorewalk.walk.answers import Cannot, Choose, Unable, Unsure
from shorewalk.walk.ending import Ending, ending
from shorewalk.walk.known import Known
from shorewalk.walk.refused import Refused
from shorewalk.walk.walk import Walk, begin

SITE = shipped().site
STOPS = ("stop", "danger")


class Ended(NamedTuple):
    """A recorded walk at its end: its signs with the last answer to each, what stopped it, and what it lacks.

    `given_up`: it ended with what could not be done, read or told; `doubts`: there was such a thing on the way.
    `dead`: the outlet was read last as without power.
    """

    name: str
    end: Ending
    signs: dict[str, str]
    stops: tuple[Known, ...]
    looks: dict[str, bool]
    given_up: bool
    doubts: bool
    dead: bool

    def saw(self, sign: str, *answers: str) -> bool:
        return self.signs.get(sign) in answers

    @property
    def ours(self) -> bool:
        """Whether it is known to be ours: nothing of the park's is in doubt, and somebody may act on it."""
        hands = self.end.verdict in ("hands-off", "emergency")
        return not (hands or self.given_up or self.dead or any(map(parks, self.stops)))


def parks(known: Known) -> bool:
    """Tell whether a stop is the park's by the facts: its side, or a reading taken at the pedestal."""
    if known.sign:
        return SITE.signs[known.sign].side == "park"
    place, quantity = SITE.places.get(known.place or ""), SITE.quantities.get(known.quantity or "")
    return (place is not None and place.at == "pedestal") or (
        quantity is not None and quantity.side == "park"
    )


class Row(NamedTuple):
    """A row of the table: what is found, how that is told from a walk, whom it calls."""

    found: str
    fits: Callable[[Ended], bool]
    call: str


def hot_at(*places: str) -> Callable[[Ended], bool]:
    return lambda walk: walk.saw("heat", "warm", "hot") and walk.saw("heat-where", *places)


TABLE = (
    Row("fire, smoke, somebody hurt", lambda w: w.end.verdict == "emergency", "park"),
    Row("shows at the park's outlet", lambda w: any(map(parks, w.stops)), "park"),
    Row("an outlet without power", lambda w: w.dead, "park"),
    Row("a smell of burning", lambda w: w.saw("smell", "burning"), "park"),
    Row(
        "hands off, the outlet's ground not proved",
        lambda w: (
            w.end.verdict == "hands-off" and not (w.looks.get("full-look") and w.looks.get("earth-look"))
        ),
        "park",
    ),
    Row(
        "our plug scorched and the outlet clean",
        lambda w: w.ours and w.saw("plug-marks", "present"),
        "electrician",
    ),
    Row("our ground pin missing", lambda w: w.ours and w.saw("ground-pin-looks", "missing"), "electrician"),
    Row("heat at the outlet-plug pair", hot_at("outlet", "plug", "breaker"), "park"),
    Row(
        "heat at inlet, cord, adapter",
        lambda w: w.ours and hot_at("inlet", "cord", "adapter")(w),
        "electrician",
    ),
    Row("trips with nothing plugged in", lambda w: w.saw("trip-when", "cord-unplugged"), "park"),
    Row(
        "trips at plug-in, at main-on, on one circuit",
        lambda w: (
            w.ours
            and not w.doubts
            and w.saw("trip-when", "at-plug-in", "at-main-on", "one-circuit", "when-motor-starts")
        ),
        "electrician",
    ),
    Row(
        "a complaint about ground, neutral or polarity",
        lambda w: w.saw("protector-complaint", "open-ground", "open-neutral", "reversed"),
        "park",
    ),
    Row(
        "a mute or hot protector",
        lambda w: w.ours and w.saw("protector-complaint", "heat", "no-words"),
        "electrician",
    ),
    Row("transfer switch buzzes", lambda w: w.ours and w.saw("transfer-sound", "buzzes"), "electrician"),
    Row("two sources on one lead", lambda w: w.ours and w.saw("source-joined", "two-plugs"), "electrician"),
    Row("some dim, others bright", lambda w: w.saw("lights-how", "some-dim-some-bright"), "park"),
)


@cache
def recorded() -> tuple[Ended, ...]:
    paths = sorted((demo_data() / "walks").glob("*.yaml"))
    return tuple(found for path in paths if (found := ended(path)))


def ended(path: Path) -> Ended | None:
    """Follow a recorded walk; one that no longer comes to an end is told by the test that replays it."""
    found = read_recorded(path)
    walk = begin(shipped(), found.walk, found.meter)
    try:
        for _, _, answer, time in found.answers:
            walk = walk.answer(answer, time=time)
        end = ending(walk)
    except Refused:
        return None
    known = walk.now.known
    stops = tuple(one for one in known if one.grade in STOPS)
    lacking = [isinstance(one.answer, Cannot | Unable | Unsure) for one in walk.answers]
    return Ended(
        path.stem,
        end,
        dict(signs_of(walk)),
        stops,
        dict(walk.now.looks),
        given_up=lacking[-1],
        doubts=any(lacking),
        dead=is_dead(known),
    )


def is_dead(known: Iterable[Known]) -> bool:
    """Tell whether the last reading of hot to neutral at the pedestal shows less than a supply gives (90 V)."""
    read = [one for one in known if one.quantity == "hot-neutral" and one.value is not None]
    last = max(read, key=lambda one: one.index, default=None)
    return last is not None and last.value is not None and last.value < SITE.limits["ghost-high"].value


def signs_of(walk: Walk) -> Iterator[tuple[str, str]]:
    for answered in walk.answers:
        node = shipped().tree(answered.tree).nodes.get(answered.at)
        if isinstance(node, Ask):
            answer = answered.answer
            yield node.sign, answer.id if isinstance(answer, Choose) else "unsure"


@pytest.mark.parametrize("row", TABLE, ids=lambda row: row.found.replace(" ", "-"))
def test_the_first_row_that_fits_decides_whom_to_call(row: Row) -> None:
    """Every recorded walk that this row decides calls whom the table says, and there is one."""
    earlier = TABLE[: TABLE.index(row)]
    mine = [walk for walk in recorded() if row.fits(walk) and not any(one.fits(walk) for one in earlier)]
    assert mine, "no recorded walk comes to this row"
    wrong = {f"{walk.name}: {walk.end.tree} {walk.end.at}" for walk in mine if walk.end.call != row.call}
    assert wrong == set()


def test_an_emergency_names_the_emergency_services_first() -> None:
    """And nothing else does."""
    for walk in recorded():
        assert (walk.end.first == "emergency-services") is (walk.end.verdict == "emergency"), walk.name


def test_every_ending_says_what_was_not_ruled_out() -> None:
    """By the tree, or by the looks that were not taken. An emergency looks for nothing."""
    silent = {
        f"{walk.end.tree} {walk.end.at}"
        for walk in recorded()
        if walk.end.verdict != "emergency" and not walk.end.not_ruled_out
    }
    assert silent == set()
