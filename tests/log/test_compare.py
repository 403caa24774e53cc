"""The same readings at other times: which belong together, and how far they moved."""

from __future__ import annotations

from shorewalk.journal import Journal
from shorewalk.journal.where import Where
from shorewalk.log.compare import Group, compared
from shorewalk.log.hours import hours_of
from shorewalk.log.kept import kept_walks
from shorewalk.log.stays import Site, sites_of
from shorewalk.tree.library import shipped

from .conftest import ARRIVAL, BEFORE, SITE, SUPPER, Keep

AT = "idle.hot_neutral"


def site_of(journal: Journal) -> Site:
    (site,) = sites_of(kept_walks(journal))
    return site


def main_group(journal: Journal) -> Group:
    return compared(site_of(journal))[0]


def test_readings_of_one_pair_at_rest_and_loaded_stand_side_by_side(journal: Journal, keep: Keep) -> None:
    """111.8 V at rest and 110.2 V with a heater on, of the same rig outlet in the same walk, are one row."""
    number = keep(SUPPER, "2024-05-01T18:50:00", SITE)
    group = main_group(journal)
    ((row,),) = (part.rows for part in group.parts)
    assert (group.about, group.outlet, group.unit) == (
        "hot to neutral, chosen rig outlet",
        "30 A outlet",
        "V",
    )
    assert row.rest is not None
    assert row.loaded is not None
    assert (row.walk, row.rest.known.value, row.loaded.known.value) == (number, 111.8, 110.2)
    assert row.time == "2024-05-01T18:53:20Z"  # the eleventh answer, twenty seconds each


def test_how_far_it_moved_is_told_against_the_first_of_the_stay(journal: Journal, keep: Keep) -> None:
    """109.9 V in the evening are 1.9 V less than the 111.8 V before; the first one has nothing to be told against."""
    keep(SUPPER, "2024-05-01T07:30:00", SITE)
    keep(SUPPER, "2024-05-01T18:50:00", SITE, {AT: "109.9"})
    (part,) = main_group(journal).parts
    first, second = part.rows
    assert part.change(first) is None
    assert round(part.change(second) or 0, 6) == -1.9


def test_each_stay_is_told_by_itself(journal: Journal, keep: Keep) -> None:
    """A visit the year before is another part, and its first reading counts for it alone."""
    keep(SUPPER, "2023-09-10T18:50:00", BEFORE, {AT: "113.0"})
    keep(SUPPER, "2024-05-01T18:50:00", SITE)
    assert [(part.began, len(part.rows)) for part in main_group(journal).parts] == [
        ("2023-09-10", 1),
        ("2024-05-01", 1),
    ]


def test_what_was_read_elsewhere_is_not_compared(journal: Journal, keep: Keep) -> None:
    """Another site, another park, and a walk of which nobody said where it was are sites of their own."""
    keep(SUPPER, "2024-05-01T07:30:00", SITE)
    keep(SUPPER, "2024-05-01T08:30:00", SITE._replace(site="15"))
    keep(SUPPER, "2024-05-01T09:30:00", SITE._replace(park="Cedar Bend"))
    keep(SUPPER, "2024-05-01T10:30:00", Where(visited="2024-05-01"))
    sites = sites_of(kept_walks(journal))
    assert [site.says for site in sites] == [
        "No site, from 01 May 2024",
        "Site 14, Cedar Bend",
        "Site 15, Someday Flats",
        "Site 14, Someday Flats",
    ]
    assert {len(site.walks) for site in sites} == {1}


def test_the_rig_is_compared_by_the_outlet_its_cord_was_in(journal: Journal, keep: Keep) -> None:
    """The 20 A outlet hangs on other wires than the 30 A one: its volts in the rig are another row of readings."""
    keep(SUPPER, "2024-05-01T07:30:00", SITE)
    keep("voltage-low-half-101", "2024-05-01T18:30:00", SITE)
    outlets = {group.outlet for group in compared(site_of(journal)) if group.quantity == "rig-hot-neutral"}
    assert len(outlets) == 2


def test_readings_with_the_breaker_off_are_left_out(journal: Journal, keep: Keep) -> None:
    """They show that nothing is there, and are no volts to compare."""
    keep(ARRIVAL, "2024-05-01T14:00:00", SITE)
    site = site_of(journal)
    dead = [reading for walk in site.walks for reading in walk.readings if reading.dead]
    shown = {
        reading.known.index
        for group in compared(site)
        for loaded in (True, False)
        for reading in group.readings(loaded=loaded)
    }
    assert dead
    assert shown
    assert shown.isdisjoint(reading.known.index for reading in dead)


def test_a_drawing_needs_two_times(journal: Journal, keep: Keep) -> None:
    """One walk has a reading at rest and one loaded, minutes apart: that is drawn. A single reading is not."""
    keep(SUPPER, "2024-05-01T18:50:00", SITE, most=11)
    assert hours_of(compared(site_of(journal)), shipped().site.limits) is None
    keep(SUPPER, "2024-05-02T07:30:00", SITE)
    plot = hours_of(compared(site_of(journal)), shipped().site.limits)
    assert plot is not None
    rest = next(curve for curve in plot.curves if curve.says == "at rest")
    assert rest.y == (111.8, 111.8)
    assert [round(at, 2) for at in rest.x] == [18.88, 7.55]  # 18:53 and 07:33
    assert plot.across == (0.0, 24.0)
