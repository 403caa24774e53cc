"""`shorewalk log` as it is typed."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest

from shorewalk.journal import Journal
from shorewalk.lines import cells

from .conftest import SITE, SUPPER, Keep, Run, Typed


def test_walks_stand_under_their_site_and_stay(full: Journal, typed: Typed) -> None:
    """The latest first; how each ended, by a mark and a word; what to type next beside the result."""
    ended = typed("log")
    assert ended.returncode == 0
    lines = [line.strip() for line in ended.stdout.splitlines() if line.strip()]
    assert lines[0] == "Site 14, Someday Flats"
    assert lines[1:4] == [
        "Stay from 01 May 2024",
        "5  02 May 18:58 The voltage is too low",
        "○ Leave the cord as it is",
    ]
    assert lines.index("Stay from 10 Sep 2023") > lines.index("Stay from 01 May 2024")
    assert lines[-3:] == ["No site", "2  20 Apr 18:00 The voltage is too low", "○ Leave the cord as it is"]
    assert "shorewalk log SITE" in ended.stderr
    assert len(full.walks()) == 5


@pytest.mark.parametrize(
    "words", [("14",), ("site:14",), ("someday flats",), ("Someday", "Flats,", "14"), ("site", "14")]
)
def test_a_site_is_compared_however_it_is_named(full: Journal, typed: Typed, words: tuple[str, ...]) -> None:
    """Its number, its park or both: the readings at rest and loaded, and how far they moved."""
    said = typed("log", *words).stdout
    assert "02 May 19:01  110.9 ▲  109.1 ▲   -10.9" in said.splitlines()
    assert "hour of the day" in said
    assert full.problem is None


def test_a_pipe_gets_plain_text(full: Journal, run: Run) -> None:
    """The program itself, read by another: no escape sequence, the list on stdout, the advice beside it."""
    ended = run("log", COLUMNS="40")
    assert (ended.returncode, ended.stdout.splitlines()[0]) == (0, "Site 14, Someday Flats")
    assert "\x1b" not in ended.stdout + ended.stderr
    assert full.problem is None


@pytest.mark.parametrize("columns", [40, 60, 100])
def test_it_fits_a_phone(full: Journal, typed: Typed, columns: int) -> None:
    """No line is wider than the terminal."""
    for words in ((), ("14",), ("walk:3",)):
        said = typed("log", *words, COLUMNS=str(columns)).stdout
        assert said
        assert max(map(cells, said.splitlines())) <= columns
    assert full.problem is None


def test_a_terminal_of_ascii_gets_ascii(full: Journal, typed: Typed) -> None:
    """Marks, frames and all."""
    assert typed("log", "14", SHOREWALK_ASCII="1", COLUMNS="40").stdout.isascii()
    assert full.problem is None


def test_one_walk_is_shown_with_its_readings(full: Journal, typed: Typed) -> None:
    """Where, when, how it ended and every reading that counts."""
    said = typed("log", "walk:4").stdout
    assert typed("log", "last").stdout == typed("log", "walk:5").stdout
    for part in (
        "site 14, Someday Flats; 30 A outlet; stay from 01 May 2024",
        "○ Leave the cord as it is",
        "111.8 V  ▲ watch",
    ):
        assert part in said
    assert full.problem is None


def test_exports_go_to_stdout_alone(full: Journal, typed: Typed) -> None:
    """Of everything or of what was named; nothing but the file stands there."""
    rows = list(csv.DictReader(io.StringIO(typed("log", "--export", "csv").stdout)))
    assert {row["walk"] for row in rows} == {"1", "2", "3", "4", "5"}
    data = json.loads(typed("log", "walk:4", "--export", "json").stdout)
    assert [walk["walk"] for walk in data["walks"]] == [4]
    assert full.problem is None


def test_the_message_has_the_site_that_was_kept(full: Journal, typed: Typed) -> None:
    """The words to say to the park; for the electrician the whole record."""
    message = typed("log", "4", "--message", "park").stdout
    assert message.startswith("Site 14")
    assert "Our supply is low: 111.8 V." in message
    record = typed("log", "last", "--message", "electrician").stdout
    assert "## Also possible, by the numbers alone" in record, "what the readings cannot rule out"
    assert "110.9 V" in record
    assert "Someday Flats" in record
    assert full.problem is None


def test_a_pdf_is_written_and_nothing_written_over(full: Journal, typed: Typed, tmp_path: Path) -> None:
    """To a new file; one that is there stays."""
    assert typed("log", "4", "--pdf", "walk.pdf").returncode == 0
    assert (tmp_path / "walk.pdf").read_bytes().startswith(b"%PDF-")
    again = typed("log", "4", "--pdf", "walk.pdf")
    assert (again.returncode, len(again.stderr.splitlines())) == (2, 1)
    assert full.problem is None


def test_where_a_walk_was_can_be_said_later(full: Journal, typed: Typed) -> None:
    """And taken back by saying nothing."""
    assert typed("log", "2", "--at", "7, Someday Flats").stdout == "Walk 2: site 7, Someday Flats.\n"
    assert full.entry(2).visited == "2024-04-20"
    assert typed("log", "2", "--at", "").stdout == "Walk 2: no site.\n"
    assert full.entry(2).site is None


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("99",), 'There is no site and no walk "99". There are: site 14, Someday Flats; walks 1 to 5.'),
        (("walk:99",), 'There is no site and no walk "walk:99".'),
        (("99", "--message", "park"), 'There is no walk "99"'),
        (("--message", "park"), "Of which walk?"),
        (("4", "--at", "14\u202e"), "--at: The character U+202E"),
        (("4", "--delete"), "Nobody is here to answer: say --yes."),
        (("4", "--delete-all"), "--delete-all deletes every walk."),
        (("4", "--delete", "--export", "csv"), "One thing at a time: --export or --delete."),
        (("4", "--yes"), "--yes answers for --delete or --delete-all."),
    ],
)
def test_what_cannot_be_done_is_said_in_one_line(
    full: Journal, typed: Typed, words: tuple[str, ...], says: str
) -> None:
    """Nothing on stdout, one line beside it, exit 2, and every walk is still there."""
    ended = typed("log", *words)
    assert (ended.returncode, ended.stdout, len(ended.stderr.splitlines())) == (2, "", 1)
    assert says in ended.stderr
    assert len(full.walks()) == 5


def test_an_empty_log_says_how_to_begin(typed: Typed) -> None:
    """Nothing is kept yet."""
    ended = typed("log")
    assert (ended.returncode, ended.stdout) == (0, "No walk is kept yet. Begin one: shorewalk\n")


def test_a_file_that_is_no_journal_is_told_and_left_alone(typed: Typed, home: Path) -> None:
    """One line with the folder, exit 3; the file is as it was."""
    home.mkdir()
    file = home / "walks.sqlite3"
    file.write_bytes(b"garbage" * 100)
    ended = typed("log", "--delete-all", "--yes")
    assert (ended.returncode, ended.stdout, len(ended.stderr.splitlines())) == (3, "", 1)
    assert str(home) in ended.stderr
    assert file.read_bytes() == b"garbage" * 100


def test_a_walk_unfinished_has_no_message_yet(journal: Journal, keep: Keep, typed: Typed) -> None:
    """It says how to go on instead."""
    number = keep(SUPPER, "2024-05-01T18:50:00", SITE, most=8)
    ended = typed("log", str(number), "--message", "park")
    assert f"shorewalk walk --resume {number}" in ended.stderr
    assert journal.problem is None


def test_a_tree_that_is_gone_leaves_what_was_told(
    journal: Journal, keep: Keep, typed: Typed, tmp_path: Path
) -> None:
    """The walk is listed, its ending stands as it was told then, and exports do not fail."""
    number = keep(SUPPER, "2024-05-01T18:50:00", SITE)
    journal._database.execute("update walks set tree = 'gone', folder = ?", (str(tmp_path / "nowhere"),))
    said = typed("log", f"walk:{number}")
    assert said.returncode == 0
    assert "Told then:" in said.stdout
    assert "111.8 V" in said.stdout
    assert json.loads(typed("log", "--export", "json").stdout)["walks"][0]["whole"] is False
    assert typed("log").returncode == 0
    assert typed("log", "14").returncode == 0


def test_practice_is_in_no_log(run: Run) -> None:
    """What was answered at a make-believe pedestal is not among real walks."""
    practised = run("practice", "creek-1", "--seed", "3", "--plain", given="1\n1\n1\n")
    assert "A practice walk is not kept." in practised.stdout
    assert run("log").stdout == "No walk is kept yet. Begin one: shorewalk\n"


@pytest.mark.parametrize("ending", ["[1]", "7", "{", "null", '{"readings": 7}'])
def test_an_ending_that_is_damaged_gives_no_traceback(
    journal: Journal, keep: Keep, typed: Typed, tmp_path: Path, ending: str
) -> None:
    """The list, the walk and both exports come all the same, where its tree is gone too."""
    keep(SUPPER, "2024-05-01T18:50:00", SITE)
    journal._database.execute("update walks set ending = ?, folder = ?", (ending, str(tmp_path / "nowhere")))
    for words in ((), ("last",), ("--export", "json"), ("--export", "csv")):
        assert typed("log", *words).returncode == 0


def test_one_answer_is_one_and_a_stay_that_nobody_said_is_not_told(
    journal: Journal, keep: Keep, typed: Typed
) -> None:
    """Of a walk with one answer, of which nobody said where it was."""
    keep(SUPPER, "2024-05-01T18:50:00", most=1)
    assert "Not finished: 1 answer so far" in typed("log").stdout
    said = typed("log", "last").stdout
    assert ", 1 answer, meter" in said
    assert "stay from" not in said
    assert "voltage-low, 1 answer, 2024" in typed("walk", "--resume", "9", "--plain").stderr
    assert journal.problem is None


def test_a_walk_with_a_damaged_meter_is_not_gone_on_with(journal: Journal, keep: Keep, typed: Typed) -> None:
    """One line says so; nothing falls over."""
    number = keep(SUPPER, "2024-05-01T18:50:00", SITE, most=8)
    journal._database.execute("update walks set meter = 'rubber'")
    said = typed("walk", "--resume", str(number), "--plain")
    assert said.stderr.strip() == f'The meter of walk {number} cannot be read: "rubber".'
