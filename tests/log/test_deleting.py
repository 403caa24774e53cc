"""Deleting: asked once, said, and really gone."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk.journal import Journal
from shorewalk.journal.where import Where
from shorewalk.log.command import Asked, Out, run_log
from shorewalk.starting import Usage

from .conftest import SITE, SUPPER, Keep, Run

PARK = "Quillon Reach"
"""An invented park with a name that is nowhere else."""
THERE = Where(PARK, "14", None, "2024-05-01")


class Heard:
    """What was said and asked; `answer` is what is answered."""

    def __init__(self, *, answer: bool = True) -> None:
        self.said: list[str] = []
        self.asked: list[str] = []
        self._answer = answer
        self.out = Out(self.said.append, self.said.append, self._confirm, 80)

    def _confirm(self, question: str) -> bool:
        self.asked.append(question)
        return self._answer

    @property
    def text(self) -> str:
        return "".join(self.said)


def on_disk(home: Path, word: str) -> list[str]:
    """Return the files in which a word stands."""
    return [str(path) for path in home.rglob("*") if path.is_file() and word.encode() in path.read_bytes()]


def test_a_deleted_walk_leaves_no_trace(journal: Journal, keep: Keep, home: Path) -> None:
    """Neither the park's name nor an answer stands in any file any more; the other walk is whole."""
    gone = keep(SUPPER, "2024-05-01T07:30:00", THERE)
    stays = keep(SUPPER, "2024-05-02T18:50:00", SITE)
    assert on_disk(home, PARK)
    heard = Heard()
    assert run_log(Asked(f"walk:{gone}", delete=True), journal, heard.out) == 0
    assert not on_disk(home, PARK)
    assert [entry.id for entry in journal.walks()] == [stays]
    assert len(journal.load(stays).answers) == 21
    assert len(heard.asked) == 1
    assert "voltage-low" in heard.asked[0]
    assert heard.text.startswith(f"Deleted 1 walk: walk {gone} (voltage-low, 01 May 07:30, 21 answers).")


def test_all_walks_of_a_site_go_together(journal: Journal, keep: Keep, home: Path) -> None:
    """A site is named by its number or its park."""
    keep(SUPPER, "2024-05-01T07:30:00", THERE)
    keep(SUPPER, "2024-05-01T18:50:00", THERE)
    keep(SUPPER, "2024-05-02T18:50:00", SITE)
    assert run_log(Asked(PARK.lower(), delete=True), journal, Heard().out) == 0
    assert not on_disk(home, PARK)
    assert len(journal.walks()) == 1


def test_delete_all_deletes_all(journal: Journal, keep: Keep, home: Path) -> None:
    """No walk, no answer and no site is left; without a question with --yes."""
    keep(SUPPER, "2024-05-01T07:30:00", THERE)
    keep(SUPPER, "2024-05-02T18:50:00", SITE)
    heard = Heard()
    assert run_log(Asked(everything=True, yes=True), journal, heard.out) == 0
    assert not journal.walks()
    assert not on_disk(home, PARK)
    assert not on_disk(home, "111.8")
    assert (heard.asked, "Deleted 2 walks" in heard.text) == ([], True)


def test_who_says_no_keeps_everything(journal: Journal, keep: Keep) -> None:
    """Asked once; anything but yes is no."""
    keep(SUPPER, "2024-05-01T07:30:00", THERE)
    heard = Heard(answer=False)
    assert run_log(Asked(everything=True), journal, heard.out) == 0
    assert (len(heard.asked), heard.text, len(journal.walks())) == (1, "Nothing was deleted.\n", 1)


def test_a_number_that_is_a_site_and_a_walk_is_not_guessed(journal: Journal, keep: Keep) -> None:
    """What is deleted has to be said: site:1 or walk:1."""
    keep(SUPPER, "2024-05-01T07:30:00", Where(PARK, "1", None, "2024-05-01"))
    keep(SUPPER, "2024-05-01T18:50:00", Where(PARK, "1", None, "2024-05-01"))
    with pytest.raises(Usage, match="site:1 or walk:1"):
        run_log(Asked("1", delete=True, yes=True), journal, Heard().out)
    assert len(journal.walks()) == 2


def test_a_walk_that_is_open_in_another_window_stays(
    journal: Journal, keep: Keep, home: Path, run: Run
) -> None:
    """Somebody is walking it, and it would come back with the next answer; another one goes, without a trace."""
    gone = keep(SUPPER, "2024-05-01T07:30:00", THERE)
    number = keep(SUPPER, "2024-05-02T07:30:00", SITE, most=8)  # it stays open here
    refused = run("log", f"walk:{number}", "--delete", "--yes")
    assert (refused.returncode, refused.stdout) == (2, "")
    assert refused.stderr.startswith(f"Walk {number} is open in another shorewalk.")
    assert run("log", f"walk:{gone}", "--delete", "--yes").returncode == 0
    assert [entry.id for entry in journal.walks()] == [number]
    assert not on_disk(home, PARK)


def test_nothing_to_delete_is_said(journal: Journal) -> None:
    """An empty log, and deleting without a name."""
    heard = Heard()
    assert run_log(Asked(everything=True), journal, heard.out) == 0
    assert "nothing to delete" in heard.text
    with pytest.raises(Usage, match="Delete what"):
        run_log(Asked(delete=True), journal, heard.out)
