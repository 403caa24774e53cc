"""`shorewalk guarded PERSON`: what sshd starts for a shared account, whatever was asked for."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from shorewalk.exits import Exit
from shorewalk.reach import WENT_WRONG, Reach, narrow

from .asking import HELP, NotAllowed, Wish, read_wish
from .environment import clean, settle

NAME = re.compile(r"[a-z_]([a-z0-9._-]*[a-z0-9_])?")
LONGEST = 32
NO_NAME = "PERSON is a name in small letters, digits and . _ -, as in ann, j.smith or park-office."
NOT_ALONE = (
    "begin it as python -I -m shorewalk guarded PERSON, so that no variable of a client reaches Python."
)
NO_TERMINAL = "This login needs a terminal: ssh -t, then the host and what you ask for."


class NotClear(Exception):  # noqa: N818 (said to whoever keeps the computer)
    """The forced command itself is not as it must be."""


class Login(NamedTuple):
    """What the forced command says: whose walks, in which folder of walks, and whether all is in plain text."""

    person: str
    home: Path | None = None
    plain: bool = False


def run_guarded(words: Sequence[str]) -> int:
    """Open what was asked for over ssh, guarded; return what to exit with."""
    try:
        login = read_login(words)
        _stand_alone()
        asked = clean()
        own = _own_folder(login)
        _raise_guard(own, own.parents[1])
        return _open(read_wish(asked), plain=login.plain)
    except NotClear as error:
        _say(f"shorewalk guarded: {error}")
    except NotAllowed as error:
        _say(str(error))
    return Exit.USAGE


def _say(line: str) -> None:
    """Say a line beside the result; on a terminal it is broken between words."""
    if sys.stderr.isatty():
        from shorewalk.listing import fitted

        line = fitted(line)
    sys.stderr.write(f"{line}\n")


def read_login(words: Sequence[str]) -> Login:
    """Return what the forced command says; raise `NotClear`."""
    names: list[str] = []
    home, plain = None, False
    rest = iter(words)
    for word in rest:
        name, given, value = word.partition("=")
        if word == "--plain":
            plain = True
        elif name == "--home":
            home = Path(value if given else next(rest, ""))
            if not home.is_absolute():
                raise NotClear("--home takes a whole path, from / on.")
        else:
            names.append(word)
    if len(names) != 1:
        raise NotClear(f"{'one' if names else 'a'} PERSON is wanted. {NO_NAME}")
    if not NAME.fullmatch(names[0]) or len(names[0]) > LONGEST:
        raise NotClear(f"{NO_NAME} At most {LONGEST} letters.")
    return Login(names[0], home, plain)


def _stand_alone() -> None:
    """Refuse to begin where Python heeds the environment: what it reads there can run code before any of ours."""
    if not sys.flags.isolated:
        raise NotClear(NOT_ALONE)


def _own_folder(login: Login) -> Path:
    from shorewalk.journal.store import home

    try:
        walks = (login.home or home()).resolve()
    except (OSError, RuntimeError) as error:
        raise NotClear(f"walks cannot be kept: {error}. Name a folder with --home.") from None
    return walks / "people" / login.person


def _raise_guard(own: Path, walks: Path) -> None:
    """Shut all in that is not the person's own; what cannot be written is said where walks are kept."""
    from .fence import raise_fence
    from .limits import set_limits
    from .places import places

    here = Path.cwd()
    sys.path[:] = [path for path in sys.path if path and Path(path) != here]
    sys.dont_write_bytecode = True
    saved = own / "saved"
    with suppress(OSError):
        os.umask(0o077)
        saved.mkdir(mode=0o700, parents=True, exist_ok=True)
    os.chdir(own if own.is_dir() else "/")
    settle(own)
    narrow(Reach(own.name, saved))
    set_limits()
    raise_fence(places(own, walks))


def _open(wish: Wish, *, plain: bool) -> int:
    """Open what is wished for; nothing that goes wrong shows more than a line."""
    if wish.what == "help":
        sys.stdout.write(f"{HELP}\n")
        return Exit.CLEAN
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise NotAllowed(NO_TERMINAL)
    from .keys import keys_taken
    from .opening import open_wish

    try:
        with keys_taken(sys.stdin.fileno()):
            return open_wish(wish._replace(plain=wish.plain or plain))
    except (KeyboardInterrupt, OSError):
        raise  # the way in says what has to be said of these
    except Exception:  # noqa: BLE001 (a traceback shows paths and answers to whoever sits there)
        sys.stderr.write(f"{WENT_WRONG}\n")
        return Exit.UNFINISHED
