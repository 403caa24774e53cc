"""Where the shipped folders are."""

from __future__ import annotations

from pathlib import Path

import pytest

from shorewalk import folders


def test_both_folders_are_there() -> None:
    """Installed or in a checkout, the trees and the invented campground are found."""
    assert (folders.trees() / "arrival.yaml").is_file()
    assert folders.demo_data().is_dir()


def test_a_folder_beside_the_package_goes_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A wheel carries the folders inside the package; a checkout has them two folders up."""
    package = tmp_path / "checkout" / "tui" / "shorewalk"
    package.mkdir(parents=True)
    monkeypatch.setattr(folders, "__file__", str(package / "folders.py"))
    assert folders.trees() == tmp_path / "checkout" / "trees"
    (package / "trees").mkdir()
    assert folders.trees() == package / "trees"
