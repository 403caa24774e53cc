"""Small trees to try the reader on."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from shorewalk.tree.library import Library, shipped
from shorewalk.tree.model import Tree

Make = Callable[..., Library]
SAMPLES = Path(__file__).parent / "samples"


@pytest.fixture
def library(tmp_path: Path) -> Make:
    """Make a library of the samples, with `files` by path instead of or beside them."""
    shutil.copytree(SAMPLES, tmp_path, dirs_exist_ok=True)

    def make(files: dict[str, str] | None = None, *, checked: bool = True) -> Library:
        for name, text in (files or {}).items():
            (tmp_path / name).write_text(text, encoding="utf-8")
        return Library(tmp_path, checked=checked)

    return make


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Give a test each shipped tree, or each shipped file, by name."""
    if "shipped_tree" in metafunc.fixturenames:
        metafunc.parametrize("shipped_tree", shipped().names(), indirect=True)
    if "shipped_file" in metafunc.fixturenames:
        files = [*shipped().folder.glob("*.yaml"), *shipped().folder.glob("parts/*.yaml")]
        metafunc.parametrize("shipped_file", sorted(files), ids=lambda path: path.stem)


@pytest.fixture
def shipped_tree(request: pytest.FixtureRequest) -> Tree:
    """Each tree that comes with the program, put together."""
    return shipped().tree(request.param)
