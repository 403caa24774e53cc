"""Looking whether a file was saved, where the disk does not answer."""

from __future__ import annotations

import errno
import os
from pathlib import Path
from typing import NoReturn

import pytest

from shorewalk.author.watch import Watch


def test_a_folder_that_cannot_be_read_is_a_change_and_no_end(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A disk that is pulled out, or a folder on its way elsewhere: the next look that can be taken tells of it."""
    (tmp_path / "parts").mkdir()
    (tmp_path / "parts" / "marks.yaml").touch()
    watch, glob = Watch(tmp_path), Path.glob
    assert not watch.changed()

    def gone(path: Path, _: str) -> NoReturn:
        raise OSError(errno.EIO, os.strerror(errno.EIO), str(path))

    monkeypatch.setattr(Path, "glob", gone)
    assert watch.changed()
    assert not watch.changed()
    monkeypatch.setattr(Path, "glob", glob)
    assert watch.changed()
