"""Where a shared login may read, and where it may write."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from shorewalk.folders import demo_data, trees

SYSTEM = ("/usr", "/lib", "/lib64", "/etc", "/dev", "/proc", "/sys")
"""What every program of a system may read, as far as the system lets it."""
DEVICES = ("/dev/null", "/dev/tty", "/dev/urandom")


class Places(NamedTuple):
    """Folders, each with its last slash: the person's own, all walks of this computer, what programs are read from."""

    own: tuple[str, ...]
    walks: tuple[str, ...]
    read: tuple[str, ...]

    def may_read(self, path: str) -> bool:
        """Tell whether a file or folder may be read: nobody else's walks, and nothing that is no program."""
        path = os.path.abspath(path)  # noqa: PTH100 (quicker, and asked for every file that is opened)
        if _under(path, self.own):
            return True
        return not _under(path, self.walks) and _under(path, self.read)

    def may_load(self, path: str) -> bool:
        """Tell whether a library may be loaded: none from where somebody can write. A bare name is the system's."""
        return "/" not in path or (self.may_read(path) and not _under(os.path.abspath(path), self.own))  # noqa: PTH100

    def may_write(self, path: str) -> bool:
        """Tell whether a file may be written, made or taken away."""
        path = os.path.abspath(path)  # noqa: PTH100 (the same)
        if path in DEVICES:
            return True
        return _under(path, self.own) and _under(os.path.realpath(path), self.own)


def places(own: Path, walks: Path) -> Places:
    """Return where somebody may read and write whose walks lie in `own`, one of the folders in `walks`."""
    code = [sys.prefix, sys.exec_prefix, sys.base_prefix, sys.base_exec_prefix, *sys.path]
    code += [str(trees()), str(demo_data()), str(Path(__file__).parents[1]), *SYSTEM]
    return Places(_both([own]), _both([walks]), _both(map(Path, code)))


def _both(folders: Iterable[Path]) -> tuple[str, ...]:
    """Return each folder as it was named and as it lies."""
    found = {
        str(way).rstrip("/") + "/" for folder in folders for way in (folder.absolute(), folder.resolve())
    }
    return tuple(sorted(found))


def _under(path: str, folders: tuple[str, ...]) -> bool:
    return f"{path}/".startswith(folders)
