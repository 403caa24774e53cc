"""A process that may do no more than a shared login."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from shorewalk.reach import Reach, narrow, reach


@pytest.fixture
def ann(tmp_path: Path) -> Iterator[Path]:
    """Ann's login, for the length of a test; the folder her files are saved in."""
    before, saved = reach(), tmp_path / "people" / "ann" / "saved"
    saved.mkdir(parents=True)
    narrow(Reach("ann", saved))
    yield saved
    narrow(before)
