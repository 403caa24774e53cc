"""The environment of a shared login: a short list stays, of values that can be nothing else; the rest is dropped.

Libraries write logs, load code and look elsewhere for files where a variable says so. Hence this comes before them.
"""

from __future__ import annotations

import os
import re
from collections.abc import MutableMapping
from pathlib import Path

ASKED = "SSH_ORIGINAL_COMMAND"
WORD = re.compile(r"[A-Za-z0-9][A-Za-z0-9._@:+-]{0,63}")
ZONE = re.compile(r"[A-Za-z][A-Za-z0-9_+-]{0,31}(/[A-Za-z0-9_+-]{1,31}){0,2}")
COLOURS = re.compile(r"[a-z0-9;]{1,16}")
KEPT = {
    **dict.fromkeys(("TERM", "COLORTERM", "LANG", "SHOREWALK_LOOK", "SHOREWALK_ASCII"), WORD),
    "COLORFGBG": COLOURS,
    "TZ": ZONE,
    "NO_COLOR": None,
    "HOME": None,
    "PATH": None,
}
"""Names that stay; with a form, only where the value has it."""
LOCALE = re.compile(r"LC_[A-Z]{1,20}")
CONNECTION = "SSH_CONNECTION"
"""Stays as well: only sshd sets it, and by it the program knows how it is reached."""


def clean(environ: MutableMapping[str, str] = os.environ) -> str:
    """Drop all that may not stay; return what was asked for over ssh."""
    asked = environ.get(ASKED, "")
    for name, value in [*environ.items()]:
        if not _stays(name, value):
            del environ[name]
    return asked


def settle(own: Path, environ: MutableMapping[str, str] = os.environ) -> None:
    """Let walks, and what libraries put aside for a moment, lie in the person's own folder."""
    for name in ("SHOREWALK_HOME", "TMPDIR", "SQLITE_TMPDIR"):
        environ[name] = str(own)


def _stays(name: str, value: str) -> bool:
    if name == CONNECTION:
        return True
    if LOCALE.fullmatch(name):
        return bool(WORD.fullmatch(value))
    form = KEPT.get(name)
    return name in KEPT and (form is None or bool(form.fullmatch(value)))
