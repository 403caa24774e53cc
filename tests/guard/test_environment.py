"""What a shared login leaves of the environment."""

from __future__ import annotations

from pathlib import Path

from shorewalk.guard.environment import clean, settle

STAYS = {
    "TERM": "xterm-256color",
    "COLORTERM": "truecolor",
    "LANG": "en_US.UTF-8",
    "LC_ALL": "C.UTF-8",
    "TZ": "America/Indiana/Knox",
    "NO_COLOR": "1",
    "COLORFGBG": "15;default;0",
    "SHOREWALK_LOOK": "daylight",
    "SHOREWALK_ASCII": "1",
    "HOME": "/home/family",
    "PATH": "/usr/bin",
    "SSH_CONNECTION": "127.0.0.1 1 127.0.0.1 2",
}
GOES = (
    *(
        "TEXTUAL_LOG",
        "TEXTUAL_DRIVER",
        "TEXTUAL_DEBUG",
        "TEXTUAL_SCREENSHOT",
        "TEXTUAL_PRESS",
        "TEXTUAL_THEME",
    ),
    *(
        "PYTHONPATH",
        "PYTHONBREAKPOINT",
        "PYTHONINSPECT",
        "LD_PRELOAD",
        "SHOREWALK_HOME",
        "SHOREWALK_COMPLETE",
    ),
    *(
        "XDG_DATA_HOME",
        "TMPDIR",
        "SQLITE_TMPDIR",
        "LOCPATH",
        "BROWSER",
        "COLUMNS",
        "LINES",
        "LC_all",
        "EDITOR",
    ),
)


def test_a_short_list_stays_and_all_else_goes() -> None:
    """What names a terminal, a language or a zone stays; what loads code, writes files or moves folders goes."""
    environ = {**STAYS, **dict.fromkeys(GOES, "1"), "SSH_ORIGINAL_COMMAND": "walk zap"}
    assert clean(environ) == "walk zap"
    assert environ == STAYS


def test_a_value_that_can_be_something_else_goes_too() -> None:
    """A terminal, a language or a zone that is a path, or holds what a terminal obeys, is dropped."""
    environ = {
        "TERM": "../../there",
        "LANG": "/tmp/there",  # noqa: S108 (a path is what it must not be)
        "LC_ALL": "C\x1b[2J",
        "TZ": ":/etc/passwd",
        "COLORTERM": "a b",
    }
    assert clean(environ) == ""
    assert environ == {}


def test_what_is_put_aside_lies_in_the_own_folder() -> None:
    """Walks, and files that libraries make for a moment, go to the person's own folder."""
    environ: dict[str, str] = {}
    settle(Path("/walks/people/ann"), environ)
    assert set(environ) == {"SHOREWALK_HOME", "TMPDIR", "SQLITE_TMPDIR"}
    assert set(environ.values()) == {"/walks/people/ann"}
