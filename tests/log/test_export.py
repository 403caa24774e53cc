"""The log in other programs: read back by the libraries that others would read it with."""

from __future__ import annotations

import csv
import io
import json
from datetime import datetime

import pytest

from shorewalk.journal import Journal
from shorewalk.journal.where import Where
from shorewalk.log.as_csv import HEADINGS, as_text, walks_csv
from shorewalk.log.as_json import VERSION, walks_json
from shorewalk.log.kept import kept_walks
from shorewalk.tree.library import shipped
from shorewalk.walk.answers import Answered, from_json
from shorewalk.walk.meter import parse_meter
from shorewalk.walk.walk import resume

from .conftest import ARRIVAL, SITE, SUPPER, Keep


def test_csv_has_a_row_a_reading_with_units_in_its_headings(journal: Journal, keep: Keep) -> None:
    """Read back by the csv library, volts are numbers under a heading with V, and times are ISO 8601."""
    keep(SUPPER, "2024-05-01T18:50:00", SITE)
    rows = list(csv.DictReader(io.StringIO(walks_csv(kept_walks(journal)))))
    first = rows[0]
    assert tuple(first) == HEADINGS
    assert [(row["volts [V]"], row["load on"]) for row in rows] == [
        ("111.8", "no"),
        ("0.4", "no"),
        ("110.2", "yes"),
        ("0.9", "yes"),
    ]
    assert float(first["volts at least [V]"]) < 111.8 < float(first["volts at most [V]"])
    assert (first["park"], first["site"], first["stay from"]) == ("Someday Flats", "14", "2024-05-01")
    assert datetime.fromisoformat(first["time [UTC]"]).tzinfo is not None


@pytest.mark.parametrize("typed", ["=1+1", "+1", "-1", "@SUM(A1)", "  =1+1", "＝1+1", "\t=1"])
def test_no_cell_is_worked_out_by_a_spreadsheet(typed: str) -> None:
    """What begins like a formula has a quote before it, blanks and wide letters notwithstanding."""
    assert as_text(typed) == f"'{typed}"


@pytest.mark.parametrize("typed", ["14", "Someday Flats", "a=b", ""])
def test_ordinary_words_stay_as_they_are(typed: str) -> None:
    """Nothing is put before them."""
    assert as_text(typed) == typed


def test_a_site_that_is_a_formula_leaves_as_text(journal: Journal, keep: Keep) -> None:
    """From what was typed to the cell in the file."""
    keep(SUPPER, "2024-05-01T18:50:00", Where('=HYPERLINK("x","y")', "@14", None, "2024-05-01"))
    rows = list(csv.DictReader(io.StringIO(walks_csv(kept_walks(journal)))))
    assert {(row["park"], row["site"]) for row in rows} == {('\'=HYPERLINK("x","y")', "'@14")}


def test_json_has_a_version_and_every_answer(journal: Journal, keep: Keep) -> None:
    """The answers in it, fed to the same tree, come to the same ending."""
    number = keep(ARRIVAL, "2024-05-01T14:00:00", SITE)
    data = json.loads(walks_json(kept_walks(journal), "2024-05-01T20:00:00Z"))
    assert (data["version"], data["exported"]) == (VERSION, "2024-05-01T20:00:00Z")
    (walk,) = data["walks"]
    assert (walk["walk"], walk["park"], walk["site"], walk["cord_in"]) == (
        number,
        "Someday Flats",
        "14",
        "30 A outlet",
    )
    kinds = ("choose", "reading", "running", "unsure", "unable", "done", "cannot", "confirmed")
    answers = [
        Answered(
            each["tree"],
            each["at"],
            each["nth"],
            from_json({k: each[k] for k in kinds if k in each}),
            each["time"],
        )
        for each in walk["answers"]
    ]
    again, left = resume(shipped(), walk["tree"], parse_meter(walk["meter"]), answers)
    assert left == 0
    assert again.ended
    assert walk["ending"]["verdict"] == "good-to-use"
    assert {reading["unit"] for reading in walk["readings"]} == {"V"}
    assert any(reading["breaker_off"] for reading in walk["readings"])


def test_json_has_every_answer_whatever_the_trees_are_now(journal: Journal, keep: Keep) -> None:
    """Where its tree is gone, all that was answered is in the file, and when the walk was taken up in between."""
    keep(SUPPER, "2024-05-01T18:50:00", SITE)
    journal._database.execute("update answers set resumed = '2024-05-01T19:30:00Z' where n = 3")
    journal._database.execute("update walks set tree = 'gone'")
    (walk,) = json.loads(walks_json(kept_walks(journal), "2024-05-01T20:00:00Z"))["walks"]
    assert (walk["whole"], len(walk["answers"])) == (False, 21)
    resumed = [each["resumed"] for each in walk["answers"]]
    assert resumed == [None] * 3 + ["2024-05-01T19:30:00Z"] + [None] * 17


def test_an_empty_log_is_still_a_file(journal: Journal) -> None:
    """Headings alone, and no walks."""
    assert walks_csv([]).splitlines() == [",".join(HEADINGS)]
    assert json.loads(walks_json(kept_walks(journal), "2024-05-01T20:00:00Z"))["walks"] == []
