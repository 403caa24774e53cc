"""Handing a walk over and taking one over, from the start of plain text; and what a shared login keeps back."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from shorewalk.journal import Journal
from shorewalk.reach import NOT_HERE, Reach, narrow

from .conftest import NIGHT, Hear, Keep


@pytest.fixture
def shared(tmp_path: Path) -> Iterator[Path]:
    """A shared login; return where its files go."""
    saved = tmp_path / "saved"
    saved.mkdir()
    narrow(Reach("ann", saved))
    yield saved
    narrow(Reach())


def test_a_walk_that_was_left_is_handed_over_and_taken_over(
    hear: Hear, keep: Keep, journal: Journal, tmp_path: Path
) -> None:
    """By its number into a new file; by the file's number it goes on, with every answer."""
    number = keep(NIGHT, "2024-05-02T18:20:00Z", answers=4)
    said = hear("o", "1").said
    assert "\n  1. Hand over: We just arrived and want to plug in, 4 answers, left 02 May 18:20.\n" in said
    (file,) = (tmp_path / "here").iterdir()
    assert file.name in said
    journal.delete(number)
    said = hear("o", "1").said
    assert f"\n  1. Take over: {file.name}.\n" in said
    assert "Taken over: 4 answers" in said
    assert "\nQuestion 5," in said


def test_a_file_is_taken_over_by_its_name(hear: Hear, keep: Keep, tmp_path: Path) -> None:
    """What is no such file is told, and another name may be typed."""
    keep(NIGHT, "2024-05-02T18:20:00Z", answers=4)
    hear("o", "1")
    (file,) = (tmp_path / "here").iterdir()
    moved = file.rename(tmp_path / "elsewhere.json")
    said = hear("o", "nowhere.json", "~nobody/x", "7", str(moved)).said
    assert said.count("Not taken over. ") == 2
    assert '"7" is none of the numbers here.' in said
    assert "\nQuestion 5," in said


def test_with_nothing_there_that_is_said(hear: Hear) -> None:
    """And Enter goes back to the start."""
    said = hear("o", "", "q").said
    assert "No walk was left unfinished here" in said
    assert "Enter: the whole list." in said


def test_a_shared_login_takes_no_paths(hear: Hear, keep: Keep, shared: Path) -> None:
    """Handing over at the start is not to be had, and what is saved goes to the one folder, named without it."""
    keep(NIGHT, "2024-05-02T18:20:00Z")
    said = hear("o", "?", "", "", "l", "1", "e", "s").said
    assert "Hand over: " not in said
    assert NOT_HERE in said
    assert "take one over" not in said
    assert {path.suffix for path in shared.iterdir()} == {".csv", ".md", ".pdf"}
    assert str(shared) not in said
