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
CHANGES = ("os.remove", "os.rmdir", "os.mkdir", "os.truncate", "os.chmod", "os.utime", "os.removexattr")
"""What changes the file that is named first."""
LOOKS = ("os.listdir", "os.scandir", "os.listxattr", "os.getxattr", "os.chdir")


def raise_fence(allowed: Places) -> None:
    """Refuse from now on, in this process and for good, what lies beyond `allowed`."""
    rules: dict[str, Callable[[tuple[Any, ...]], object]] = dict.fromkeys(NEVER, _refuse)
    rules |= dict.fromkeys(CHANGES, lambda about: _written(allowed, about[0]))
    rules |= dict.fromkeys(LOOKS, lambda about: _read(allowed, about[0]))
    rules |= {
        "open": lambda about: _opened(allowed, about),
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

    sys.addaudithook(hook)


def _refuse(about: tuple[Any, ...]) -> NoReturn:
    del about
    raise PermissionError(errno.EACCES, WORDS)


def _opened(allowed: Places, about: tuple[Any, ...]) -> None:
    path, _, flags = about
    if isinstance(flags, int) and flags & WRITING:
        _written(allowed, path)
    else:
        _read(allowed, path)


def _renamed(allowed: Places, about: tuple[Any, ...]) -> None:
    for path in about[:2]:
        _written(allowed, path)


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
