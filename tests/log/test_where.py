"""Where a walk was: what somebody types, what the next walk takes over, and for how long."""

from __future__ import annotations

import pytest

from shorewalk.journal import Entry, Journal, Keeper
from shorewalk.journal.where import LONGEST, Where, here, last, read_where, stay_at, where_of
from shorewalk.tree.library import shipped
from shorewalk.walk.answers import Choose
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import begin

from .conftest import SITE, SUPPER, Clock, Keep


def entry(changed: str, tree: str = "arrival", verdict: str = "good-to-use", **where: str) -> Entry:
    return Entry(1, tree, None, "basic", changed, changed, 3, {"verdict": verdict}, **where)


@pytest.mark.parametrize(
    ("typed", "park", "site"),
    [
        ("14", None, "14"),
        (" 14 ,  Someday   Flats ", "Someday Flats", "14"),
        ("pull-in by the creek", None, "pull-in by the creek"),
        ("14, Someday Flats, north loop", "Someday Flats, north loop", "14"),
        ("14,", None, "14"),
        ("=1+1, @home", "@home", "=1+1"),
        ("７号, 松原", "松原", "７号"),
    ],
)
def test_site_and_park_are_what_stands_before_and_after_the_first_comma(
    typed: str, park: str | None, site: str
) -> None:
    """Names are kept as typed, without the blanks that nobody sees."""
    assert read_where(typed) == Where(park, site)


@pytest.mark.parametrize(
    "typed", ["", " , Someday Flats", "14\u202e, x", "1\u200b4", "14, a\x1b[31m", "1" * (LONGEST + 1)]
)
def test_what_cannot_be_a_site_is_refused_in_a_sentence(typed: str) -> None:
    """Nothing, what cannot be seen, what turns text about, and what is far too long."""
    with pytest.raises(ValueError, match=r"\w.+"):
        read_where(typed)


def test_a_name_that_came_by_another_way_is_shown_without_what_cannot_be_seen() -> None:
    """Whoever wrote the journal: no escape sequence and no turned text reaches the terminal."""
    where = where_of(entry("2024-05-01T12:00:00Z", site="14\x1b[31m\u202e", park="Someday\nFlats"))
    assert (where.site, where.park) == ("14 [31m", "Someday Flats")


NOW = "2024-05-02T12:00:00Z"
PLACE = {"park": "Someday Flats", "site": "14", "visited": "2024-05-01"}


@pytest.mark.parametrize(
    ("entries", "found"),
    [
        ([], None),
        ([entry("2024-05-01T12:00:01Z", **PLACE)], "14"),
        ([entry("2024-05-01T12:00:00Z", **PLACE)], None),  # a day ago
        ([entry("2024-05-02T11:00:00Z"), entry("2024-05-02T10:00:00Z", **PLACE)], "14"),  # one by a program
        ([entry("2024-05-02T11:00:00Z", "leaving", "unplugged", **PLACE)], None),
        ([entry("2024-05-02T11:00:00Z", "leaving", "hands-off", **PLACE)], "14"),
    ],
)
def test_the_next_walk_is_where_the_last_one_was_for_a_day(entries: list[Entry], found: str | None) -> None:
    """Not longer, and not where they have left since."""
    where = here(entries, NOW)
    assert (where.site if where else None) == found


def test_who_passed_the_question_by_is_not_asked_again() -> None:
    """A day without a site stands for it: there is a place, and nothing is known of it."""
    where = here([entry("2024-05-02T11:00:00Z", visited="2024-05-02")], NOW)
    assert where == Where(visited="2024-05-02")


def test_the_last_site_is_offered_for_a_month() -> None:
    """It may still be it after a few days; after a month it is forgotten."""
    there = entry("2024-05-01T12:00:00Z", **PLACE)
    offered = last([there], "2024-05-06T12:00:00Z")
    assert offered == Where("Someday Flats", "14", None, "2024-05-01")
    assert last([there], "2024-06-02T12:00:00Z") is None


def test_a_stay_goes_on_where_the_same_site_is_typed_once_more() -> None:
    """The same site within a day is the same stay, however it is written; else a new one begins today."""
    there = entry("2024-05-02T08:00:00Z", **PLACE)
    assert stay_at([there], Where("SOMEDAY FLATS", "14"), NOW).visited == "2024-05-01"
    assert stay_at([there], Where("Someday Flats", "15"), NOW).visited == "2024-05-02"
    assert stay_at([there], Where("Someday Flats", "14"), "2024-05-09T12:00:00Z").visited == "2024-05-09"


def test_a_walk_is_kept_with_its_site_and_the_outlet_it_was_about(journal: Journal, keep: Keep) -> None:
    """Park, site and day as said; the outlet as the walk found it."""
    kept = journal.entry(keep(SUPPER, "2024-05-01T18:00:00", SITE))
    assert where_of(kept) == SITE._replace(outlet="30 A outlet")


def test_the_next_walk_takes_the_site_over(journal: Journal, keep: Keep, clock: Clock) -> None:
    """Nobody types it twice; the walk says so from its first answer on."""
    keep(SUPPER, "2024-05-01T18:00:00", SITE)
    clock.set("2024-05-02T07:00:00")
    keeper = Keeper(journal)
    assert keeper.placing.where.says == "site 14, Someday Flats"
    keeper.keep(begin(shipped(), "voltage-low", parse_meter("basic")).answer(Choose("pedestal"), clock()))
    assert keeper.number is not None
    assert where_of(journal.entry(keeper.number)).says == "site 14, Someday Flats"


def test_the_site_can_be_said_later(journal: Journal, keep: Keep) -> None:
    """A walk that is taken up again has the site it was given, and takes another."""
    number = keep(SUPPER, "2024-05-01T18:00:00", most=8)
    keeper = Keeper(journal, number)
    assert not keeper.placing.where.site
    keeper.placing.typed("14, Someday Flats")
    assert where_of(journal.entry(number))[:2] == ("Someday Flats", "14")
    assert Keeper(journal, number).placing.where.visited == "2024-05-01"
    with pytest.raises(ValueError, match="Type the site"):
        keeper.placing.typed(",")
