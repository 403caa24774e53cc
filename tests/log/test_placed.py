"""A site that nobody said of this walk: told at its end, and kept out of a message that sends somebody at once."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from shorewalk.journal import Journal, Keeper
from shorewalk.journal.where import here
from shorewalk.log.handing_out import message_of
from shorewalk.log.kept import Kept
from shorewalk.log.placed import placed_words
from shorewalk.plain.talk import Talk
from shorewalk.screens.ending import EndingScreen

from .conftest import SITE, SUPPER, Clock, Keep
from .driving import app_on, press, shown

URGENT = "hot-plug-flames"
AGAIN = "Site 14 is from your walk of 01 May 18:58"


def said_at_the_end(journal: Journal, number: int, *typed: str) -> str:
    """Return what plain text says of a kept walk that has ended."""
    out = io.StringIO()
    keeper = Keeper(journal, number)
    Talk(journal.load(number), keeper, io.StringIO("".join(f"{line}\n" for line in typed)), out, 200).run()
    return out.getvalue()


@pytest.fixture
def before(keep: Keep) -> int:
    """A walk of the evening, of which the site was said."""
    return keep(SUPPER, "2024-05-01T18:58:00", SITE)


def test_a_site_that_was_taken_over_is_told(journal: Journal, before: int, keep: Keep) -> None:
    """From which walk it is stands beside the message, also when it is opened again; one that was said does not."""
    later = keep(SUPPER, "2024-05-02T07:00:00")
    text = said_at_the_end(journal, later)
    assert f"{AGAIN}; t changes it." in text
    assert "Say: Site 14" in text
    assert "from your walk" not in said_at_the_end(journal, before)


@pytest.mark.usefixtures("before")
def test_it_is_told_of_the_walk_in_which_somebody_said_it(journal: Journal, keep: Keep) -> None:
    """Not of the walk between, which had it from there too."""
    keep(SUPPER, "2024-05-02T07:00:00")
    assert AGAIN in said_at_the_end(journal, keep(SUPPER, "2024-05-02T08:00:00"))


@pytest.mark.usefixtures("before")
def test_nobody_is_sent_to_a_site_that_was_taken_over(journal: Journal, keep: Keep) -> None:
    """Where somebody must come at once the message names the site only when it was said of this walk."""
    urgent = keep(URGENT, "2024-05-02T07:00:00")
    text = said_at_the_end(journal, urgent)
    assert f"{AGAIN}, so it is left out; t adds it." in text
    assert "ite 14" not in text.replace(AGAIN, "")
    assert "ite 14" not in message_of(Kept(journal, journal.entry(urgent)), "park", "2024-05-02T08:00:00Z")
    assert "ite 14" not in message_of(
        Kept(journal, journal.entry(urgent)), "electrician", "2024-05-02T08:00:00Z"
    )
    assert "Say: Site 14" in said_at_the_end(journal, urgent, "t", "14, Someday Flats")
    assert "ite 14" in message_of(Kept(journal, journal.entry(urgent)), "park", "2024-05-02T08:00:00Z")
    assert "from your walk" not in said_at_the_end(journal, urgent)


def test_a_copy_says_no_more_than_the_walk_it_is_of(journal: Journal, before: int, keep: Keep) -> None:
    """Where a walk is open elsewhere and gone on with as a copy, its site is taken over there as well."""
    later, copy = keep(SUPPER, "2024-05-02T07:00:00"), Keeper(journal)
    copy.placing.copy_of(later)
    assert (copy.placing.where.site, copy.placing.site_for("emergency")) == ("14", None)
    copy.placing.copy_of(before)
    assert (copy.placing.taken_from, copy.placing.site_for("emergency")) == (None, "14")


@pytest.mark.usefixtures("before")
async def test_the_app_tells_it_beside_the_message(journal: Journal, tmp_path: Path, keep: Keep) -> None:
    """The page of the ending says the same, and `t` puts the site in."""
    urgent = keep(URGENT, "2024-05-02T07:00:00")
    app = app_on(journal, tmp_path)
    async with app.run_test(size=(80, 40)) as pilot:
        await pilot.pause()
        app.go_on(urgent)
        await pilot.pause()
        assert isinstance(app.screen, EndingScreen)
        assert f"{AGAIN}, so it is left out; t adds it." in shown(app)
        assert "ite 14" not in app.screen.found.say
        await press(pilot, "t", "14", "enter")
        assert "from your walk" not in shown(app)
        assert "ite 14" in app.screen.found.say


@pytest.mark.usefixtures("before")
def test_what_is_told_fits_the_narrowest_page(journal: Journal, clock: Clock) -> None:
    """Two rows of 40 columns hold it, whatever the verdict."""
    clock.set("2024-05-02T07:00:00")
    placing = Keeper(journal).placing
    for verdict in ("stay-unplugged", "emergency"):
        assert len(placed_words(placing, verdict) or "") in range(1, 80)


def test_a_walk_from_another_machine_places_no_later_one(journal: Journal, before: int) -> None:
    """Somebody else was there; the walks of this machine are where they were."""
    entry = journal.entry(before)
    assert here([entry._replace(placed="handed")], "2024-05-01T20:00:00Z") is None
    assert here([entry], "2024-05-01T20:00:00Z") == SITE._replace(outlet="30 A outlet")
