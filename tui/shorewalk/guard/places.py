"""Where a shared login may read, and where it may write."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

from shorewalk.folders import demo_data, trees

SYSTEM = ("/usr", "/lib", "/lib64", "/etc")
"""What every program of a system may read, as far as the system lets it. Not /proc: it leads everywhere."""
DEVICES = ("/dev/null", "/dev/tty", "/dev/urandom")


class Places(NamedTuple):
    """Folders, each with its last slash: the person's own, all walks of this computer, what programs are read from."""

    own: tuple[str, ...]
    walks: tuple[str, ...]
    read: tuple[str, ...]
    known: dict[str, str]
    """Where folders lie that programs are read from: they do not move while a program runs."""

    def may_read(self, path: str) -> bool:
        """Tell whether a file or folder may be read: nobody else's walks, and nothing that is no program."""
        lies = self._lies(path)
        return lies in DEVICES or _under(lies, self.own) or self._shared(lies)

    def may_load(self, path: str) -> bool:
        """Tell whether a library may be loaded: none from where somebody can write. A bare name is the system's."""
        return "/" not in path or self._shared(self._lies(path))

    def may_write(self, path: str) -> bool:
        """Tell whether a file may be written, made or taken away."""
        lies = os.path.realpath(path)
        return lies in DEVICES or _under(lies, self.own)

    def is_own(self, path: str) -> bool:
        """Tell whether something lies in the person's own folder, or is that folder."""
        return _under(os.path.realpath(path), self.own)

    def _shared(self, lies: str) -> bool:
        return _under(lies, self.read) and not _under(lies, self.walks) and not _under(lies, self.own)

    def _lies(self, path: str) -> str:
        """Return where a path leads in the end. It is asked for every file that is opened, so folders are kept."""
        folder, _, name = path.rpartition("/")
        if not path.startswith("/") or name in ("", ".", ".."):
            return os.path.realpath(path)
        there = self.known.get(folder)
        if there is None:
            there = os.path.realpath(folder or "/")
            if self._shared(there):
                self.known[folder] = there
        lies = f"{there.rstrip('/')}/{name}"
        return os.path.realpath(lies) if os.path.islink(lies) else lies  # noqa: PTH114 (quicker)


def places(own: Path, walks: Path) -> Places:
    """Return where somebody may read and write whose walks lie in `own`, one of the folders in `walks`."""
    code = [sys.prefix, sys.exec_prefix, sys.base_prefix, sys.base_exec_prefix, *sys.path]
    code += [str(trees()), str(demo_data()), str(Path(__file__).parents[1]), *SYSTEM]
    return Places(_both([own]), _both([walks]), _both(map(Path, code)), {})


def _both(folders: Iterable[Path]) -> tuple[str, ...]:
    """Return each folder as it was named and as it lies."""
    found = {
        str(way).rstrip("/") + "/" for folder in folders for way in (folder.absolute(), folder.resolve())
    }
    return tuple(sorted(found))


def _under(path: str, folders: tuple[str, ...]) -> bool:
    return f"{path}/".startswith(folders)
