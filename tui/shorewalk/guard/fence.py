"""The second line of defence: what a shared login may not do is refused by the interpreter, whoever asks for it.

The first line is that nothing offers it. Should something do so all the same, the interpreter asks this hook first
(`sys.addaudithook`), which cannot be taken away again. It is no wall against code that somebody brings along; that
no such code gets in is what the rest of this room is for.
"""

from __future__ import annotations

import errno
import os
import socket
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any, NoReturn
from urllib.parse import unquote

from .places import Places

WORDS = "a shared login does not allow that"
WRITING = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND

NEVER = (
    *("subprocess.Popen", "os.system", "os.exec", "os.fork", "os.forkpty", "os.posix_spawn", "os.spawn"),
    *("os.startfile", "os.killpg", "pty.spawn", "webbrowser.open", "urllib.Request"),
    *("socket.connect", "socket.bind", "socket.sendto", "socket.sendmsg", "socket.sethostname"),
    *("socket.getaddrinfo", "socket.getnameinfo", "socket.gethostbyname", "socket.gethostbyaddr"),
    *("os.link", "os.symlink", "os.setxattr", "os.chown", "resource.setrlimit", "resource.prlimit"),
    *("sqlite3.enable_load_extension", "sqlite3.load_extension"),
)
CHANGES = {
    **dict.fromkeys(("os.remove", "os.rmdir"), 1),
    **dict.fromkeys(("os.mkdir", "os.chmod"), 2),
    "os.utime": 3,
    **dict.fromkeys(("os.truncate", "os.removexattr", "os.chflags"), None),
}
"""What changes the file that is named first; and which word names the open folder that it is named from."""
LOOKS = ("os.listdir", "os.scandir", "os.listxattr", "os.getxattr")
UNASKED = ("mkfifo", "mknod", "chroot")
"""What the interpreter does without asking a hook."""


def raise_fence(allowed: Places) -> None:
    """Refuse from now on, in this process and for good, what lies beyond `allowed`."""
    rules: dict[str, Callable[[tuple[Any, ...]], object]] = dict.fromkeys(NEVER, _refuse)
    rules |= {event: partial(_changed, allowed, start) for event, start in CHANGES.items()}
    rules |= dict.fromkeys(LOOKS, lambda about: _read(allowed, about[0]))
    rules |= {
        "open": lambda about: _opened(allowed, about),
        "os.chdir": lambda about: _kept_home(allowed, about[0]),
        "os.rename": lambda about: _renamed(allowed, about),
        "os.kill": lambda about: about[0] == os.getpid() or _refuse(about),
        "socket.__new__": lambda about: about[1] == socket.AF_UNIX or _refuse(about),  # the loop's own pair
        "sqlite3.connect": lambda about: _connected(allowed, about[0]),
        "ctypes.dlopen": lambda about: _loaded(allowed, about[0]),
    }

    def hook(event: str, about: tuple[Any, ...]) -> None:
        rule = rules.get(event)
        if rule is not None:
            rule(about)

    for name in UNASKED:
        for module in (os, sys.modules[os.name]):
            if hasattr(module, name):
                setattr(module, name, _refuse)
    sys.addaudithook(hook)


def _refuse(*about: object, **also: object) -> NoReturn:
    del about, also
    raise PermissionError(errno.EACCES, WORDS)


def _opened(allowed: Places, about: tuple[Any, ...]) -> None:
    path, mode, flags = about
    if mode is None and not isinstance(path, int) and Path(_text(path)).is_dir():
        # Where a path is named from an open folder, the hook is not told from which: so none is open but one's own.
        _kept_home(allowed, path)
    elif isinstance(flags, int) and flags & WRITING:
        _written(allowed, path)
    else:
        _read(allowed, path)


def _renamed(allowed: Places, about: tuple[Any, ...]) -> None:
    for path, start in zip(about[:2], about[2:], strict=True):
        _written(allowed, _from(path, start))


def _changed(allowed: Places, start: int | None, about: tuple[Any, ...]) -> None:
    _written(allowed, about[0] if start is None else _from(about[0], about[start]))


def _from(path: object, start: int) -> object:
    """Return a path that may be named from an open folder as one that is named from the top."""
    if isinstance(path, int) or start < 0 or Path(_text(path)).is_absolute():
        return path
    try:
        return Path(f"/proc/self/fd/{start}").readlink() / _text(path)
    except OSError:
        raise PermissionError(errno.EACCES, WORDS) from None


def _kept_home(allowed: Places, folder: object) -> None:
    if not isinstance(folder, int) and not allowed.is_own(_text(folder)):
        raise PermissionError(errno.EACCES, WORDS)


def _connected(allowed: Places, database: object) -> None:
    name = os.fsdecode(database) if isinstance(database, str | bytes | os.PathLike) else ""
    if name.startswith("file:"):
        name = unquote(name.partition("?")[0].removeprefix("file:"))
        name = f"/{name.lstrip('/')}" if name.startswith("/") else name
    if name != ":memory:":
        _written(allowed, name)


def _written(allowed: Places, path: object) -> None:
    if not isinstance(path, int) and not allowed.may_write(_text(path)):
        raise PermissionError(errno.EACCES, WORDS)


def _read(allowed: Places, path: object) -> None:
    if not isinstance(path, int) and not allowed.may_read(_text(path)):
        raise PermissionError(errno.EACCES, WORDS)


def _loaded(allowed: Places, path: object) -> None:
    if path is not None and not allowed.may_load(_text(path)):
        raise PermissionError(errno.EACCES, WORDS)


def _text(path: object) -> str:
    return os.fsdecode(path) if isinstance(path, str | bytes | os.PathLike) else os.curdir
