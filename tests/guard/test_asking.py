"""What may be asked for over a shared login."""

from __future__ import annotations

import pytest

from shorewalk.guard.asking import ALLOWED, LONGEST, NotAllowed, Wish, read_wish


@pytest.mark.parametrize(
    ("asked", "wish"),
    [
        ("", Wish()),
        ("shorewalk", Wish()),
        ("--plain", Wish(plain=True)),
        ("shorewalk --plain", Wish(plain=True)),
        ("help", Wish("help")),
        ("walk zap", Wish("walk", "zap")),
        ("shorewalk walk no power --plain", Wish("walk", "no power", plain=True)),
        ("walk 'no power' --aloud", Wish("walk", "no power", aloud=True)),
        ("walk --resume last --plain", Wish("walk", resume="last", plain=True)),
        ("practice", Wish("practice")),
        ("practice creek-1 --plain", Wish("practice", "creek-1", plain=True)),
    ],
)
def test_what_is_allowed_is_read(asked: str, wish: Wish) -> None:
    """Each form that is offered comes to what it says."""
    assert read_wish(asked) == wish


@pytest.mark.parametrize(
    "asked",
    [
        "sh",
        "bash -i",
        "scp -t there",
        "rsync --server .",
        "/usr/lib/openssh/sftp-server",
        "internal-sftp",
        "shorewalk lint",
        "shorewalk preview arrival",
        "shorewalk new mine",
        "shorewalk log",
        "log --delete-all --yes",
        "hand-over last -",
        "take-over -",
        "print arrival",
        "guarded bob",
        "shorewalk guarded bob",
        "walk",
        "walk zap --jsonl",
        "walk zap --meter good",
        "walk --resume 3",
        "walk --resume",
        "walk zap --resume last",
        "walk --resume=last",
        "walk ./mine.yaml",
        "walk ../../bob/mine",
        "walk ~bob",
        "walk mine.yaml",
        "walk zap; id",
        "walk $(id)",
        "walk `id`",
        "walk zap | sh",
        "walk zap > there",
        "walk zap\nid",
        "walk zap\x1b[2J",
        "walk zap\u202e",
        "walk 'zap",
        "practice creek-1 creek-2",
        "practice --seed 3",
        "practice --aloud",
        "--aloud",
        "--home there",
        "walk " + "a" * LONGEST,
    ],
)
def test_all_else_is_refused_in_one_line_that_says_what_is_allowed(asked: str) -> None:
    """No other program, no path, no number of a walk, no sign a shell obeys, nothing that is not seen."""
    with pytest.raises(NotAllowed) as refused:
        read_wish(asked)
    (line,) = str(refused.value).splitlines()
    assert line.endswith(ALLOWED)
    assert "\x1b" not in line
